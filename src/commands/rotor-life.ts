/** Opens the finished jobs of one rotor, for its history. */
import type { LifeEvent } from '../engine/journal/entry.js';
import { State } from '../engine/state/state.js';
import type { Library } from '../library/library.js';
import { marksOf } from '../life/due.js';
import { historyOf } from '../life/history.js';
import { rotorKey } from '../life/life-mark.js';
import { type FinishedJob, type Shelved, shelfOf, type Taken, takenOver } from '../life/take-over.js';
import { lifePages, type ScreenPage } from '../sheet/life-pages.js';
import type { Store } from '../store/open-store.js';
import { entriesFrom } from './find-job.js';
import { basisOfJob, modelToday } from './job-basis.js';

/** Its finished jobs with what each stands on; a sentence when one can't be read. */
export async function finishedJobs(
  store: Store,
  library: Library,
  folder: string,
  rotor: string,
): Promise<readonly FinishedJob[] | string> {
  const listed = store.list();
  if (!listed.ok) return listed.trouble.sentence;
  const own = marksOf(listed.value).filter((m) => rotorKey(m.rotor) === rotorKey(rotor));
  const jobs = await readJobs(store, library, folder, own);
  const trouble = jobs.find((j) => typeof j === 'string');
  return trouble ?? jobs.filter((j) => typeof j !== 'string');
}

/** Each with what it stands on, or a sentence where it can't be read. */
async function readJobs(
  store: Store,
  library: Library,
  folder: string,
  listed: readonly { readonly job: string }[],
): Promise<readonly (FinishedJob | string)[]> {
  const read = entriesFrom(store);
  const jobs: (FinishedJob | string)[] = [];
  for (const { job } of listed) {
    const entries = await read(job);
    if (!entries) continue;
    const basis = await basisOfJob(library, folder, entries, read);
    const at = Date.parse(entries.at(-1)?.at ?? '');
    jobs.push(
      typeof basis === 'string'
        ? basis
        : { job, state: new State(basis.model, entries, at, { earlier: basis.earlier }) },
    );
  }
  return jobs;
}

/** What a new job takes over; a sentence when an earlier one can't be read. */
export async function takenOverFrom(
  store: Store,
  library: Library,
  folder: string,
  rotor: string,
  procedure: string,
): Promise<readonly Taken[] | string> {
  if (!library.procedures.has(procedure)) return [];
  const jobs = await finishedJobs(store, library, folder, rotor);
  if (typeof jobs === 'string') return `What is known of this rotor can’t be read: ${jobs}`;
  return takenOver(modelToday(library, procedure), jobs);
}

/** Finished jobs that are looked at for what the shop has at hand. */
const SHELF_JOBS = 3;

/** What the latest finished jobs of the shop had at hand; nothing of one that can't be read. */
export async function shelfFrom(
  store: Store,
  library: Library,
  folder: string,
  procedure: string,
): Promise<readonly Shelved[]> {
  const listed = store.list();
  if (!listed.ok || !library.procedures.has(procedure)) return [];
  const latest = [...marksOf(listed.value)].sort((a, b) => (a.at < b.at ? 1 : -1)).slice(0, SHELF_JOBS);
  const jobs = await readJobs(store, library, folder, latest);
  return shelfOf(
    modelToday(library, procedure),
    jobs.filter((j) => typeof j !== 'string'),
  );
}

/**
 * What a new job is told of its rotor. A job that can't be read keeps nobody from beginning another.
 * @param named the rotor, or the job of it that is followed
 */
export async function livedSoFar(
  store: Store,
  library: Library,
  folder: string,
  named: string,
): Promise<readonly LifeEvent[]> {
  const listed = store.list();
  const followed = listed.ok ? listed.value.find((j) => j.id === named)?.summary.rotor : undefined;
  const jobs = await finishedJobs(store, library, folder, typeof followed === 'string' ? followed : named);
  return typeof jobs === 'string' ? [] : historyOf(jobs);
}

/** Its life as pages to be read in the guide. */
export async function rotorTold(
  store: Store,
  library: Library,
  folder: string,
  rotor: string,
): Promise<readonly ScreenPage[]> {
  const jobs = await finishedJobs(store, library, folder, rotor);
  return typeof jobs === 'string'
    ? [{ title: '', lines: () => [[{ text: jobs }]] }]
    : lifePages(rotor, historyOf(jobs));
}
