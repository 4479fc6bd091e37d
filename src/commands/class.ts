/** The class that practised last, from the jobs of a data folder. */
import type { Library } from '../library/library.js';
import type { JobHead, Store } from '../store/open-store.js';
import type { ClassJob, PracticeClass } from '../training/class-lines.js';
import { debriefOfJob, noteProgress } from './debrief-of-job.js';
import { rotorById } from './practice-rotors.js';

/** What was worked on within so long before the last key is one class; ms. */
const LESSON = 12 * 60 * 60_000;

/** By the computer's clock: entries are ahead of it where time was let pass. */
function lastKey({ summary, changed }: JobHead, now: number): number {
  const at = Date.parse(typeof summary.touched === 'string' ? summary.touched : changed);
  return Number.isNaN(at) ? 0 : Math.min(at, now);
}

function placed({ summary, changed }: JobHead, now: number): Pick<ClassJob, 'next' | 'waits'> {
  const { next, after, waits } = summary;
  const until = typeof summary.until === 'string' ? Date.parse(summary.until) : Number.NaN;
  const waiting = until > Math.max(now, Date.parse(changed) || 0);
  return {
    next: String((!waiting && after) || next || 'not begun'),
    // A step that can be done meanwhile is no wait.
    ...(waiting && !next && typeof waits === 'string' ? { waits } : {}),
  };
}

/** A sentence when there is none, or the jobs can't be read. */
export async function classIn(
  store: Store,
  library: Library,
  folder: string,
  now: number,
): Promise<(PracticeClass & { readonly troubles: readonly string[] }) | string> {
  const listed = store.list();
  if (!listed.ok) return listed.trouble.sentence;
  const all = listed.value.filter((j) => j.practice !== undefined && !j.fault && rotorById(library, j.practice));
  const last = Math.max(...all.map((j) => lastKey(j, now)));
  const own = all.filter((j) => last - lastKey(j, now) <= LESSON);
  if (!own.length) return 'Nobody has practised here yet; start with rotorside practice.';
  const troubles: string[] = [];
  const jobs: ClassJob[] = [];
  for (const head of own) {
    const debrief = await debriefOfJob(store, library, folder, head);
    if (typeof debrief === 'string') {
      troubles.push(debrief);
      continue;
    }
    const trouble = await noteProgress(store, head.id, debrief);
    if (trouble) troubles.push(trouble);
    jobs.push({ debrief, ...placed(head, now), still: (now - lastKey(head, now)) / 60_000 });
  }
  return {
    day: new Date(last).toISOString().slice(0, 10),
    jobs,
    over: now - last > LESSON,
    left: all.length - own.length,
    troubles,
  };
}
