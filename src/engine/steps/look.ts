/** One step at one place looked at on its own, without what comes before it. */
import { isList } from '../../guards/guards.js';
import type { Gate, Question, Step } from '../../procedure/schema.js';
import type { Answer, Entry, Pace } from '../journal/entry.js';
import { sameInitials } from '../journal/initials.js';
import { type StepLedger, slot } from '../journal/ledger.js';
import { raisedAt, ranBack } from '../journal/ledger-shape.js';
import { suggestionOf } from '../values/texts.js';
import type { Values } from '../values/values.js';
import { countedOf } from './anew.js';
import { cautionsAt, confirmedBefore } from './cautions.js';
import type { Changed, GateView, StepView } from './step-view.js';
import { waitOf } from './wait.js';

export interface Now {
  /** Milliseconds since 1970. */
  readonly now: number;
  /** True while an apprentice is in training: predictions are asked for. */
  readonly training: boolean;
  readonly pace: Pace;
  /** Number of the first entry of this sitting; beyond the last one when somebody has only just come back. */
  readonly sitting: number;
}

type Figures = Readonly<Record<string, Answer>>;
type Completing = Entry & { readonly figures?: Figures };

/** A change that matters for work already done: more than 1 %. */
const differs = (a: Answer, b: Answer | undefined): boolean => {
  if (typeof a === 'number' && typeof b === 'number') return Math.abs(a - b) > Math.max(1e-9, 0.01 * Math.abs(a));
  if (isList(a) && isList(b)) return a.length !== b.length || a.some((x, i) => differs(x, b[i]));
  return a !== b;
};

/** Figures that a step rests on or holds, as they are now. */
export function figuresOf(values: Values, step: Step, place: string): Record<string, Answer> | undefined {
  const held = (values.model.procedure.facts ?? []).filter((f) => 'held_by' in f && f.held_by === step.id);
  const keys = [...(step.rests_on ?? []), ...held.map((f) => f.key)];
  if (!keys.length) return undefined;
  const out: Record<string, Answer> = {};
  for (const key of keys) {
    const v = values.get(key, place);
    if (v.known) out[key] = v.value;
  }
  return out;
}

/** Figures that work of the hands rests on and that had no value when it was done, or have none now where it is not done. */
export function lackedOf(values: Values, step: Step, place: string, done: Completing | undefined): string[] {
  if (!step.physical || step.decision) return [];
  return (step.rests_on ?? []).filter((key) =>
    done ? done.figures?.[key] === undefined : !values.get(key, place).known,
  );
}

/** The figures under an entry that completed something, unless they were settled since. */
export function figuresUnder(ledger: StepLedger, entry: Completing): Figures | undefined {
  const { settled } = ledger;
  if (settled?.figures && settled.seq > entry.seq) return settled.figures;
  return entry.figures;
}

function changedSince(values: Values, place: string, then: Figures | undefined): Changed[] {
  return Object.entries(then ?? {}).flatMap(([key, old]) => {
    const v = values.get(key, place);
    const now = v.known ? v.value : undefined;
    return differs(old, now) ? [{ key, old, now }] : [];
  });
}

function gateFails(values: Values, gate: Gate, overrules: StepView['overruled'], place: string): GateView | undefined {
  if (gate.when && values.holds(gate.when, place) === false) return undefined;
  const v = values.evaluate(gate.must, place);
  if (v.known && v.value === true) return undefined;
  // An overrule counts only while the readings that it looked past stay as they were.
  const asOf = v.known ? v.asOf : 0;
  const answeredFor = (o: StepView['overruled'][number]): boolean =>
    o.gate === gate.id && o.seq > asOf && !(gate.overrule === 'second-person' && sameInitials(o.initials, o.by));
  if (gate.overrule !== 'never' && overrules.some(answeredFor)) return undefined;
  return {
    gate,
    missing: v.known ? [] : v.missing,
    refusal: v.known ? undefined : v.refusal,
  };
}

const asked = (values: Values, step: Step, place: string): Question[] =>
  (step.ask ?? []).filter((q) => !q.when || values.holds(q.when, place) !== false);

/**
 * The same was predicted at the other side of the same bearing, where everything read before this step is the same too:
 * its answer stood on the screen a moment ago.
 */
function saidBeside(values: Values, step: Step, place: string, key: string): boolean {
  const { model } = values;
  const parent = model.place.get(place)?.parent;
  if (parent === undefined || parent === 'job') return false;
  const until = model.procedure.steps.indexOf(step);
  const read = model.procedure.steps
    .slice(0, until)
    .flatMap((s) => (s.at === step.at ? (s.ask ?? []).map((q) => q.key) : []));
  const same = (k: string, other: string): boolean => {
    const [a, b] = [values.get(k, place), values.get(k, other)];
    return a.known ? b.known && JSON.stringify(a.value) === JSON.stringify(b.value) : !b.known;
  };
  return model.places.some(
    (p) =>
      p.id !== place &&
      p.parent === parent &&
      values.step(slot(step.id, p.id))?.predictions.some((e) => e.key === key) &&
      [key, ...read].every((k) => same(k, p.id)),
  );
}

/** In the brisk pace what can be filled in comes last, so that it need not be asked. */
function inTurn(values: Values, asks: Question[], place: string, pace: Pace): Question[] {
  if (pace !== 'brisk') return asks;
  const last = asks.filter((q) => q.filled && suggestionOf(values, q, place) !== undefined);
  return [...asks.filter((q) => !last.includes(q)), ...last];
}

function nextQuestion(
  values: Values,
  step: Step,
  place: string,
  ledger: StepLedger | undefined,
  pace: Pace,
): Question | undefined {
  const asks = inTurn(values, asked(values, step, place), place, pace);
  if (!step.repeat) return asks.find((q) => !ledger?.answers.has(q.key));
  const row = ledger?.rows.at(-1);
  const open = row ? asks.find((q) => !row.has(q.key)) : asks[0];
  if (open) return open;
  return values.holds(step.repeat.until, place) === true ? undefined : asks[0];
}

/** What of a decision has to be given again, since its figures have changed. */
function again(values: Values, step: Step, place: string, ledger: StepLedger): Pick<StepView, 'question' | 'changed'> {
  const stale = (entry: Completing | undefined): Changed[] =>
    entry ? changedSince(values, place, figuresUnder(ledger, entry)) : [];
  for (const question of asked(values, step, place)) {
    const changed = stale(ledger.answers.get(question.key)?.first);
    if (changed.length) return { question, changed };
  }
  return { question: undefined, changed: stale(ledger.done) };
}

/** The gate of a step that may only be begun within a time after another; nothing once it is begun. */
function tooLate(
  values: Values,
  { now }: Now,
  { fresh }: Step,
  place: string,
  ledger: StepLedger | undefined,
): GateView | undefined {
  if (!fresh || ledger?.last) return undefined;
  const since = values.step(slot(fresh.after, place))?.last;
  const minutes = since && values.evaluate(fresh.minutes, place);
  if (!since || !minutes) return undefined;
  const time = minutes.known ? minutes.value : undefined;
  const pause = now - Date.parse(since.at);
  const jumped = values.ledger.clockJumps.some(
    ({ before, after }) => after.seq > since.seq && ranBack(Date.parse(after.at) - Date.parse(before.at)),
  );
  const unknown = jumped || ranBack(pause);
  if (typeof time === 'number' && pause <= time * 60_000 && !unknown) return undefined;
  const gate: Gate = {
    id: 'fresh',
    at: 'enter',
    must: 'false',
    say: unknown ? `The clock of this computer was set back since. Count it as too late. ${fresh.say}` : fresh.say,
    overrule: 'with-reason',
    ...(fresh.raise === undefined ? {} : { raise: fresh.raise }),
  };
  return { gate, missing: minutes.known ? [] : minutes.missing, refusal: undefined };
}

export function look(values: Values, now: Now, step: Step, place: string): StepView {
  const { asked: isAsked, ledger } = countedOf(values, step, place, now.sitting);
  const overruled = ledger?.overrules ?? [];
  const base: StepView = {
    step,
    place,
    status: 'open',
    wants: 'nothing',
    question: undefined,
    answered: [],
    gates: [],
    overruled,
    wait: undefined,
    because: undefined,
    changed: [],
    signed: undefined,
    ledger,
    cautions: [],
    confirmedBefore: false,
  };
  if (step.branch && raisedAt(values.model, values.ledger.raised, step.branch, place).length === 0)
    return { ...base, status: 'not-needed' };
  if (!isAsked || !values.takesPart(place)) return { ...base, status: 'not-needed' };
  const needed = step.when ? values.holds(step.when, place) : true;
  if (needed === false) return { ...base, status: 'not-needed' };

  const answered = (step.ask ?? []).flatMap((question) => {
    const given = ledger?.answers.get(question.key);
    return given ? [{ question, given }] : [];
  });
  // Work that was done stays done: whatever stops the step now, a figure that changed under it is told.
  const changed =
    step.physical && !step.decision && ledger?.done
      ? changedSince(values, place, figuresUnder(ledger, ledger.done))
      : [];
  // A condition that nothing earlier could settle counts as needed: never skip a check on a guess.
  const cautions = cautionsAt(values, step, place);
  const read = ledger?.caution && ledger.caution.seq >= values.ledger.since;
  const before =
    now.pace === 'brisk' && !read && cautions.length > 0
      ? confirmedBefore(values, cautions, place, now.sitting)
      : false;
  const view = {
    ...base,
    answered,
    changed,
    because: needed === undefined ? 'unsure' : undefined,
    cautions,
    confirmedBefore: before,
  };
  const failing = (at: 'enter' | 'leave'): GateView[] =>
    (step.gates ?? []).filter((g) => g.at === at).flatMap((g) => gateFails(values, g, overruled, place) ?? []);

  const late = tooLate(values, now, step, place, ledger);
  const enter = [...failing('enter'), ...(late ? [late] : [])];
  if (enter.length) return { ...view, status: 'stopped', wants: 'gate', gates: enter };
  const reads: StepView = { ...view, wants: 'caution' };
  if (cautions.length && !ledger?.caution && !before) return reads;
  const next = readOf(values, now, view, failing);
  // Whoever goes on with what somebody else began reads its dangers too.
  const takesOver = next.status === 'open' && next.wants !== 'sign' && cautions.length > 0 && !read && !before;
  return takesOver ? reads : next;
}

/** What a step wants whose dangers were read. */
function readOf(values: Values, now: Now, view: StepView, failing: (at: 'leave') => GateView[]): StepView {
  const { step, place, ledger, overruled } = view;
  if (
    now.training &&
    step.predict?.some((k) => !ledger?.predictions.some((p) => p.key === k) && !saidBeside(values, step, place, k))
  )
    return { ...view, wants: 'predict' };
  const question = nextQuestion(values, step, place, ledger, now.pace);
  if (question) return { ...view, wants: 'question', question };
  const leave = failing('leave');
  if (leave.length) return { ...view, status: 'stopped', wants: 'gate', gates: leave };
  const confirms = !step.ask?.length || step.physical || step.hazard;
  if (!ledger || (confirms && !ledger.done)) return { ...view, wants: 'confirm' };

  if (step.decision) {
    const reopened = again(values, step, place, ledger);
    if (reopened.changed.length)
      return {
        ...view,
        ...reopened,
        status: 'reopened',
        wants: reopened.question ? 'question' : 'confirm',
      };
  }
  let signed: StepView['signed'];
  if (step.hold) {
    // A signature covers what was there to be seen: not a later answer, settling or overrule.
    const looked = overruled.findLast((o) => o.gate !== 'wait')?.seq ?? 0;
    const resting = Math.max(ledger.seq, ledger.settled?.seq ?? 0, looked);
    signed = ledger.signs.findLast((s) => s.seq > resting);
    if (!signed) return { ...view, wants: 'sign' };
  }
  const wait = waitOf(values, now.now, step, place, ledger);
  return {
    ...view,
    signed,
    wait,
    status: wait && wait.left > 0 ? 'waiting' : 'done',
  };
}
