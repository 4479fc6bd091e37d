/** How a figure was worked out: each calculation with its numbers, inputs with provenance, sources with their tag. */
import type { InputSpec, Source } from '../calc/types.js';
import type { State } from '../engine/state.js';
import type { KeyInfo } from '../procedure/model.js';
import type { CalcUse } from '../procedure/schema.js';
import { showQuantity } from '../units/show.js';
import { figureAt, labelOf, lacking, sameSource, saysMore, textOf, told, whereOf } from './figures.js';
import type { Derivation, InputLine, ToldSource } from './sheet-data.js';
import { type TableRead, tableRowsOf } from './table-rows.js';

/** A chain of rules deeper than this is not drawn out further. */
const DEEPEST = 6;

/** Each calculation once, those that others rest on first. */
export class Derivations {
  private readonly done = new Map<string, Derivation | undefined>();
  private readonly order: Derivation[] = [];

  constructor(private readonly state: State) {}

  get list(): readonly Derivation[] {
    return this.order;
  }

  /** Works out what `key` rests on at a place; a decision rests on the figures that its step names. */
  add(key: string, place: string): void {
    this.visit(key, place, new Set());
  }

  private visit(key: string, place: string, path: Set<string>): void {
    const info = this.state.model.keys.get(key);
    const home = info && this.state.values.enclosing(info.at, place);
    if (!info || !home || path.has(`${key}@${home}`)) return;
    path.add(`${key}@${home}`);
    const from = info.from;
    if (from.by === 'calc') this.calculation(from.use, home, path);
    else if (from.by === 'fact') {
      for (const [k, p] of this.readsOf(info, home)) if (!this.isCondition(k)) this.visit(k, p, path);
    } else if (from.by === 'question' || from.by === 'rows')
      for (const k of from.step.rests_on ?? []) this.visit(k, home, path);
  }

  private readsOf(info: KeyInfo, place: string): [string, string][] {
    if (info.from.by !== 'fact') return [];
    const fact = info.from.fact;
    const text = 'over' in fact ? (fact.all ?? fact.any ?? fact.count ?? fact.list) : fact.is;
    if (!text) return [];
    const places = 'over' in fact ? this.state.values.below(fact.over, place) : [place];
    return places.flatMap((p) => this.namesIn(text).map((n): [string, string] => [n, p]));
  }

  /** A yes or no decides which way a rule goes; how that came about is no part of the figure. */
  private isCondition(key: string): boolean {
    return this.state.model.keys.get(key)?.type === 'bool';
  }

  private namesIn(text: string): string[] {
    return this.state.model.expression(text).names.filter((n) => this.state.model.keys.has(n));
  }

  private calculation(use: CalcUse, place: string, path: Set<string>): Derivation | undefined {
    const id = `calc-${this.state.model.procedure.calcs?.indexOf(use)}-${place.replaceAll('.', '-')}`;
    if (this.done.has(id)) return this.done.get(id);
    this.done.set(id, undefined);
    for (const text of Object.values(use.with))
      for (const name of this.namesIn(text)) this.visit(name, place, new Set(path));
    const calculator = this.state.model.calculators[use.calc];
    const run = this.state.values.calc(use, place);
    if (!calculator || !run.outcome) return undefined;
    const outcome = run.outcome;
    const derivation: Derivation = {
      ...whereOf(this.state, place),
      id,
      title: calculator.title,
      formula: calculator.formula,
      worked: outcome.worked,
      results: Object.entries(use.gives).map(([result, key]) => {
        const figure = figureAt(this.state, key, place);
        const dominant = outcome.results[result]?.dominant;
        return dominant ? { ...figure, dominant: calculator.inputs[dominant]?.label ?? dominant } : figure;
      }),
      inputs: Object.entries(use.with).flatMap(([input, text]) =>
        this.inputLines(text, place, input, calculator.inputs[input]),
      ),
      sources: unique([calculator.source, ...(outcome.sources ?? [])].map(told)),
      warnings: outcome.warnings,
    };
    this.done.set(id, derivation);
    this.order.push(derivation);
    return derivation;
  }

  private inputLines(text: string, place: string, input: string, spec: InputSpec | undefined): InputLine[] {
    const label = spec?.label ?? input;
    const v = this.state.values.evaluate(text, place);
    const names = this.namesIn(text);
    if (!v.known && spec?.optional) return [];
    if (!v.known)
      return [
        { label, text: lacking(this.state, v.missing, v.refusal, place), depth: 0, from: 'not known', sources: [] },
      ];
    const only = names[0];
    if (names.length === 1 && only && text.trim() === only) return this.nameLines(only, place, 0, new Set(), label);
    const values: readonly (string | number | boolean)[] = Array.isArray(v.value) ? v.value : [v.value];
    const shown = values.map((x) => inWords(x, spec)).join(', ');
    const rows = tableRowsOf(this.state, text, place);
    const sources = unique(rows.map(told));
    const from = fromRows(rows) ?? (names.length ? 'worked out' : 'fixed in the procedure');
    const head: InputLine = { label, text: shown, depth: 0, from, sources };
    return [head, ...names.flatMap((n) => this.nameLines(n, place, 1, new Set()))];
  }

  /** One named value, then those that it was made of. */
  private nameLines(name: string, place: string, depth: number, path: Set<string>, heading?: string): InputLine[] {
    const state = this.state;
    const info = state.model.keys.get(name);
    const home = info && state.values.enclosing(info.at, place);
    if (!info || !home || path.has(`${name}@${home}`)) return [];
    const v = state.values.get(name, home);
    const own = labelOf(state, name, home);
    const label = heading && heading.toLowerCase() !== own.toLowerCase() ? `${heading} (${own})` : own;
    if (!v.known) return depth > 0 ? [] : [{ label, text: 'not known', depth, from: 'not known', sources: [] }];
    const text = textOf(state, name, v.value, v.plusMinus);
    const line = (from: string, sources: readonly ToldSource[] = [], derivation?: string): InputLine => ({
      label,
      text,
      depth,
      from,
      sources,
      ...(derivation ? { derivation } : {}),
    });
    const o = v.origin;
    switch (o.from) {
      case 'answer': {
        const typed = o.typed && saysMore(o.typed, text) ? `, typed “${o.typed}”` : '';
        const how = o.entry.kind === 'correct' ? 'corrected' : 'read';
        return [line(`${how} by ${o.entry.by}, ${o.entry.at}${typed}`)];
      }
      case 'otherwise':
        return depth > 0 ? [] : [line('assumed by the procedure, as it was not asked or left empty')];
      case 'rows':
        return [line(`log, ${o.count} rows`)];
      case 'event':
        return depth > 0 && v.value === false ? [] : [line('unforeseen event')];
      case 'earlier':
        return [line('from the earlier job')];
      case 'calc': {
        const use = info.from.by === 'calc' ? info.from.use : undefined;
        const made = use && this.calculation(use, home, new Set());
        return [line('worked out', [], made?.id)];
      }
      case 'fact': {
        const fact = info.from.by === 'fact' ? info.from.fact : undefined;
        const rule = fact && 'is' in fact ? fact.is : undefined;
        const rows = rule ? tableRowsOf(state, rule, home) : [];
        const stated: Source[] = fact && 'is' in fact && fact.source ? [fact.source] : [];
        const head = line(fromRows(rows) ?? 'rule of the procedure', unique([...stated, ...rows].map(told)));
        if (depth >= DEEPEST) return [head];
        const next = new Set(path).add(`${name}@${home}`);
        const parts = this.readsOf(info, home).flatMap(([n, p]) => {
          if (this.isCondition(n)) return [];
          const [first, ...rest] = this.nameLines(n, p, depth + 1, next);
          if (!first) return [];
          const below = p === home ? first : { ...first, label: `${first.label}, ${state.values.placeLabel(p)}` };
          return [below, ...rest];
        });
        return [head, ...parts];
      }
    }
  }
}

function inWords(v: string | number | boolean, spec: InputSpec | undefined): string {
  if (typeof v === 'boolean') return v ? 'yes' : 'no';
  if (typeof v === 'string') return v;
  return spec && 'kind' in spec ? showQuantity(v, spec.kind) : String(Number(v.toPrecision(5)));
}

const fromRows = (rows: readonly TableRead[]): string | undefined =>
  rows.length ? `table ${[...new Set(rows.map((r) => r.table))].join(', ')}` : undefined;

const unique = (sources: readonly ToldSource[]): ToldSource[] =>
  sources.filter((s, i) => sources.findIndex((t) => sameSource(s, t)) === i);
