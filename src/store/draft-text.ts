/** The value that was being typed when the window closed: written a moment after the last key, and no loss if it isn't. */
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Places } from './data-folder.js';
import { smallFile } from './small-file.js';

export interface DraftText {
  /** Where it is being typed: the caller's own name of step, place and value. */
  readonly where: string;
  readonly text: string;
}

export interface DraftFile {
  get(): DraftText | undefined;
  set(draft: DraftText | undefined): void;
  /** Writes what is still waiting. */
  flush(): Promise<void>;
}

const longest = 20_000;
const quietMs = 300;

/** @param canWrite asked before each write, so that a window that may only look leaves no trace */
export function draftFile(places: Places, id: string, canWrite: () => boolean): DraftFile {
  const file = smallFile(places.drafts, id);
  let now: DraftText | undefined;
  let known = false;
  let timer: NodeJS.Timeout | undefined;

  const read = (): DraftText | undefined => {
    const { where, text } = file.read();
    return typeof where === 'string' && typeof text === 'string' && text.length <= longest
      ? { where, text }
      : undefined;
  };
  const write = async (): Promise<void> => {
    if (timer) clearTimeout(timer);
    timer = undefined;
    if (!canWrite()) return;
    try {
      if (now) await file.update(() => ({ ...now }));
      else rmSync(join(places.drafts, `${id}.json`), { force: true });
    } catch {
      // Only what was not yet confirmed is lost.
    }
  };
  return {
    get() {
      if (!known) now = read();
      known = true;
      return now;
    },
    set(draft) {
      known = true;
      now = draft && { where: draft.where, text: draft.text.slice(0, longest) };
      if (timer) clearTimeout(timer);
      timer = setTimeout(() => void write(), quietMs);
      timer.unref();
    },
    async flush() {
      if (timer) await write();
    },
  };
}
