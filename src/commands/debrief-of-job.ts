/** The debrief of a job of the store, and what is kept of it with the apprentice's initials. */
import { State } from '../engine/state/state.js';
import type { Library } from '../library/library.js';
import type { JobHead, Store } from '../store/open-store.js';
import { type Debrief, debriefOf } from '../training/debrief.js';
import { attemptOf, dueFirst } from '../training/progress.js';
import { entriesFrom } from './find-job.js';
import { basisOfJob } from './job-basis.js';
import { minutesOf, timeOf } from './practice-clock.js';
import { rotorById, rotorFor, rotorsOf } from './practice-rotors.js';

/** With its minutes at the keys, where they were counted. A sentence when the job can't be read. */
export async function debriefOfJob(
  store: Store,
  library: Library,
  folder: string,
  head: Pick<JobHead, 'id' | 'summary'>,
): Promise<Debrief | string> {
  const opened = await store.open(head.id, { readOnly: true });
  if (!opened.ok) return opened.trouble.sentence;
  const { entries } = opened.value;
  const basis = await basisOfJob(library, folder, entries, entriesFrom(store));
  if (typeof basis === 'string') return basis;
  const state = new State(basis.model, entries, timeOf(entries), { earlier: basis.earlier });
  const made = debriefOf(state, rotorFor(library, state.ledger.job?.practice, basis.model), rotorsOf(library));
  const keys = minutesOf(head)[0]?.[1];
  return keys === undefined ? made : { ...made, keys };
}

/** Keeps what was practised with the apprentice's initials. @returns a sentence when it could not be kept */
export async function noteProgress(store: Store, jobId: string, d: Debrief): Promise<string | undefined> {
  const attempt = attemptOf(jobId, d, d.keys);
  if (!attempt || store.progress(d.apprentice)[attempt.name] === attempt.value) return undefined;
  const kept = await store.setProgress(d.apprentice, { [attempt.name]: attempt.value });
  return kept.ok ? undefined : kept.trouble.sentence;
}

/** With what is due first by all practice of this person. */
export function withAgain(store: Store, library: Library, d: Debrief): Debrief {
  const first = dueFirst(store.progress(d.apprentice));
  if (!first || d.rotor === undefined) return d;
  const { rotor, ...again } = first;
  const from = rotor === d.rotor ? undefined : rotorById(library, rotor)?.title;
  return { ...d, again: { ...again, ...(from === undefined ? {} : { from }) } };
}
