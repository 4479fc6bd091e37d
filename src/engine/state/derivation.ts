/** Where a number comes from, as plain data for screens and sheet: down to who read what, when, and which table row. */
import { cite } from '../../calc/cite.js';
import type { Source, SourceTag } from '../../calc/types.js';
import type { KeyInfo } from '../../procedure/model.js';
import type { CalcUse } from '../../procedure/schema.js';
import type { Answer, Entry } from '../journal/entry.js';
import { type GivenInput, givenInputs } from '../values/given-inputs.js';
import type { Known } from '../values/known.js';
import { ruleWords } from '../values/rule-words.js';
import { rowsReadBy } from '../values/table-sources.js';
import { labelAt, showKey, showValue } from '../values/texts.js';
import type { State } from './state.js';

type DerivationKind =
  /** Read or chosen by a person. */
  | 'reading'
  | 'corrected'
  /** Not asked or left empty: the procedure's own value. */
  | 'assumed'
  | 'log'
  | 'event'
  | 'earlier-job'
  /** An expression of the procedure. */
  | 'rule'
  | 'calculation'
  | 'unknown';

/** A source as it may be shown: only tag P is a citation. */
export interface ShownSource {
  readonly tag: SourceTag;
  readonly says: string;
  /** Table and row, when it is a row's. */
  readonly row?: string;
}

export interface Derivation {
  readonly key: string;
  readonly place: string;
  readonly label: string;
  /** Name of the place; empty for the job as a whole. */
  readonly where: string;
  readonly kind: DerivationKind;
  readonly value: Answer | undefined;
  /** Half width, canonical unit. */
  readonly plusMinus: number | readonly number[] | undefined;
  /** With unit and uncertainty; says what is missing when unknown. */
  readonly shown: string;
  /** Step that asked for it, and who answered when. */
  readonly step?: string;
  readonly at?: string;
  readonly by?: string;
  readonly typed?: string;
  /** Of a correction: what stood before and why it was changed. */
  readonly before?: string;
  readonly reason?: string;
  /** The formula in letters, then with this run's numbers. */
  readonly formula?: string;
  readonly worked: readonly string[];
  readonly warnings: readonly string[];
  readonly sources: readonly ShownSource[];
  readonly inputs: readonly Derivation[];
  /** Of a calculation: its title, what its results share as a name, and what it was given. */
  readonly run?: { readonly id: string; readonly title: string; readonly given: readonly DerivedInput[] };
  /** Rows of a log. */
  readonly rows?: number;
  /** Which of `inputs` dominates the uncertainty, and the reading at the end of that chain. */
  readonly dominant?: { readonly key: string; readonly label: string; readonly reading: string };
}

/** One input of a calculation. */
export interface DerivedInput extends GivenInput {
  readonly inputs: readonly Derivation[];
  readonly sources: readonly ShownSource[];
}

/** How a source may be told to a user. */
function shownSource(source: Source, row?: string): ShownSource {
  const says = {
    P: source.text,
    M: 'usual, verify',
    CP: 'common practice, no source',
    A: cite(source),
    shop: `the shop’s own figure: ${source.text}`,
  }[source.tag];
  return row === undefined ? { tag: source.tag, says } : { tag: source.tag, says, row };
}

/** The whole tree under one value. Equal parts are one object; no part contains itself. */
export function derivation(state: State, key: string, place: string): Derivation {
  return new Deriver(state).of(key, place);
}

/** The same for many values of one state: what they share is worked out once and is one object. */
export function derivationsFor(state: State): (key: string, place: string) => Derivation {
  const deriver = new Deriver(state);
  return (key, place) => deriver.of(key, place);
}

type Read = readonly [key: string, place: string];

class Deriver {
  private readonly seen = new Map<string, Derivation>();
  private readonly open = new Set<string>();

  constructor(private readonly state: State) {}

  of(key: string, place: string): Derivation {
    const address = this.state.values.find(key, place);
    if (!address) return this.nothing(key, place, `there is no “${key}” here`);
    const { info, home } = address;
    const id = `${key}@${home}`;
    const seen = this.seen.get(id);
    if (seen) return seen;
    if (this.open.has(id)) return this.nothing(key, home, 'depends on itself');
    this.open.add(id);
    const made = this.make(info, home);
    this.open.delete(id);
    this.seen.set(id, made);
    return made;
  }

  private label(key: string, place: string): string {
    return labelAt(this.state.values, key, place);
  }

  private nothing(key: string, place: string, shown: string): Derivation {
    return {
      key,
      place,
      label: this.label(key, place),
      where: place === 'job' ? '' : this.state.values.placeLabel(place),
      kind: 'unknown',
      value: undefined,
      plusMinus: undefined,
      shown,
      worked: [],
      warnings: [],
      sources: [],
      inputs: [],
    };
  }

  private make(info: KeyInfo, place: string): Derivation {
    const { model, values } = this.state;
    const v = values.get(info.key, place);
    const base = this.nothing(info.key, place, 'not known yet');
    if (!v.known) {
      const lacking = [...new Set(v.missing)].filter((k) => model.keys.has(k) && k !== info.key);
      const why = v.refusal ?? (lacking.length ? `needs ${lacking.map((k) => this.label(k, place)).join(', ')}` : '');
      return {
        ...base,
        shown: why ? `not known: ${why}` : 'not known yet',
        ...(info.from.by === 'question' ? { step: info.from.step.title } : {}),
        inputs: this.reads(info, place).map(([k, p]) => this.of(k, p)),
      };
    }
    const known: Derivation = {
      ...base,
      value: v.value,
      plusMinus: v.plusMinus,
      shown: showKey(values, info.key, place, true) || '(left empty)',
    };
    return this.explain(info, place, v, known);
  }

  private explain(info: KeyInfo, place: string, v: Known, base: Derivation): Derivation {
    const { model, values } = this.state;
    const step = 'step' in info.from ? { step: info.from.step.title } : {};
    const o = v.origin;
    switch (o.from) {
      case 'answer': {
        const { entry } = o;
        const told = {
          ...base,
          ...step,
          at: entry.at,
          by: entry.by,
          ...(o.typed && info.quantity ? { typed: o.typed } : {}),
        };
        const sources = this.pickedRow(info, v.value);
        if (entry.kind !== 'correct') return { ...told, kind: 'reading', sources };
        const replaced = (e: Entry): e is Extract<Entry, { value: Answer }> => e.seq === entry.of;
        const before = showValue(model, entry.key, this.state.entries.find(replaced)!.value);
        return { ...told, kind: 'corrected', reason: entry.reason, before, sources };
      }
      case 'otherwise':
        return { ...base, ...step, kind: 'assumed' };
      case 'rows':
        return { ...base, ...step, kind: 'log', rows: o.count };
      case 'event': {
        const raised = this.state.ledger.raised.findLast((r) => r.seq === v.asOf);
        return { ...base, kind: 'event', ...(raised ? { at: raised.at, by: raised.by } : {}) };
      }
      case 'earlier':
        return { ...base, kind: 'earlier-job' };
      case 'fact': {
        const fact = info.from.by === 'fact' ? info.from.fact : undefined;
        const rule = fact && 'is' in fact ? fact.is : undefined;
        const stated = fact && 'is' in fact && fact.source ? [shownSource(fact.source)] : [];
        const inputs = this.reads(info, place).map(([k, p]) => this.of(k, p));
        const most = rule === undefined ? this.widest(inputs) : values.contributions(rule, place)[0]?.name;
        return {
          ...base,
          kind: 'rule',
          ...(rule === undefined ? {} : { formula: rule, worked: this.withNumbers(rule, inputs, base) }),
          sources: unique([...stated, ...(rule === undefined ? [] : this.rows(rule, place))]),
          inputs,
          ...this.dominant(most, inputs),
        };
      }
      case 'calc': {
        const use = info.from.by === 'calc' ? info.from.use : undefined;
        const calculator = model.calculators[o.calc];
        const texts = Object.entries(use?.with ?? {});
        const inputs = this.reads(info, place).map(([k, p]) => this.of(k, p));
        const lead = o.outcome.results[o.result]?.dominant ?? '';
        const text = use?.with[lead];
        const name = text && (values.contributions(text, place)[0]?.name ?? o.inputs[lead]?.[0]);
        return {
          ...base,
          kind: 'calculation',
          ...(calculator ? { formula: calculator.formula } : {}),
          ...(use ? { run: this.run(use, place) } : {}),
          worked: o.outcome.worked,
          warnings: o.outcome.warnings,
          sources: unique([
            ...(calculator ? [shownSource(calculator.source)] : []),
            ...(o.outcome.sources ?? []).map((s) => shownSource(s)),
            ...texts.flatMap(([, t]) => this.rows(t, place)),
          ]),
          inputs,
          ...this.dominant(name, inputs),
        };
      }
    }
  }

  private run(use: CalcUse, place: string): NonNullable<Derivation['run']> {
    const { model, values } = this.state;
    return {
      id: `calc-${model.procedure.calcs!.indexOf(use)}-${place.replaceAll('.', '-')}`,
      title: model.calculators[use.calc]?.title ?? use.calc,
      given: givenInputs(values, use, place).map((g) => ({
        ...g,
        inputs: g.names.map((n) => this.of(n, place)),
        sources: this.rows(g.rule, place),
      })),
    };
  }

  /** Names that a key was worked out from, with the place at which each was read. */
  private reads(info: KeyInfo, place: string): Read[] {
    const { model, values } = this.state;
    const from = info.from;
    const names = (texts: readonly (string | undefined)[]): string[] =>
      [...new Set(texts.flatMap((t) => (t === undefined ? [] : [...model.expression(t).names])))].filter((n) =>
        model.keys.has(n),
      );
    if (from.by === 'calc') return names(Object.values(from.use.with)).map((n): Read => [n, place]);
    if (from.by !== 'fact') return [];
    const fact = from.fact;
    if (!('over' in fact)) return names([fact.is]).map((n): Read => [n, place]);
    const all = names([fact.all, fact.any, fact.count, fact.list]);
    return values.below(fact.over, place).flatMap((p) => all.map((n): Read => [n, p]));
  }

  private rows(text: string, place: string): ShownSource[] {
    return rowsReadBy(this.state.values, text, place).map((r) => shownSource(r.source, `${r.table}: ${r.row}`));
  }

  /** The row that was chosen from a table. */
  private pickedRow(info: KeyInfo, value: Answer): ShownSource[] {
    if (info.from.by !== 'question' || !('table' in info.from.question)) return [];
    const { table } = info.from.question;
    const row = this.state.model.tables[table]?.rows.find((r) => r.id === value);
    return row ? [shownSource({ tag: row.tag, text: row.source }, `${table}: ${row.id}`)] : [];
  }

  /** The rule with each name replaced by its value; a rule that only hands on a value says nothing new. */
  private withNumbers(rule: string, inputs: readonly Derivation[], base: Derivation): string[] {
    if (typeof base.value !== 'number') return [];
    const of = new Map(inputs.map((i) => [i.key, i.shown]));
    const numbers = ruleWords(this.state.values, rule, base.place, (key) => of.get(key));
    return numbers === undefined || numbers === base.shown ? [] : [`${numbers} = ${base.shown}`];
  }

  private widest(inputs: readonly Derivation[]): string | undefined {
    const wide = inputs.flatMap(({ key, plusMinus }) =>
      typeof plusMinus === 'number' && plusMinus > 0 ? [{ key, plusMinus }] : [],
    );
    return wide.sort((a, b) => b.plusMinus - a.plusMinus)[0]?.key;
  }

  private dominant(key: string | undefined, inputs: readonly Derivation[]): Pick<Derivation, 'dominant'> {
    const hit = key === undefined ? undefined : inputs.find((i) => i.key === key);
    return hit ? { dominant: { key: hit.key, label: hit.label, reading: hit.dominant?.reading ?? hit.label } } : {};
  }
}

const unique = (sources: readonly ShownSource[]): ShownSource[] => [
  ...new Map(sources.map((s) => [JSON.stringify([s.tag, s.says, s.row]), s])).values(),
];
