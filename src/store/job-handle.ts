/** One open job: its entries as they stand on disk, and the one way to add to them. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Draft, Entry } from '../engine/journal/entry.js';
import { isList } from '../guards/guards.js';
import { toEntries } from './check-entry.js';
import type { Places } from './data-folder.js';
import { type DraftFile, type DraftText, draftFile } from './draft-text.js';
import { isSummary, type JobContent, jobText, type Summary, withEntries } from './job-file.js';
import { headOf, type JobHead, noteHead } from './job-index.js';
import type { JobLock } from './job-lock.js';
import { lookUpJob } from './recover-job.js';
import { type JobWriter, type Stamp, stampOf, stampOrNone } from './save-job.js';
import { done, onTheWall, type Result, refused, troubleOf } from './trouble.js';

export interface JobHandle {
  readonly id: string;
  readonly name: string;
  /** Never changed in place: each append gives a new list. */
  readonly entries: readonly Entry[];
  readonly head: JobHead;
  readonly readOnly: boolean;
  /** Why nothing can be added here, as a sentence. */
  readonly whyReadOnly?: string;
  /** Of a job that is only looked at: true when another program went on with it, and its entries are here now. */
  reread(): boolean;
  /**
   * Adds entries: numbered, stamped, and on disk for good before it returns. When it is refused, memory and disk
   * are as before and the same call may be made again. A notice warns of a clock that was set back.
   * @param summary what the first screen shows of the job from now on; as before when left out
   */
  append(drafts: Draft | readonly Draft[], summary?: Summary): Result<readonly Entry[]>;
  /** What was typed and not yet confirmed, of each place where something is; the newest last. */
  draftTexts(): readonly DraftText[];
  setDraftTexts(drafts: readonly DraftText[]): void;
  /** Writes the draft texts and lets others write to the job. */
  close(): Promise<void>;
}

export interface Keys {
  readonly lock: JobLock;
  readonly writer: JobWriter;
  readonly stamp: Stamp;
}

interface Parts {
  readonly places: Places;
  readonly content: JobContent;
  readonly clock: () => Date;
  /** What writing needs; nothing for a job that is only looked at. */
  readonly keys?: Keys;
  readonly whyReadOnly?: string;
}

/** A clock set back by less than this is no news, in milliseconds. */
const clockSlack = 60_000;

const what = 'This entry could not be saved';

function keptWords(count: number): string {
  return count === 1 ? 'The one entry before it is kept.' : `All ${count} entries before it are kept.`;
}

export function openHandle(parts: Parts): JobHandle {
  const { places, clock, keys } = parts;
  const { id } = parts.content;
  const file = join(places.jobs, `${id}.json`);
  let content = parts.content;
  let stamp = keys?.stamp ?? stampOrNone(file);
  let whyReadOnly = parts.whyReadOnly;
  /** What a save that failed may have left on disk all the same, where a drive went away before it could be put back. */
  let tried: JobContent | undefined;
  let closed = false;
  const draft: DraftFile = draftFile(places, id, () => keys !== undefined && !closed && whyReadOnly === undefined);

  /** Refuses when the file on disk is no longer what we hold, whoever changed it. */
  const proveSame = (): ReturnType<typeof refused> | undefined => {
    if (stampOf(file) === stamp) return undefined;
    const text = readFileSync(file, 'utf8');
    if (text === jobText(content) || (tried && text === jobText(tried))) {
      stamp = stampOf(file);
      return undefined;
    }
    whyReadOnly = 'Another window or program changed this job; close it here and open it again to see the change.';
    return refused('changed', `${what}. ${whyReadOnly}`);
  };
  const append = (list: readonly Draft[], summary: Summary): Result<readonly Entry[]> => {
    if (closed) return refused('closed', `${what} because the job was closed here. Open it again.`);
    if (!keys || whyReadOnly !== undefined) return refused('locked', `${what}. ${whyReadOnly ?? ''}`.trim());
    const now = clock();
    if (Number.isNaN(now.getTime())) return refused('failed', `${what} because this computer's clock gives no time.`);
    if (now.getFullYear() < 1 || now.getFullYear() > 9999)
      return refused(
        'failed',
        `${what} because this computer's clock stands in the year ${now.getFullYear()}; set the clock right and answer again.`,
      );
    const entries = toEntries(list, content.entries.length, now.toISOString());
    if (typeof entries === 'string') return refused('invalid', `${what} because it is not well formed (${entries}).`);
    if (!isSummary(summary)) return refused('invalid', `${what} because its summary is not small and plain.`);
    const changed = proveSame();
    if (changed) return changed;
    const other = keys.lock.heldBy();
    if (other !== undefined) {
      whyReadOnly = lockedBy(other);
      return refused('locked', `${what}. ${whyReadOnly}`);
    }
    const next = withEntries(content, entries, summary);
    tried = next;
    stamp = keys.writer.save(next);
    tried = undefined;
    const notice = clockNotice(content.entries.at(-1)?.at, now);
    content = next;
    noteHead(places, headOf(content));
    return done(entries, notice);
  };

  return {
    id,
    get name() {
      return content.name;
    },
    get entries() {
      return content.entries;
    },
    get head() {
      return headOf(content);
    },
    get readOnly() {
      return closed || !keys || whyReadOnly !== undefined;
    },
    get whyReadOnly() {
      return whyReadOnly;
    },
    append(drafts, summary = content.summary) {
      try {
        return append(isList(drafts) ? drafts : [drafts], summary);
      } catch (error) {
        return troubleOf(error, what, keptWords(content.entries.length));
      }
    },
    reread() {
      try {
        const seen = keys ? stamp : stampOrNone(file);
        if (seen === stamp) return false;
        const found = lookUpJob(places, id);
        // One that is damaged now is told when it is opened; here it stands as it was read.
        if (found.kind !== 'good') return false;
        stamp = seen;
        content = found.content;
        return true;
      } catch {
        // The drive is away for now.
        return false;
      }
    },
    draftTexts: () => draft.get(),
    setDraftTexts: (drafts) => draft.set(drafts),
    async close() {
      if (closed) return;
      await draft.flush();
      closed = true;
      keys?.lock.release();
    },
  };
}

/** The sentence for a job that somebody else writes to. */
export function lockedBy(other: string): string {
  return (
    `This job is open in another window (${other}), so it can only be looked at here; close it there first. ` +
    'Is there no such window any more? Open the job again in 10 seconds.'
  );
}

/** What to say when the last entry lies ahead of this computer's clock. */
export function clockNotice(last: string | undefined, now: Date): string | undefined {
  if (last === undefined || Date.parse(last) - now.getTime() <= clockSlack) return undefined;
  return (
    `The clock of this computer was set back: it says ${onTheWall(now)}, but the entry before was made at ` +
    `${onTheWall(new Date(last))}. Set the clock right: waiting times go by it. ` +
    'Entries keep their order, and the job sheet tells of it.'
  );
}
