/** Where each step stands at each place, and what it wants next. */
import type { Gate, Question, Step } from '../procedure/schema.js';
import type { Answer, Entry } from './entry.js';
import { type Given, related, type StepLedger, slot } from './ledger.js';
import type { Values } from './values.js';

export type Status =
  /** Its condition is not known yet. */
  | 'hidden'
  | 'not-needed'
  /** Something earlier has to be finished first. */
  | 'later'
  | 'open'
  /** A gate stops it. */
  | 'stopped'
  /** Done, and glue or solvent or the like takes its time. */
  | 'waiting'
  | 'done'
  /** Done once, but the figures under the decision have changed. */
  | 'reopened';

export type Want = 'gate' | 'caution' | 'predict' | 'question' | 'confirm' | 'sign' | 'nothing';

export interface GateView {
  readonly gate: Gate;
  /** Keys that must be known before the gate can open; empty when it simply does not hold. */
  readonly missing: readonly string[];
  readonly refusal: string | undefined;
}
export interface Wait {
  readonly label: string;
  readonly from: number;
  readonly until: number;
  /** Milliseconds left; 0 when over. */
  readonly left: number;
  /** The clock now reads earlier than when the wait began. */
  readonly clockBack: boolean;
}
export interface Changed {
  readonly key: string;
  readonly old: Answer;
  readonly now: Answer | undefined;
}
export interface StepView {
  readonly step: Step;
  readonly place: string;
  readonly status: Status;
  readonly wants: Want;
  /** Next question, when that is what it wants. */
  readonly question: Question | undefined;
  readonly answered: readonly { readonly question: Question; readonly given: Given }[];
  readonly gates: readonly GateView[];
  readonly overruled: readonly Extract<Entry, { kind: 'overrule' }>[];
  readonly wait: Wait | undefined;
  /** What it waits for, in one sentence. */
  readonly because: string | undefined;
  readonly changed: readonly Changed[];
  readonly signed: Extract<Entry, { kind: 'sign' }> | undefined;
  readonly ledger: StepLedger | undefined;
}

const differs = (a: Answer, b: Answer | undefined): boolean => {
  if (typeof a === 'number' && typeof b === 'number') return Math.abs(a - b) > Math.max(1e-9, 0.01 * Math.abs(a));
  if (Array.isArray(a) && Array.isArray(b))
    return a.length !== b.length || a.some((x, i) => differs(x as Answer, b[i] as Answer));
  return a !== b;
};

/** Figures that a step rests on, as they are now. */
export function figuresOf(values: Values, step: Step, place: string): Record<string, Answer> | undefined {
  if (!step.rests_on?.length) return undefined;
  const out: Record<string, Answer> = {};
  for (const key of step.rests_on) {
    const v = values.get(key, place);
    if (v.known) out[key] = v.value;
  }
  return out;
}

function gateFails(values: Values, gate: Gate, step: Step, place: string): GateView | undefined {
  if (gate.when && values.holds(gate.when, place) === false) return undefined;
  const v = values.evaluate(gate.must, place);
  if (v.known && v.value === true) return undefined;
  const over = overruleOf(values, gate, step, place, v.known ? v.asOf : 0);
  if (over) return undefined;
  return { gate, missing: v.known ? [] : v.missing, refusal: v.known ? undefined : v.refusal };
}

/** An overrule counts only while the readings that it looked past stay as they were. */
function overruleOf(values: Values, gate: Gate, step: Step, place: string, asOf: number) {
  if (gate.overrule === 'never') return undefined;
  return values.ledger.steps.get(slot(step.id, place))?.overrules.findLast((o) => o.gate === gate.id && o.seq > asOf);
}

function figuresWhenDone(ledger: StepLedger): Readonly<Record<string, Answer>> | undefined {
  if (ledger.settled?.figures) return ledger.settled.figures;
  if (ledger.done?.figures) return ledger.done.figures;
  return [...ledger.answers.values()].map((g) => g.first.figures).findLast((f) => f !== undefined);
}

function nextQuestion(values: Values, step: Step, place: string, ledger: StepLedger | undefined): Question | undefined {
  const asks = (step.ask ?? []).filter((q) => !q.when || values.holds(q.when, place) !== false);
  if (!step.repeat) return asks.find((q) => !ledger?.answers.has(q.key));
  const row = ledger?.rows.at(-1);
  const open = row ? asks.find((q) => !row.has(q.key)) : asks[0];
  if (open) return open;
  return values.holds(step.repeat.until, place) === true ? undefined : asks[0];
}

export class Board {
  private readonly cache = new Map<string, StepView>();
  private all: StepView[] | undefined;

  constructor(
    readonly values: Values,
    private readonly now: number,
    /** True while an apprentice is in training: predictions are asked for. */
    private readonly training: boolean,
  ) {}

  /** The step looked at on its own, without what comes before it. */
  own(step: Step, place: string): StepView {
    const id = slot(step.id, place);
    const seen = this.cache.get(id);
    if (seen) return seen;
    const view = this.look(step, place);
    this.cache.set(id, view);
    return view;
  }

  private look(step: Step, place: string): StepView {
    const values = this.values;
    const ledger = values.ledger.steps.get(slot(step.id, place));
    const base: StepView = {
      step,
      place,
      status: 'open',
      wants: 'nothing',
      question: undefined,
      answered: [],
      gates: [],
      overruled: ledger?.overrules ?? [],
      wait: undefined,
      because: undefined,
      changed: [],
      signed: undefined,
      ledger,
    };
    if (step.branch && !values.ledger.raised.some((r) => r.branch === step.branch && related(r.place, place)))
      return { ...base, status: 'not-needed' };
    if (!values.takesPart(place)) return { ...base, status: 'not-needed' };
    const needed = step.when ? values.holds(step.when, place) : true;
    if (needed === false) return { ...base, status: 'not-needed' };
    // A condition that nothing earlier could settle counts as needed: never skip a check on a guess.
    const hidden = needed === undefined;

    const answered = (step.ask ?? []).flatMap((question) => {
      const given = ledger?.answers.get(question.key);
      return given ? [{ question, given }] : [];
    });
    const view = { ...base, answered, because: hidden ? 'unsure' : undefined };
    const failing = (at: 'enter' | 'leave'): GateView[] =>
      (step.gates ?? []).filter((g) => g.at === at).flatMap((g) => gateFails(values, g, step, place) ?? []);

    const enter = failing('enter');
    if (enter.length) return { ...view, status: 'stopped', wants: 'gate', gates: enter };
    if (step.caution?.length && !ledger?.caution) return { ...view, wants: 'caution' };
    if (this.training && step.predict?.some((k) => !ledger?.predictions.some((p) => p.key === k)))
      return { ...view, wants: 'predict' };
    const question = nextQuestion(values, step, place, ledger);
    if (question) return { ...view, wants: 'question', question };
    const leave = failing('leave');
    if (leave.length) return { ...view, status: 'stopped', wants: 'gate', gates: leave };
    const confirms = !step.ask?.length || step.physical || step.hazard;
    if (confirms && !ledger?.done) return { ...view, wants: 'confirm' };

    const changed = ledger ? this.changed(step, place, figuresWhenDone(ledger)) : [];
    const own = Math.max(0, ...answered.map((a) => a.given.entry.seq), ledger?.done?.seq ?? 0);
    if (step.decision && changed.length)
      return { ...view, status: 'reopened', wants: 'question', question: step.ask?.[0], changed };
    if (step.hold) {
      const resting = Math.max(own, ledger?.settled?.seq ?? 0);
      const signed = ledger?.signs.findLast((s) => s.seq > resting);
      if (!signed) return { ...view, wants: 'sign', changed };
      return this.finished({ ...view, signed, changed });
    }
    return this.finished({ ...view, changed });
  }

  private changed(step: Step, place: string, then: Readonly<Record<string, Answer>> | undefined): Changed[] {
    if (!then || !(step.physical || step.decision)) return [];
    return Object.entries(then).flatMap(([key, old]) => {
      const v = this.values.get(key, place);
      const now = v.known ? v.value : undefined;
      return differs(old, now) ? [{ key, old, now }] : [];
    });
  }

  private finished(view: StepView): StepView {
    const wait = this.waitOf(view);
    if (wait && wait.left > 0) return { ...view, status: 'waiting', wait };
    return { ...view, status: 'done', wait };
  }

  private waitOf(view: StepView): Wait | undefined {
    const { step, place, ledger } = view;
    if (!step.wait || !ledger?.last) return undefined;
    const minutes = this.values.evaluate(step.wait.minutes, place);
    const span = minutes.known && typeof minutes.value === 'number' ? minutes.value * 60_000 : 0;
    if (span <= 0) return undefined;
    const begun = ledger.done ?? [...ledger.answers.values()].at(-1)?.first ?? ledger.last;
    const from = Date.parse(begun.at);
    const clockBack = this.now < from;
    const skipped = ledger.overrules.some((o) => o.gate === 'wait' && o.seq > begun.seq);
    const left = skipped ? 0 : clockBack ? span : Math.max(0, from + span - this.now);
    return { label: step.wait.label, from, until: from + span, left, clockBack };
  }

  /** Branch steps that were raised come first at their place. */
  private ordered(): Step[] {
    const steps = this.values.model.procedure.steps;
    const raised = new Set(this.values.ledger.raised.map((r) => r.branch));
    return [...steps.filter((s) => s.branch && raised.has(s.branch)), ...steps.filter((s) => !s.branch)];
  }

  /** Every step at every place, in order, each with what comes before it taken into account. */
  views(): readonly StepView[] {
    if (this.all) return this.all;
    const out: StepView[] = [];
    const unsettled: StepView[] = [];
    for (const step of this.ordered())
      for (const p of this.values.model.places) {
        if (p.kind !== step.at) continue;
        let view = this.own(step, p.id);
        const settled = view.status === 'done' || view.status === 'not-needed';
        if (view.status !== 'not-needed') {
          const before = unsettled.find((u) => related(u.place, p.id) && !step.not_after?.includes(u.step.id));
          if (before && view.status !== 'done')
            view = {
              ...view,
              status: view.because === 'unsure' ? 'hidden' : 'later',
              because: this.waitsFor(before),
            };
          else if (before && view.status === 'done') view = { ...view, because: this.waitsFor(before) };
        }
        if (!settled) unsettled.push(view);
        out.push(view);
      }
    this.all = this.keepTogether(out);
    return this.all;
  }

  private waitsFor(before: StepView): string {
    const where = before.place === 'job' ? '' : ` (${this.values.placeLabel(before.place)})`;
    return before.status === 'waiting'
      ? `“${before.step.title}”${where} is still waiting: ${before.wait?.label ?? 'time'}.`
      : `“${before.step.title}”${where} comes first.`;
  }

  private keepTogether(views: StepView[]): StepView[] {
    const groups = new Map<string, StepView[]>();
    for (const v of views)
      if (v.step.together && v.status !== 'not-needed')
        groups.set(v.step.together, [...(groups.get(v.step.together) ?? []), v]);
    const begun = [...groups].find(([, g]) => g.some((v) => v.status === 'done') && g.some((v) => v.status !== 'done'));
    if (!begun) return views;
    const [group, members] = begun;
    // A member that itself waits for other work (reopened by an event, say) must not hold that work up.
    const open = members.find((m) => m.status === 'open' || m.status === 'stopped' || m.status === 'reopened');
    return views.map((v) =>
      v.step.together !== group && !v.step.branch && (v.status === 'open' || v.status === 'stopped') && open
        ? {
            ...v,
            status: 'later',
            because: `“${open.step.title}” must be finished first: it is not to be interrupted.`,
          }
        : v,
    );
  }

  view(stepId: string, place: string): StepView | undefined {
    return this.views().find((v) => v.step.id === stepId && v.place === place);
  }
}
