/** `rotorside debrief JOB` and `rotorside progress [INITIALS]`: what practice showed, and how far a person has come. */
import { sameInitials } from '../engine/journal/initials.js';
import { State } from '../engine/state/state.js';
import type { Library } from '../library/library.js';
import { openLibrary } from '../library/open-library.js';
import { showProblem } from '../procedure/problem.js';
import { defaultDataFolder, openStore, type Store } from '../store/open-store.js';
import { type Debrief, debriefOf } from '../training/debrief.js';
import { debriefText } from '../training/debrief-lines.js';
import { attemptOf, attemptsOf, dueFirst } from '../training/progress.js';
import { personOf, personPage, progressTable } from '../training/progress-table.js';
import type { Options } from './arguments.js';
import type { Ended } from './ended.js';
import { entriesFrom, findJob } from './find-job.js';
import { basisOfJob } from './job-basis.js';
import { minutesOf, timeOf } from './practice-clock.js';
import { kindsOf, offered, rotorById, rotorFor, rotorsOf } from './practice-rotors.js';
import { written } from './sheet-output.js';

export async function debrief(o: Options): Promise<Ended> {
  const folder = o.data ?? defaultDataFolder();
  const store = openStore(folder);
  const id = findJob(store, o.rest[0], 'practice');
  if (typeof id !== 'string') return id;
  const { library, problems } = await openLibrary(o.procedures);
  if (problems[0]) return { err: problems.map(showProblem).join('\n'), code: 2 };
  const made = await debriefOfJob(store, library, folder, id);
  if (typeof made === 'string') return { err: made, code: 1 };
  const listed = store.list();
  const head = listed.ok ? listed.value.find((j) => j.id === id) : undefined;
  const trouble = await noteProgress(store, id, made, head && minutesOf(head)[0]?.[1]);
  const whole = withAgain(store, made);
  return { out: o.json ? JSON.stringify(whole, undefined, 2) : debriefText(whole), err: trouble, code: 0 };
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
export async function noteProgress(
  store: Store,
  jobId: string,
  d: Debrief,
  minutes?: number,
): Promise<string | undefined> {
  const attempt = attemptOf(jobId, d, minutes);
  if (!attempt || store.progress(d.apprentice)[attempt.name] === attempt.value) return undefined;
  const kept = await store.setProgress(d.apprentice, { [attempt.name]: attempt.value });
  return kept.ok ? undefined : kept.trouble.sentence;
}

/** With what is due first by all practice of this person. */
export function withAgain(store: Store, d: Debrief): Debrief {
  const again = dueFirst(store.progress(d.apprentice));
  return again && d.rotor !== undefined ? { ...d, again } : d;
}

export async function progress(o: Options): Promise<Ended> {
  const folder = o.data ?? defaultDataFolder();
  const store = openStore(folder);
  const named = (o.rest[0] ?? '').trim();
  if (o.format !== undefined && (o.format !== 'html' || named !== '' || o.json))
    return { err: 'progress is printed as a page of all: rotorside progress --format html --out FILE.', code: 2 };
  if (o.out !== undefined && o.format === undefined)
    return { err: '--out needs --format html: rotorside progress --format html --out FILE.', code: 2 };
  const { library, problems } = await openLibrary(o.procedures);
  if (problems[0]) return { err: problems.map(showProblem).join('\n'), code: 2 };
  const listed = store.list();
  const minutes = new Map(listed.ok ? listed.value.flatMap((j) => minutesOf(j)) : []);
  const people = new Set<string>();
  const troubles = await catchUp(store, library, folder, minutes, people);
  const err = troubles.join('\n') || undefined;
  const kinds = kindsOf(library);
  if (named === '') {
    const all = people.size ? [...people].sort() : [(store.preferences().initials ?? '').trim()].filter(Boolean);
    const known = all.filter((p) => attemptsOf(store.progress(p)).length);
    if (!known.length)
      return {
        err: 'Nobody has practised here yet; start with rotorside practice, or name somebody: rotorside progress INITIALS.',
        code: 2,
      };
    const table = known.map((p) => personOf(p, store.progress(p), kinds));
    if (o.format === 'html') {
      const { progressHtml } = await import('../training/progress-html.js');
      const ended = written(progressHtml(table, new Date().toISOString().slice(0, 10)), o.out);
      return { ...ended, err: [ended.err, err].filter(Boolean).join('\n') || undefined };
    }
    if (o.json) return { out: JSON.stringify({ progress: 2, people: table }, undefined, 2), err, code: 0 };
    return { out: progressTable(table), err, code: 0 };
  }
  const own = personOf(named, store.progress(named), kinds);
  if (!own.rotors.length && people.size && ![...people].some((p) => sameInitials(p, named)))
    return {
      err: `Nobody with these initials has practised here. There are: ${[...people].sort().join(', ')}.`,
      code: 2,
    };
  if (o.json)
    return {
      out: JSON.stringify({ progress: 1, person: named, rotors: own.rotors, skills: own.skills }, undefined, 2),
      err,
      code: 0,
    };
  return { out: personPage(own, offered(library)), err, code: 0 };
}

/** Practice jobs whose debrief nobody has read yet count too. */
async function catchUp(
  store: Store,
  library: Library,
  folder: string,
  minutes: ReadonlyMap<string, number>,
  people: Set<string>,
): Promise<string[]> {
  const listed = store.list();
  if (!listed.ok) return [listed.trouble.sentence];
  const troubles: string[] = [];
  for (const job of listed.value) {
    if (job.practice === undefined || job.fault !== undefined || !rotorById(library, job.practice)) continue;
    const made = await debriefOfJob(store, library, folder, job.id);
    const trouble = typeof made === 'string' ? made : await noteProgress(store, job.id, made, minutes.get(job.id));
    if (typeof made !== 'string') people.add(made.apprentice);
    if (trouble) troubles.push(trouble);
  }
  return troubles;
}
