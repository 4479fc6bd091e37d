/** A job as named on the command line: its id, the beginning of it, its name, or the initials of whose practice it is. */
import type { Entry } from '../engine/journal/entry.js';
import { sameInitials } from '../engine/journal/initials.js';
import type { JobHead, Store } from '../store/open-store.js';
import { safeText } from '../text/safe-text.js';
import type { Ended } from './ended.js';

/** @param unnamed which one is meant where none is named: the one that is gone on with, or the last of its kind if any */
export function findJob(
  store: Store,
  named: string | undefined,
  unnamed: 'first' | 'real' | 'practice' = 'first',
): string | Ended {
  if (named === undefined) {
    const own = unnamed === 'first' ? undefined : store.lastWorked(unnamed);
    if (own?.ok && own.value) return own.value.id;
    const latest = store.latest();
    const first = latest.ok ? latest.value.jobs[0] : undefined;
    if (first) return first.id;
  }
  const listed = store.list();
  if (!listed.ok) return { err: listed.trouble.sentence, code: 1 };
  const jobs = listed.value;
  if (jobs.length === 0 || named === undefined) return { err: 'There are no jobs yet; rotorside starts one.', code: 1 };
  const hits = jobs.filter((j) => j.id === named || j.name === named);
  const near = hits.length ? hits : jobs.filter((j) => j.id.startsWith(named));
  if (near.length === 1 && near[0]) return near[0].id;
  // Of one person's practice the job that was worked on last.
  const theirs = near.length ? [] : jobs.filter((j) => whoseJob(j) !== undefined && sameInitials(whoseJob(j)!, named));
  // One that was only set up says nothing yet of what comes next in it.
  const own = theirs.find((j) => j.summary.next !== undefined || j.summary.finished !== undefined) ?? theirs[0];
  if (own) return own.id;
  // Of a damaged one nothing but its number is known.
  const list = (near.length ? near : jobs).slice(0, 10).map((j) => {
    const called = j.fault ? `(${j.fault})` : [j.name, whoseJob(j)].filter(Boolean).join(', ');
    return `  ${j.id}  ${safeText(called, { max: j.fault ? 200 : 60 })}`;
  });
  const word = safeText(named, { max: 60 });
  return {
    err: `${near.length ? `“${word}” fits more than one job` : `There is no job “${word}”`}; name one of:\n${list.join('\n')}`,
    code: 1,
  };
}

/** Initials of whose practice it is; undefined for real work. In an index of before only who worked last is told. */
function whoseJob({ practice, whose, summary }: JobHead): string | undefined {
  if (practice === undefined) return undefined;
  return whose ?? (typeof summary.by === 'string' && summary.by ? summary.by : undefined);
}

/** Reads the entries of another job of the same folder, to look at only. */
export const entriesFrom =
  (store: Store) =>
  async (id: string): Promise<readonly Entry[] | undefined> => {
    const opened = await store.open(id, { readOnly: true });
    return opened.ok ? opened.value.entries : undefined;
  };
