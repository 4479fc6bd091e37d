/** Every value of a job, worked out when it is asked for and remembered. Pure: journal and procedure in, values out. */
import { isList } from '../../guards/guards.js';
import type { KeyInfo, Model } from '../../procedure/model.js';
import { partOf } from '../../procedure/questions/index.js';
import type { CalcUse, Question, Step } from '../../procedure/schema.js';
import type { Answer } from '../journal/entry.js';
import { type Given, type Ledger, type Row, raisedAt, rowsOf, type StepLedger, slot } from '../journal/ledger-shape.js';
import { type Address, type Addresses, addressesOf, type ExpressionAt, enclosing } from './addresses.js';
import { HALF, heldValue, type Known, unknown, type Value, type ValueSource } from './known.js';
import { lastRead, logValue } from './log-value.js';
import { type Kept, Memo, Reads, slotNumbers, type TakenOver } from './reads.js';
import { rollUp } from './roll-up.js';
import { type CalcRun, runCalculator } from './run-calculator.js';
import { halfDifference, spreadOf } from './spread.js';

/** Readings tried out without touching the journal: "key@place" to value. */
export type Trial = ReadonlyMap<string, Answer>;
/** Values of an earlier job that this one follows: "key@place" to value. */
export type Earlier = ReadonlyMap<string, Answer>;

export class Values implements ValueSource {
  /** By the number of the address, of the calculator run, of the place. */
  private readonly memo: Memo<Value>;
  private readonly runs: Memo<CalcRun>;
  private readonly parts: Memo<boolean>;
  private readonly open = new Set<number>();
  private readonly numbers: ReadonlyMap<string, number>;
  private readonly addresses: Addresses;
  private reading: Reads | undefined;

  constructor(
    readonly model: Model,
    readonly ledger: Ledger,
    private readonly trial: Trial = new Map(),
    private readonly earlier: Earlier = new Map(),
    before?: TakenOver & { readonly values: Values },
    /** Steps at their places of which nothing is presumed: what counts until they are answered is not known there. */
    private readonly notPresumed: ReadonlySet<string> = new Set(),
  ) {
    this.numbers = slotNumbers(model);
    this.addresses = addressesOf(model);
    this.memo = new Memo(before?.values.memo, before);
    this.runs = new Memo(before?.values.runs, before);
    this.parts = new Memo(before?.values.parts, before);
  }

  /** What was recorded about a step at a place. */
  step(id: string): StepLedger | undefined {
    this.reads(id);
    return this.ledger.steps.get(id);
  }

  private reads(slot: string): void {
    const n = this.numbers.get(slot);
    if (n !== undefined) this.reading?.add(n);
  }

  /** Works something out and tells from what. */
  tracked<T>(work: () => T): Kept<T> {
    const outer = this.reading;
    const reads = new Reads(this.numbers.size);
    this.reading = reads;
    try {
      return { value: work(), reads };
    } finally {
      this.reading = outer;
      outer?.join(reads);
    }
  }

  private once<T>(memo: Memo<T>, number: number, work: () => T): T {
    const seen = memo.get(number);
    if (seen) {
      this.reading?.join(seen.reads);
      return seen.value;
    }
    const kept = this.tracked(work);
    memo.set(number, kept);
    return kept.value;
  }

  /** The place of `kind` at or around `place`; undefined when the kind lies deeper. */
  enclosing(kind: string, place: string): string | undefined {
    return enclosing(this.model, kind, place);
  }

  /** Where a name that is read at a place lives; undefined where there is none such. */
  find(key: string, place: string): Address | undefined {
    return this.addresses.of(key, place);
  }

  /** Places of a kind at or below `place` that take part in this job. */
  below(kind: string, place: string): string[] {
    return this.model.places
      .filter((p) => p.kind === kind && (place === 'job' || p.id === place || p.id.startsWith(`${place}.`)))
      .filter((p) => this.takesPart(p.id))
      .map((p) => p.id);
  }

  /** Every place that has a key, of those that take part in this job; none for an unknown key. */
  placesOf(key: string): readonly string[] {
    const at = this.model.keys.get(key)?.at;
    return at === undefined ? [] : this.below(at, 'job');
  }

  /** False only when the procedure's own condition says that the place is left out. */
  takesPart(place: string): boolean {
    const number = this.model.places.findIndex((p) => p.id === place);
    return number < 0 || this.once(this.parts, number, () => this.partOf(place));
  }

  private partOf(place: string): boolean {
    for (let p = this.model.place.get(place); p; p = p.parent ? this.model.place.get(p.parent) : undefined)
      if (p.when && this.holds(p.when, p.parent ?? 'job') === false) return false;
    return true;
  }

  placeLabel(place: string): string {
    const p = this.model.place.get(place);
    if (!p) return place;
    const own = p.labelFrom ? this.get(p.labelFrom, 'job') : undefined;
    const label = own?.known && typeof own.value === 'string' && own.value !== '' ? own.value : p.label;
    return p.parent && p.parent !== 'job' ? `${this.placeLabel(p.parent)}, ${label}` : label;
  }

  get(key: string, place: string): Value {
    return this.valueAt(key, this.addresses.of(key, place));
  }

  private valueAt(key: string, address: Address | undefined): Value {
    if (!address || this.open.has(address.number)) return unknown([key]);
    const { info, home, number } = address;
    return this.once(this.memo, number, () => {
      this.open.add(number);
      const value = this.work(info, home);
      this.open.delete(number);
      return value;
    });
  }

  /** An expression at a place. */
  evaluate(text: string, place: string): Value & { readonly names: readonly string[] } {
    const at = this.addresses.expression(text, place);
    const { names, last } = at;
    const from: Value[] = [];
    let same = last !== undefined;
    for (let i = 0; i < names.length; i++) {
      const v = this.valueAt(names[i]!.name, names[i]!.address);
      same = same && v === last!.from[i];
      from.push(v);
    }
    const came = last && same ? last.came : this.evaluated(at, from);
    at.last = { from, came };
    return came;
  }

  private evaluated({ expression: e, names }: ExpressionAt, from: readonly Value[]): ReturnType<Values['evaluate']> {
    const values: Record<string, Answer> = {};
    const parts: [string, Known][] = [];
    const missing: string[] = [];
    let refusal: string | undefined;
    let asOf = 0;
    for (let i = 0; i < from.length; i++) {
      const v = from[i]!;
      const { name } = names[i]!;
      if (v.known) {
        values[name] = v.value;
        parts.push([name, v]);
        asOf = Math.max(asOf, v.asOf);
      } else {
        missing.push(...(v.missing.length ? v.missing : [name]));
        refusal ??= v.refusal;
      }
    }
    const value = e.run(values);
    if (value === undefined) return { ...unknown([...new Set(missing)], refusal), names: e.names };
    return {
      known: true,
      value,
      plusMinus: spreadOf(e.run, values, parts, value),
      origin: { from: 'fact', inputs: e.names },
      asOf,
      names: e.names,
    };
  }

  /** True, false, or undefined when not known. */
  holds(text: string, place: string): boolean | undefined {
    const v = this.evaluate(text, place);
    return v.known ? v.value === true : undefined;
  }

  /** What each name contributes to the half width of an expression, widest first; none when it has no width. */
  contributions(text: string, place: string): { readonly name: string; readonly half: number }[] {
    const e = this.model.expression(text);
    const parts = e.names.flatMap((name): [string, Known][] => {
      const v = this.get(name, place);
      return v.known ? [[name, v]] : [];
    });
    const values = Object.fromEntries(parts.map(([name, v]) => [name, v.value]));
    return parts
      .map(([name, v]) => ({ name, half: Math.abs(halfDifference(e.run, values, name, v)) }))
      .filter((c) => c.half > 0)
      .sort((a, b) => b.half - a.half);
  }

  private work(info: KeyInfo, place: string): Value {
    const tried = this.tried(info, place);
    if (tried !== undefined) return tried;
    const from = info.from;
    switch (from.by) {
      case 'question': {
        const q = from.question;
        const given = this.step(slot(from.step.id, place))?.answers.get(q.key);
        const asked = q.when ? this.holds(q.when, place) : true;
        const called = asked !== false && from.step.when ? this.holds(from.step.when, place) : true;
        if (given && asked !== false && called !== false && !(q.optional && given.value === ''))
          return this.fromGiven(given, q, from.part);
        // Where nobody can tell yet whether it will be asked, nothing counts meanwhile: it may come out as anything.
        const open = asked !== false && called !== false && !(asked && called) && this.mayCome(from.step, place);
        if (q.otherwise !== undefined && from.part === undefined && !open && this.mayStand(from.step, place))
          return { known: true, value: q.otherwise, plusMinus: undefined, origin: { from: 'otherwise' }, asOf: 0 };
        return unknown([q.key]);
      }
      case 'rows':
        return logValue(this, from, place);
      case 'place':
        return {
          known: true,
          value: place === 'job' ? (this.ledger.job?.name ?? '') : place.slice(place.lastIndexOf('.') + 1),
          plusMinus: undefined,
          origin: { from: 'otherwise' },
          asOf: 0,
        };
      case 'event': {
        const base = { known: true, plusMinus: undefined, origin: { from: 'event' } } as const;
        if ('again' in from) {
          const asOf = this.ledger.reopened.get(slot(from.again, place)) ?? 0;
          return { ...base, value: asOf > 0, asOf };
        }
        const raised = (branch: string) => raisedAt(this.model, this.ledger.raised, branch, place);
        const hits = raised(from.branch);
        const asOf = hits.at(-1)?.seq ?? 0;
        const since = from.since === undefined ? 0 : (raised(from.since).at(-1)?.seq ?? asOf);
        if (from.since !== undefined) return { ...base, value: asOf > since, asOf: Math.max(asOf, since) };
        const told = from.times ? hits.length : hits.length > 0;
        return { ...base, value: from.log === undefined ? told : this.rowsBefore(from.log, place, asOf), asOf };
      }
      case 'earlier': {
        const name = slot(from.key, place);
        const v = this.earlier.get(name);
        const half = this.earlier.get(name + HALF);
        if (v !== undefined) {
          const plusMinus = typeof half === 'number' ? half : undefined;
          return { known: true, value: v, plusMinus, origin: { from: 'earlier' }, asOf: 0 };
        }
        if (from.otherwise === undefined) return unknown([info.key]);
        return { known: true, value: from.otherwise, plusMinus: undefined, origin: { from: 'otherwise' }, asOf: 0 };
      }
      case 'fact': {
        const fact = from.fact;
        if ('over' in fact) return rollUp(this, fact, place);
        const done = fact.held_by === undefined ? undefined : this.step(slot(fact.held_by, place))?.done;
        if (done) return heldValue(info.key, done);
        if (fact.when && this.holds(fact.when, place) !== true) return unknown([]);
        return this.evaluate(fact.is, place);
      }
      case 'calc': {
        const run = this.calc(from.use, place);
        const r = run.outcome?.results[from.result];
        if (!r) return unknown(run.missing, run.refusal);
        return {
          known: true,
          value: r.value,
          plusMinus: r.plusMinus,
          origin: { from: 'calc', calc: from.use.calc, result: from.result, outcome: run.outcome!, inputs: run.inputs },
          asOf: run.asOf,
        };
      }
    }
  }

  /** Whether what counts until a step is answered counts here: where nothing is presumed only if the step does not apply. */
  private mayStand(step: Step, place: string): boolean {
    if (!this.notPresumed.has(slot(step.id, place))) return true;
    return step.when !== undefined && this.holds(step.when, place) === false;
  }

  /** False where a step surely is not asked: its place is left out, or nobody reported what it belongs to. */
  private mayCome({ branch }: Step, place: string): boolean {
    if (!this.takesPart(place)) return false;
    return branch === undefined || raisedAt(this.model, this.ledger.raised, branch, place).length > 0;
  }

  private fromGiven(given: Given, q: Question, part: number | undefined): Value {
    const value = part === undefined ? given.value : partOf(q, part, given, this.model.tables);
    if (value === undefined) return unknown([given.entry.key]);
    const one = given.plusMinus ?? ('plus_minus' in q ? q.plus_minus : undefined);
    return {
      known: true,
      value,
      plusMinus: Array.isArray(value) && one !== undefined ? value.map(() => one) : one,
      origin: { from: 'answer', entry: given.entry, typed: given.typed },
      asOf: given.entry.seq,
    };
  }

  /** A reading that is tried out; it is as wide as readings of its kind usually are. */
  private tried(info: KeyInfo, place: string): Value | undefined {
    if (this.trial.size === 0) return undefined;
    const from = info.from;
    let value = this.trial.get(slot(info.key, place));
    if (value === undefined && from.by === 'question' && from.part !== undefined) {
      const whole = this.trial.get(slot(from.question.key, place));
      if (isList(whole)) value = whole[from.part];
    }
    if (value === undefined) return undefined;
    const usual = from.by === 'question' && 'plus_minus' in from.question ? from.question.plus_minus : undefined;
    const plusMinus = Array.isArray(value) && usual !== undefined ? value.map(() => usual) : usual;
    return { known: true, value, plusMinus, origin: { from: 'otherwise' }, asOf: 0 };
  }

  /** Complete rows of a log: all but the last, and the last once each question that applies was answered. */
  completeRows(stepId: string, place: string): readonly Row[] {
    const id = slot(stepId, place);
    this.reads(rowsOf(id));
    const rows = this.ledger.steps.get(id)?.rows ?? [];
    const last = rows.at(-1);
    if (!last) return rows;
    const lacks = (q: Question): boolean =>
      !q.optional && !last.has(q.key) && !(q.when && this.holds(q.when, place) === false);
    return this.model.steps.get(stepId)!.ask?.some(lacks) ? rows.slice(0, -1) : rows;
  }

  /** How many complete rows of a log were there before an entry. */
  private rowsBefore(stepId: string, place: string, seq: number): number {
    const { ask = [] } = this.model.steps.get(stepId)!;
    // Nothing comes before what never was.
    return seq === 0 ? 0 : this.completeRows(stepId, place).filter((row) => lastRead(row, ask) < seq).length;
  }

  /** The run of a calculator at a place, once. */
  calc(use: CalcUse, place: string): CalcRun {
    const at = this.model.places.findIndex((p) => p.id === place);
    if (at < 0) return runCalculator(this, use, place);
    const number = (this.model.procedure.calcs ?? []).indexOf(use) * this.model.places.length + at;
    return this.once(this.runs, number, () => runCalculator(this, use, place));
  }
}
