/** The values that are typed and not confirmed yet: written a moment after the last key, and no loss if they aren't. */
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { isRecord } from '../guards/guards.js';
import type { Places } from './data-folder.js';
import { smallFile } from './small-file.js';

export interface DraftText {
  /** Where it is being typed: the caller's own name of step, place and value. */
  readonly where: string;
  readonly text: string;
}

export interface DraftFile {
  /** The one typed last stands last. */
  get(): readonly DraftText[];
  set(drafts: readonly DraftText[]): void;
  /** Writes what is still waiting. */
  flush(): Promise<void>;
}

const longest = 20_000;
/** Characters of all of them; the oldest go first. */
const mostTogether = 200_000;
const quietMs = 300;

function isDraft(value: unknown): value is DraftText {
  if (!isRecord(value)) return false;
  const { where, text } = value;
  return typeof where === 'string' && typeof text === 'string' && text.length <= longest;
}

const plain = ({ where, text }: DraftText): DraftText => ({ where, text: text.slice(0, longest) });

function newest(drafts: readonly DraftText[]): readonly DraftText[] {
  const all = drafts.map(plain);
  let room = mostTogether;
  const tooMuch = all.findLastIndex((d) => {
    room -= d.where.length + d.text.length;
    return room < 0;
  });
  return all.slice(tooMuch + 1);
}

/** @param canWrite asked before each write, so that a window that may only look leaves no trace */
export function draftFile(places: Places, id: string, canWrite: () => boolean): DraftFile {
  const file = smallFile(places.drafts, id);
  let now: readonly DraftText[] | undefined;
  let timer: NodeJS.Timeout | undefined;

  const read = (): readonly DraftText[] => {
    const found = file.read();
    if (Array.isArray(found.drafts)) return newest(found.drafts.filter(isDraft));
    // Once only the last one was kept.
    return isDraft(found) ? [plain(found)] : [];
  };
  const write = async (): Promise<void> => {
    if (timer) clearTimeout(timer);
    timer = undefined;
    if (!canWrite()) return;
    try {
      if (now?.length) await file.update(() => ({ drafts: now }));
      else rmSync(join(places.drafts, `${id}.json`), { force: true });
    } catch {
      // Only what was not yet confirmed is lost.
    }
  };
  return {
    get() {
      now ??= read();
      return now;
    },
    set(drafts) {
      now = newest(drafts);
      if (timer) clearTimeout(timer);
      timer = setTimeout(() => void write(), quietMs);
      timer.unref();
    },
    async flush() {
      if (timer) await write();
    },
  };
}
