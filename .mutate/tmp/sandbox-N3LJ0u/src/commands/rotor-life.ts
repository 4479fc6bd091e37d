/** Opens the finished jobs of one rotor, for its history. */
// @ts-nocheck

import { State } from '../engine/state.js';
import type { Library } from '../library/library.js';
import { marksOf } from '../life/due.js';
import { historyOf, type LifeEvent } from '../life/history.js';
import { rotorKey } from '../life/life-mark.js';
import type { Store } from '../store/open-store.js';
import { entriesFrom } from './find-job.js';
import { basisOfJob } from './job-basis.js';

/** @returns events oldest first; a sentence when a job can't be read */
export async function lifeOfRotor(
  store: Store,
  library: Library,
  folder: string,
  rotor: string,
): Promise<readonly LifeEvent[] | string> {
  const listed = store.list();
  if (!listed.ok) return listed.trouble.sentence;
  const own = marksOf(listed.value).filter((m) => rotorKey(m.rotor) === rotorKey(rotor));
  const read = entriesFrom(store);
  const jobs: { job: string; state: State }[] = [];
  for (const { job } of own) {
    const entries = await read(job);
    if (!entries) continue;
    const basis = await basisOfJob(library, folder, entries, read);
    if (typeof basis === 'string') return basis;
    const at = Date.parse(entries.at(-1)?.at ?? '');
    jobs.push({ job, state: new State(basis.model, entries, at, { earlier: basis.earlier }) });
  }
  return historyOf(jobs);
}
