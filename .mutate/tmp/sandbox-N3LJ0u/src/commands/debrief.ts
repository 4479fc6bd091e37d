/** `rotorside debrief JOB` and `rotorside progress [INITIALS]`: what practice showed, and how far a person has come. */
// @ts-nocheck

import { State } from '../engine/state.js';
import type { Library } from '../library/library.js';
import { openLibrary } from '../library/open-library.js';
import { showProblem } from '../procedure/problem.js';
import { defaultDataFolder, openStore, type Store } from '../store/open-store.js';
import { safeText } from '../text/safe-text.js';
import { type Debrief, debriefOf } from '../training/debrief.js';
import { debriefText } from '../training/debrief-lines.js';
import { attemptOf, progressOf, type RotorProgress } from '../training/progress.js';
import type { Options } from './arguments.js';
import type { Ended } from './ended.js';
import { entriesFrom, findJob } from './find-job.js';
import { basisOfJob } from './job-basis.js';
import { timeOf } from './practice-clock.js';
import { rotorFor, rotorsOf } from './practice-rotors.js';

export async function debrief(o: Options): Promise<Ended> {
  const folder = o.data ?? defaultDataFolder();
  const store = openStore(folder);
  const id = findJob(store, o.rest[0], 'practice');
  if (typeof id !== 'string') return id;
  const { library, problems } = await openLibrary(o.procedures);
  if (problems[0]) return { err: problems.map(showProblem).join('\n'), code: 2 };
  const made = await debriefOfJob(store, library, folder, id);
  if (typeof made === 'string') return { err: made, code: 1 };
  const trouble = await noteProgress(store, id, made);
  return { out: o.json ? JSON.stringify(made, undefined, 2) : debriefText(made), err: trouble, code: 0 };
}

/** A sentence when the job can't be read. */
async function debriefOfJob(store: Store, library: Library, folder: string, id: string): Promise<Debrief | string> {
  const opened = await store.open(id, { readOnly: true });
  if (!opened.ok) return opened.trouble.sentence;
  const { entries } = opened.value;
  const basis = await basisOfJob(library, folder, entries, entriesFrom(store));
  if (typeof basis === 'string') return basis;
  const state = new State(basis.model, entries, timeOf(entries), { earlier: basis.earlier });
  return debriefOf(state, rotorFor(library, state.ledger.job?.practice, basis.model), rotorsOf(library));
}

/** Keeps what was practised with the apprentice's initials. @returns a sentence when it could not be kept */
export async function noteProgress(store: Store, jobId: string, d: Debrief): Promise<string | undefined> {
  const attempt = attemptOf(jobId, d);
  if (!attempt || store.progress(d.apprentice)[attempt.name] === attempt.value) return undefined;
  const kept = await store.setProgress(d.apprentice, { [attempt.name]: attempt.value });
  return kept.ok ? undefined : kept.trouble.sentence;
}

export async function progress(o: Options): Promise<Ended> {
  const folder = o.data ?? defaultDataFolder();
  const store = openStore(folder);
  const person = (o.rest[0] ?? store.preferences().initials ?? '').trim();
  if (person === '') return { err: 'Nobody has worked here yet; name somebody: rotorside progress INITIALS.', code: 2 };
  const { library, problems } = await openLibrary(o.procedures);
  if (problems[0]) return { err: problems.map(showProblem).join('\n'), code: 2 };
  const troubles = await catchUp(store, library, folder);
  const kept = progressOf(store.progress(person));
  const titles = [...library.rotors.values()];
  const err = troubles.join('\n') || undefined;
  if (o.json) return { out: JSON.stringify({ progress: 1, person, rotors: kept }, undefined, 2), err, code: 0 };
  const lines = titles.map((r) => progressLine(r.rotor, r.title, kept));
  const gone = kept.filter((k) => !library.rotors.has(k.rotor)).map((k) => progressLine(k.rotor, k.rotor, kept));
  const mastered = kept.filter((k) => k.mastered).length;
  const head = `Practice of ${safeText(person, { max: 20 })}: ${mastered} of ${titles.length} rotors seen through`;
  return { out: [head, '', ...lines, ...gone].join('\n'), err, code: 0 };
}

/** Practice jobs whose debrief nobody has read yet count too. */
async function catchUp(store: Store, library: Library, folder: string): Promise<string[]> {
  const listed = store.list();
  if (!listed.ok) return [listed.trouble.sentence];
  const troubles: string[] = [];
  for (const job of listed.value) {
    if (job.practice === undefined || job.fault !== undefined || !library.rotors.has(job.practice)) continue;
    const made = await debriefOfJob(store, library, folder, job.id);
    const trouble = typeof made === 'string' ? made : await noteProgress(store, job.id, made);
    if (trouble) troubles.push(trouble);
  }
  return troubles;
}

function progressLine(id: string, title: string, kept: readonly RotorProgress[]): string {
  const own = kept.find((k) => k.rotor === id);
  const last = own?.attempts.at(-1);
  const name = `${id.padEnd(16)}${safeText(title, { max: 60 })}`;
  if (!own || !last) return `  - ${name}: not tried yet`;
  const times = own.attempts.length === 1 ? 'once' : `${own.attempts.length} times`;
  const traps = `${last.caught + last.late} caught, ${last.fell} missed`;
  const said = `${last.right + last.close} of ${last.right + last.close + last.wrong} predictions right or close`;
  return `  ${own.mastered ? '+' : '-'} ${name}: ${times}; last ${last.at.slice(0, 10)}${last.finished ? '' : ', not finished'}: ${traps}; ${said}`;
}
