/**
 * Practice that begins late: what comes before is done from the rotor as a careful person does it, and marked as such. It
 * ends when the job is made, so that none of its times lies ahead.
 */
import { propose } from '../engine/actions/propose.js';
import { type Draft, type Entry, stamped } from '../engine/journal/entry.js';
import { FILLED_BY } from '../engine/journal/initials.js';
import { State } from '../engine/state/state.js';
import type { StepView } from '../engine/steps/step-view.js';
import { fillIn } from '../engine/values/texts.js';
import type { Library } from '../library/library.js';
import type { JobSummary, OpenJob, Outcome } from '../screens/app-contract.js';
import { nextMove } from '../training/play.js';
import type { PracticeRotor } from '../training/practice-rotor.js';
import { modelToday } from './job-basis.js';
import { onClock } from './on-clock.js';
import { PracticeClock } from './practice-clock.js';
import { rotorFor } from './practice-rotors.js';

type Journal = Pick<OpenJob, 'entries' | 'append'>;
export type FirstEntry = Extract<Draft, { kind: 'job' }>;

/** A thing that was done may be asked once more after something else was; more often it would never end. */
const MOST_ALIKE = 4;

/** What stands at a step, so that the same again is known. */
const standing = (state: State, { step, place, wants, question, gates, answered, ledger }: StepView): string =>
  JSON.stringify([
    step.id,
    place,
    wants,
    question?.key,
    gates.map((g) => g.gate.id),
    answered.map((a) => [a.question.key, a.given.value, a.given.entry.way]),
    ledger?.predictions.length,
    step.repeat && state.values.completeRows(step.id, place).length,
  ]);

/** A journal that is kept nowhere, with what was added to it and when. */
export function inMemory(
  first: FirstEntry,
  clock: PracticeClock,
): Journal & { readonly added: readonly { readonly at: number; readonly drafts: readonly Draft[] }[] } {
  let entries: readonly Entry[] = [stamped(first, 1, new Date(clock.now()).toISOString())];
  const added: { at: number; drafts: readonly Draft[] }[] = [];
  clock.begin(entries);
  return {
    added,
    get entries() {
      return entries;
    },
    append(drafts) {
      clock.before(drafts);
      const at = clock.now();
      added.push({ at, drafts });
      entries = [...entries, ...drafts.map((d, i) => stamped(d, entries.length + 1 + i, new Date(at).toISOString()))];
      return { ok: true, value: entries };
    },
  };
}

/**
 * Makes the job of somebody who begins at a phase. It is done in memory first: how long it takes tells when it began.
 * @param clock by which the store stamps
 * @returns with a sentence where it stands earlier than it should
 */
export async function beginLate(
  store: { create(name: string, first: FirstEntry, summary: JobSummary): Promise<Outcome<OpenJob>> },
  library: Library,
  first: FirstEntry,
  summary: JobSummary,
  clock: PracticeClock,
): Promise<Outcome<OpenJob>> {
  const { from: phase } = first;
  const rotor =
    phase === undefined ? undefined : rotorFor(library, first.practice, modelToday(library, first.procedure));
  if (phase === undefined || !rotor) return onClock(await store.create(first.name, first, summary), clock);
  const end = clock.now();
  const running = new PracticeClock(() => end);
  const draft = inMemory(first, running);
  const notice = await fillTo(draft, rotor, phase, running);
  const began = end - (running.now() - end);
  clock.stand(began);
  const opened = await store.create(first.name, first, summary);
  if (!opened.ok) return opened;
  const times = new Map<number, Draft[]>();
  for (const { at, drafts } of draft.added) times.set(at, [...(times.get(at) ?? []), ...drafts]);
  for (const [at, drafts] of times) {
    clock.stand(began + at - end);
    const kept = await opened.value.append(drafts);
    if (kept.ok) continue;
    await opened.value.close();
    return kept;
  }
  return onClock({ ...opened, ...(notice === undefined ? {} : { notice }) }, clock);
}

/**
 * The bench is who works until then, so that nobody has to take over what it began.
 * @returns a sentence where it stands earlier than it should
 */
export async function fillTo(
  job: Journal,
  rotor: PracticeRotor,
  phase: string,
  clock: PracticeClock,
): Promise<string | undefined> {
  const first = job.entries[0];
  const hands = (initials: string) => job.append([{ kind: 'operator', initials, by: initials }]);
  const taken = await hands(FILLED_BY);
  const short = taken.ok ? await fill(job, rotor, phase, clock) : taken.trouble.sentence;
  const back = await hands(first?.by ?? FILLED_BY);
  return short ?? (back.ok ? undefined : back.trouble.sentence);
}

async function fill(
  job: Journal,
  rotor: PracticeRotor,
  phase: string,
  clock: PracticeClock,
): Promise<string | undefined> {
  const { model } = rotor;
  const phases = model.procedure.phases.map((p) => p.id);
  const until = phases.indexOf(phase);
  const short = (state: State, { step, place }: StepView, why: string): string =>
    `Filled in up to “${fillIn(state.values, step.title, place)}” and no further: ${why} Go on from there.`;
  clock.knows(model);
  const stood = new Map<string, number>();
  let last = '';
  let before: State | undefined;
  for (;;) {
    const state: State = new State(model, job.entries, clock.now(), { before, spent: true });
    before = state;
    const position = model.places.find((p) => p.parent === 'job' && state.values.takesPart(p.id))?.id ?? 'job';
    const isEarlier = (v: StepView): boolean => phases.indexOf(v.step.phase) < until;
    // What lies before is done to its end, though what comes behind could be begun in a wait of it.
    const view = state.available(position).find(isEarlier);
    if (!view) {
      const left = Math.min(...state.waiting.filter(isEarlier).map((w) => w.wait?.left ?? Number.POSITIVE_INFINITY));
      if (!Number.isFinite(left)) return undefined;
      clock.pass(Math.ceil(left / 60_000));
      continue;
    }
    // Each move changes what stands there.
    const now = standing(state, view);
    const times = (stood.get(now) ?? 0) + 1;
    if (now === last || times > MOST_ALIKE) return short(state, view, 'the same is asked there again.');
    stood.set(now, times);
    last = now;
    try {
      const plan = { ...rotor.file.careful, mentor: state.ledger.job?.mentor ? 'GUIDE' : FILLED_BY };
      const move = nextMove(rotor, state, view, plan, FILLED_BY);
      if (move === 'end') return short(state, view, 'somebody careful ends the work on this rotor there.');
      const proposal = propose(state, move, FILLED_BY);
      if (!proposal.ok) return short(state, view, proposal.message);
      const kept = await job.append(proposal.drafts);
      if (!kept.ok) return kept.trouble.sentence;
    } catch {
      return short(state, view, 'no plan says what is done there.');
    }
  }
}
