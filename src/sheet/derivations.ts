/** How a figure was worked out: each calculation with its numbers, inputs with provenance, sources with their tag. */
import {
  type DerivedInput,
  derivationsFor,
  type Derivation as Known,
  type ShownSource,
} from '../engine/state/derivation.js';
import type { State } from '../engine/state/state.js';
import { partLabel, whereOf } from '../engine/state/told.js';
import type { KeyInfo } from '../procedure/model.js';
import type { CalcUse } from '../procedure/schema.js';
import { figureAt, lackingWords, sameSource, saysMore } from './figures.js';
import type { DerivationRow, InputLine, ToldSource } from './sheet-data.js';

/** A chain of rules deeper than this is not drawn out further. */
const DEEPEST = 6;

/** Each calculation once, those that others rest on first. */
export class Derivations {
  private readonly done = new Set<string>();
  private readonly order: DerivationRow[] = [];
  private readonly of: (key: string, place: string) => Known;

  constructor(private readonly state: State) {
    this.of = derivationsFor(state);
  }

  get list(): readonly DerivationRow[] {
    return this.order;
  }

  /** Works out what `key` rests on at a place; a decision rests on the figures that its step names. */
  add(key: string, place: string): void {
    const info = this.state.model.keys.get(key);
    const home = info && this.state.values.enclosing(info.at, place);
    const id = `${key}@${home}`;
    if (!info || !home || this.done.has(id)) return;
    this.done.add(id);
    const { from } = info;
    if (from.by === 'question' || from.by === 'rows') {
      for (const k of from.step.rests_on ?? []) this.add(k, home);
      return;
    }
    const d = this.of(key, home);
    for (const i of d.inputs) if (from.by === 'calc' || !this.isCondition(i.key)) this.add(i.key, i.place);
    if (from.by === 'calc' && d.run && !this.done.has(d.run.id)) {
      this.done.add(d.run.id);
      this.order.push(this.calculation(from.use, d, d.run));
    }
  }

  /** A yes or no decides which way a rule goes; how that came about is no part of the figure. */
  private isCondition(key: string): boolean {
    return this.state.model.keys.get(key)?.type === 'bool';
  }

  private calculation(use: CalcUse, d: Known, run: NonNullable<Known['run']>): DerivationRow {
    const { state } = this;
    const calculator = state.model.calculators[use.calc];
    const outcome = state.values.calc(use, d.place).outcome;
    return {
      ...whereOf(state, d.place),
      id: run.id,
      title: run.title,
      formula: d.formula ?? '',
      worked: d.worked,
      results: Object.entries(use.gives).map(([result, key]) => {
        const figure = figureAt(state, key, d.place);
        const dominant = outcome?.results[result]?.dominant;
        return dominant ? { ...figure, dominant: calculator?.inputs[dominant]?.label ?? dominant } : figure;
      }),
      inputs: run.given.flatMap((g) => this.given(g, d.place)),
      // Sources of rows stand beside the inputs that were read from them.
      sources: told(d.sources.filter((s) => s.row === undefined)),
      warnings: d.warnings,
    };
  }

  private given(g: DerivedInput, place: string): InputLine[] {
    const [only] = g.inputs;
    if (g.shown === undefined) {
      const text = lackingWords(this.state, { known: false, ...g }, place);
      return [{ label: g.label, text, depth: 0, from: 'not known', sources: [] }];
    }
    if (g.same && only) return this.lines(only, 0, new Set(), g.label);
    const from = fromRows(g.sources) ?? (g.names.length ? 'worked out' : 'fixed in the procedure');
    const head: InputLine = { label: g.label, text: g.shown, depth: 0, from, sources: told(g.sources) };
    return [head, ...g.inputs.flatMap((i) => this.lines(i, 1, new Set()))];
  }

  /** One named value, then those that it was made of. */
  private lines(d: Known, depth: number, path: ReadonlySet<string>, heading?: string): InputLine[] {
    const id = `${d.key}@${d.place}`;
    if (path.has(id)) return [];
    const own = partLabel(this.state, d.key, d.place);
    const label = heading && heading.toLowerCase() !== own.toLowerCase() ? `${heading} (${own})` : own;
    const line = (from: string, more: Partial<InputLine> = {}): InputLine => ({
      label,
      text: d.kind === 'unknown' ? 'not known' : d.shown,
      depth,
      from,
      sources: [],
      ...more,
    });
    switch (d.kind) {
      case 'unknown':
        return depth > 0 ? [] : [line('not known')];
      case 'reading':
      case 'corrected': {
        const typed = d.typed && saysMore(d.typed, d.shown) ? `, typed “${d.typed}”` : '';
        return [line(`${d.kind === 'reading' ? 'read' : 'corrected'} by ${d.by}, ${d.at}${typed}`)];
      }
      case 'assumed':
        return depth > 0 ? [] : [line('assumed by the procedure, as it was not asked or left empty')];
      case 'log':
        return [line(`log, ${d.rows ?? 0} rows`)];
      case 'event':
        return depth > 0 && d.value === false ? [] : [line('unforeseen event')];
      case 'earlier-job':
        return [line('from the earlier job')];
      case 'calculation':
        return [line('worked out', d.run ? { derivation: d.run.id } : {})];
      case 'rule': {
        const head = line(fromRows(d.sources) ?? 'rule of the procedure', { sources: told(d.sources) });
        if (depth >= DEEPEST) return [head];
        return [head, ...this.below(d, depth + 1, new Set(path).add(id))];
      }
    }
  }

  private below(d: Known, depth: number, path: ReadonlySet<string>): InputLine[] {
    return d.inputs.flatMap((i) => {
      if (this.isCondition(i.key)) return [];
      const [first, ...rest] = this.lines(i, depth, path);
      if (!first) return [];
      const named = i.place !== d.place && this.ofPlaces(d) ? { ...first, label: `${first.label}, ${i.where}` } : first;
      return [named, ...rest];
    });
  }

  /** True for a rule that gathers the same value from several places. */
  private ofPlaces(d: Known): boolean {
    const from: KeyInfo['from'] | undefined = this.state.model.keys.get(d.key)?.from;
    return from?.by === 'fact' && 'over' in from.fact;
  }
}

const told = (sources: readonly ShownSource[]): ToldSource[] =>
  sources
    .map(({ tag, says }): ToldSource => ({ tag, says }))
    .filter((s, i, all) => all.findIndex((t) => sameSource(s, t)) === i);

/** Names of the tables that rows were read from. */
function fromRows(sources: readonly ShownSource[]): string | undefined {
  const tables = sources.flatMap((s) => (s.row === undefined ? [] : [s.row.split(':')[0] ?? '']));
  return tables.length ? `table ${[...new Set(tables)].join(', ')}` : undefined;
}
