/** Every value of a job, worked out when it is asked for and remembered. Pure: journal and procedure in, values out. */
import { type CalcOutcome, CalcRefusal, type Inputs, type InputValue, type Measured } from '../calc/types.js';
import type { KeyInfo, Model } from '../procedure/model.js';
import type { CalcUse, Fact } from '../procedure/schema.js';
import type { Answer } from './entry.js';
import { type Known, type Unknown, unknown, type Value } from './known.js';
import { type Given, type Ledger, related, slot } from './ledger.js';

/** Readings tried out without touching the journal: "key@place" to value. */
export type Trial = ReadonlyMap<string, Answer>;
/** Values of an earlier job that this one follows: "key@place" to value. */
export type Earlier = ReadonlyMap<string, Answer>;

interface CalcRun {
  readonly outcome?: CalcOutcome;
  readonly inputs: Record<string, readonly string[]>;
  readonly asOf: number;
  readonly missing: readonly string[];
  readonly refusal?: string;
}

export class Values {
  private readonly memo = new Map<string, Value>();
  private readonly runs = new Map<string, CalcRun>();
  private readonly open = new Set<string>();

  constructor(
    readonly model: Model,
    readonly ledger: Ledger,
    private readonly trial: Trial = new Map(),
    private readonly earlier: Earlier = new Map(),
  ) {}

  /** The place of `kind` at or around `place`; undefined when the kind lies deeper. */
  enclosing(kind: string, place: string): string | undefined {
    for (let p = this.model.place.get(place); p; p = p.parent ? this.model.place.get(p.parent) : undefined)
      if (p.kind === kind) return p.id;
    return undefined;
  }

  /** Places of a kind at or below `place` that take part in this job. */
  below(kind: string, place: string): string[] {
    return this.model.places
      .filter((p) => p.kind === kind && (place === 'job' || p.id === place || p.id.startsWith(`${place}.`)))
      .filter((p) => this.takesPart(p.id))
      .map((p) => p.id);
  }

  /** False only when the procedure's own condition says that the place is left out. */
  takesPart(place: string): boolean {
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
    const info = this.model.keys.get(key);
    const home = info && this.enclosing(info.at, place);
    if (!info || !home) return unknown([key]);
    const id = slot(key, home);
    const seen = this.memo.get(id);
    if (seen) return seen;
    if (this.open.has(id)) return unknown([key]);
    this.open.add(id);
    const value = this.work(info, home);
    this.open.delete(id);
    this.memo.set(id, value);
    return value;
  }

  /** An expression at a place. */
  evaluate(text: string, place: string): Value & { readonly names: readonly string[] } {
    const e = this.model.expression(text);
    const values: Record<string, Answer> = {};
    const parts: [string, Known][] = [];
    const missing: string[] = [];
    let refusal: string | undefined;
    let asOf = 0;
    for (const name of e.names) {
      if (!this.model.keys.has(name)) continue;
      const v = this.get(name, place);
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
      plusMinus: this.spread(e.run, values, parts, value),
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

  /** First-order propagation through an expression: half differences, root of the sum of squares. */
  private spread(
    run: (v: Record<string, Answer>) => Answer | undefined,
    values: Record<string, Answer>,
    parts: readonly [string, Known][],
    value: Answer,
  ): number | readonly number[] | undefined {
    if (Array.isArray(value)) {
      const only = parts.length === 1 ? parts[0]?.[1] : undefined;
      if (only && Array.isArray(only.plusMinus)) return only.plusMinus as readonly number[];
      const scalars = parts.map(([, p]) => p.plusMinus).filter((u): u is number => typeof u === 'number');
      return scalars.length ? (value as unknown[]).map(() => Math.max(...scalars)) : undefined;
    }
    if (typeof value !== 'number') return undefined;
    let sum = 0;
    for (const [name, p] of parts) sum += halfDifference(run, values, name, p) ** 2;
    return sum > 0 ? Math.sqrt(sum) : undefined;
  }

  /** What each name contributes to the half width of an expression, widest first; none when it has no width. */
  contributions(text: string, place: string): { readonly name: string; readonly half: number }[] {
    const e = this.model.expression(text);
    const parts = e.names.flatMap((name): [string, Known][] => {
      const v = this.model.keys.has(name) ? this.get(name, place) : undefined;
      return v?.known ? [[name, v]] : [];
    });
    const values = Object.fromEntries(parts.map(([name, v]) => [name, v.value]));
    return parts
      .map(([name, v]) => ({ name, half: Math.abs(halfDifference(e.run, values, name, v)) }))
      .filter((c) => c.half > 0)
      .sort((a, b) => b.half - a.half);
  }

  private work(info: KeyInfo, place: string): Value {
    const tried = this.trial.get(slot(info.key, place));
    if (tried !== undefined)
      return { known: true, value: tried, plusMinus: undefined, origin: { from: 'otherwise' }, asOf: 0 };
    const from = info.from;
    switch (from.by) {
      case 'question': {
        const q = from.question;
        const given = this.ledger.steps.get(slot(from.step.id, place))?.answers.get(q.key);
        const applies =
          (!q.when || this.holds(q.when, place) !== false) &&
          (!from.step.when || this.holds(from.step.when, place) !== false);
        if (given && applies && !(q.optional && given.value === ''))
          return this.fromGiven(given, from.part, 'plus_minus' in q ? q.plus_minus : undefined);
        if (q.otherwise !== undefined && from.part === undefined)
          return { known: true, value: q.otherwise, plusMinus: undefined, origin: { from: 'otherwise' }, asOf: 0 };
        return unknown([q.key]);
      }
      case 'rows':
        return this.rows(info, from, place);
      case 'event': {
        const hits = this.ledger.raised.filter((r) => r.branch === from.branch && related(r.place, place));
        return {
          known: true,
          value: hits.length > 0,
          plusMinus: undefined,
          origin: { from: 'event' },
          asOf: hits.at(-1)?.seq ?? 0,
        };
      }
      case 'earlier': {
        const v = this.earlier.get(slot(from.key, place));
        return v === undefined
          ? unknown([info.key])
          : { known: true, value: v, plusMinus: undefined, origin: { from: 'earlier' }, asOf: 0 };
      }
      case 'fact': {
        const fact = from.fact;
        if ('over' in fact) return this.rollUp(fact, place);
        if (fact.when && this.holds(fact.when, place) !== true) return unknown([]);
        return this.evaluate(fact.is, place);
      }
      case 'calc': {
        const run = this.calc(from.use, place);
        const r = run.outcome?.results[from.result];
        if (!run.outcome || !r) return unknown(run.missing, run.refusal);
        return {
          known: true,
          value: r.value,
          plusMinus: r.plusMinus,
          origin: { from: 'calc', calc: from.use.calc, result: from.result, outcome: run.outcome, inputs: run.inputs },
          asOf: run.asOf,
        };
      }
    }
  }

  private fromGiven(given: Given, part: number | undefined, usual: number | undefined): Value {
    const value = part === undefined ? given.value : (given.value as readonly number[])[part];
    if (value === undefined) return unknown([given.entry.key]);
    const one = given.plusMinus ?? usual;
    return {
      known: true,
      value,
      plusMinus: Array.isArray(value) && one !== undefined ? value.map(() => one) : one,
      origin: { from: 'answer', entry: given.entry, typed: given.typed },
      asOf: given.entry.seq,
    };
  }

  /** Complete rows of a log: those in which the last question was answered. */
  completeRows(stepId: string, place: string): ReadonlyMap<string, Given>[] {
    const step = this.model.steps.get(stepId);
    const required = (step?.ask ?? []).filter((q) => !q.optional).map((q) => q.key);
    return (this.ledger.steps.get(slot(stepId, place))?.rows ?? []).filter((row) => required.every((k) => row.has(k)));
  }

  private rows(info: KeyInfo, from: Extract<KeyInfo['from'], { by: 'rows' }>, place: string): Value {
    const rows = this.completeRows(from.step.id, place);
    const asOf = Math.max(0, ...(rows.at(-1) ? [...rows.at(-1)!.values()].map((g) => g.entry.seq) : []));
    const origin = { from: 'rows', count: rows.length } as const;
    if (from.what === 'count') return { known: true, value: rows.length, plusMinus: undefined, origin, asOf };
    const start = rows[0] ? Date.parse([...rows[0].values()][0]?.first.at ?? '') : 0;
    const value =
      from.what === 'elapsed'
        ? rows.map((r) => Math.max(0, (Date.parse([...r.values()].at(-1)?.first.at ?? '') - start) / 60_000))
        : rows.map((r) => r.get(info.key.slice(4))?.value ?? from.question?.otherwise ?? '');
    return { known: true, value: value as Answer, plusMinus: undefined, origin, asOf };
  }

  private rollUp(fact: Extract<Fact, { over: string }>, place: string): Value {
    const text = fact.all ?? fact.any ?? fact.count ?? fact.list;
    if (!text) return unknown([]);
    const each = this.below(fact.over, place).map((p) => this.evaluate(text, p));
    const asOf = Math.max(0, ...each.map((v) => (v.known ? v.asOf : 0)));
    const missing = [...new Set(each.flatMap((v) => (v.known ? [] : v.missing)))];
    const settle = (value: Answer): Known => ({
      known: true,
      value,
      plusMinus: undefined,
      origin: { from: 'fact', inputs: each[0]?.names ?? [] },
      asOf,
    });
    if (fact.all && each.some((v) => v.known && v.value === false)) return settle(false);
    if (fact.any && each.some((v) => v.known && v.value === true)) return settle(true);
    if (fact.list || fact.count) {
      if (missing.length > 0 || each.some((v) => !v.known)) return unknown(missing);
      const values = each.map((v) => (v as Known).value);
      return settle(fact.list ? (values as Answer) : values.filter((v) => v === true).length);
    }
    if (each.some((v) => !v.known)) return unknown(missing);
    return settle(Boolean(fact.all));
  }

  /** The run of a calculator at a place, once. */
  calc(use: CalcUse, place: string): CalcRun {
    const id = `${this.model.procedure.calcs?.indexOf(use)}@${place}`;
    const seen = this.runs.get(id);
    if (seen) return seen;
    const run = this.runCalc(use, place);
    this.runs.set(id, run);
    return run;
  }

  private runCalc(use: CalcUse, place: string): CalcRun {
    const calculator = this.model.calculators[use.calc];
    const read: Record<string, readonly string[]> = {};
    if (!calculator) return { inputs: read, asOf: 0, missing: [], refusal: `there is no calculator ${use.calc}` };
    if (use.when && this.holds(use.when, place) !== true) return { inputs: read, asOf: 0, missing: [] };
    const inputs: Record<string, InputValue | undefined> = {};
    let asOf = 0;
    const missing: string[] = [];
    let refused: Unknown | undefined;
    for (const [key, text] of Object.entries(use.with)) {
      const v = this.evaluate(text, place);
      read[key] = v.names;
      if (v.known) {
        inputs[key] = inputValue(v, calculator.inputs[key]?.type);
        asOf = Math.max(asOf, v.asOf);
      } else if (!calculator.inputs[key]?.optional) {
        missing.push(...v.missing);
        if (v.refusal) refused ??= v;
      }
    }
    const lacks = Object.entries(calculator.inputs).some(([k, spec]) => !spec.optional && inputs[k] === undefined);
    if (lacks) return { inputs: read, asOf, missing: [...new Set(missing)], refusal: refused?.refusal };
    try {
      return { outcome: calculator.run(inputs as Inputs, this.model.tables), inputs: read, asOf, missing: [] };
    } catch (e) {
      if (e instanceof CalcRefusal) return { inputs: read, asOf, missing: [], refusal: e.message };
      throw e;
    }
  }
}

/** Half the change of an expression between the two ends of one value; 0 when it has no width or no number comes out. */
function halfDifference(
  run: (v: Record<string, Answer>) => Answer | undefined,
  values: Record<string, Answer>,
  name: string,
  part: Known,
): number {
  if (typeof part.value !== 'number' || typeof part.plusMinus !== 'number') return 0;
  const up = run({ ...values, [name]: part.value + part.plusMinus });
  const down = run({ ...values, [name]: part.value - part.plusMinus });
  return typeof up === 'number' && typeof down === 'number' ? (up - down) / 2 : 0;
}

function inputValue(v: Known, type: string | undefined): InputValue {
  const spread = v.plusMinus;
  if (type === 'quantity' && typeof v.value === 'number')
    return { value: v.value, plusMinus: typeof spread === 'number' ? spread : undefined } satisfies Measured;
  if (type === 'quantities' && Array.isArray(v.value))
    return (v.value as readonly number[]).map((value, i) => ({
      value,
      plusMinus: Array.isArray(spread) ? (spread[i] as number) : undefined,
    }));
  return v.value as InputValue;
}
