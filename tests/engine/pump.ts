/** The invented hand pump: its procedure, two small calculators, and a bench on which tests act like a person. */
import { readFileSync } from 'node:fs';
import { CalcRefusal, type Calculator, type Measured, type Tables } from '../../src/calc/types.js';
import { type Action, propose } from '../../src/engine/actions/propose.js';
import type { Draft, Entry } from '../../src/engine/journal/entry.js';
import { State, type StateOptions } from '../../src/engine/state/state.js';
import { loadProcedure } from '../../src/procedure/load.js';
import { type Model, modelOf } from '../../src/procedure/model.js';

const cylinder: Calculator = {
  name: 'cylinder',
  title: 'Volume of a cylinder',
  inputs: {
    bore: { label: 'Bore', type: 'quantity', kind: 'length', unit: 'mm', limits: [1, 150] },
    stroke: { label: 'Stroke', type: 'quantity', kind: 'length', unit: 'mm' },
  },
  results: {
    swept: { label: 'Swept volume', kind: 'volume', unit: 'mL' },
    advice: { label: 'Advice', unit: '' },
  },
  formula: 'V = pi/4 b^2 s',
  source: { tag: 'A', text: 'volume of a cylinder' },
  run: (inputs) => {
    const b = inputs.bore as Measured;
    const s = inputs.stroke as Measured;
    if (b.value > 150) throw new CalcRefusal('bore', 'The bore is larger than 150 mm; measure again.');
    const v = (Math.PI / 4) * b.value ** 2 * s.value * 1e-3;
    const byBore = (2 * v * (b.plusMinus ?? 0)) / b.value;
    const byStroke = (v * (s.plusMinus ?? 0)) / s.value;
    return {
      results: {
        swept: { value: v, plusMinus: Math.hypot(byBore, byStroke), dominant: byBore > byStroke ? 'bore' : 'stroke' },
        advice: { value: v > 100 ? 'replace' : 'keep' },
      },
      warnings: v > 90 ? ['Near the end of its life.'] : [],
      worked: [`V = pi/4 x ${b.value}^2 x ${s.value} = ${(v * 1000).toFixed(0)} mm3`],
    };
  },
};

const total: Calculator = {
  name: 'total',
  title: 'Sum',
  inputs: { parts: { label: 'Parts', type: 'quantities', kind: 'volume', unit: 'mL' } },
  results: { sum: { label: 'Oil in all', kind: 'volume', unit: 'mL' } },
  formula: 'sum',
  source: { tag: 'A', text: 'addition' },
  run: (inputs) => {
    const parts = inputs.parts as readonly Measured[];
    const value = parts.reduce((n, p) => n + p.value, 0);
    const spread = Math.hypot(...parts.map((p) => p.plusMinus ?? 0));
    return { results: { sum: { value, plusMinus: spread || undefined } }, warnings: [], worked: [] };
  },
};

export const tables: Tables = {
  oils: {
    id: 'oils',
    rows: [
      { id: 'thin', tag: 'P', source: 'An oil table, 1999', grade: 'VG 10', share: 50 },
      { id: 'thick', tag: 'M', source: 'from memory', grade: 'VG 100', share: 80 },
    ],
  },
};
export const calculators = { cylinder, total };

export function modelFrom(text: string): Model {
  const { procedure, problems } = loadProcedure(text, 'pump.yaml', { tables, calculators });
  if (!procedure) throw new Error(problems.map((p) => `${p.line}: ${p.message}`).join('\n'));
  return modelOf(procedure, 'hash', tables, calculators);
}

export const pumpText = readFileSync(new URL('./pump.procedure.yaml', import.meta.url), 'utf8');
export const pump = modelFrom(pumpText);
export const START = Date.parse('2026-03-02T08:00:00Z');

/** A journal under construction. Time goes on by one second an entry. */
export class Bench {
  entries: readonly Entry[] = [];
  now = START;
  by = 'AP';
  private last: State | undefined;

  constructor(
    readonly model: Model = pump,
    job: Partial<Extract<Draft, { kind: 'job' }>> = {},
    readonly options: StateOptions = {},
  ) {
    this.add({
      kind: 'job',
      name: 'Test',
      procedure: model.procedure.procedure,
      version: '1.0.0',
      hash: 'hash',
      by: this.by,
      ...job,
    });
  }

  get state(): State {
    const last = this.last;
    if (last && last.entries === this.entries && last.now === this.now) return last;
    this.last = new State(this.model, this.entries, this.now, { ...this.options, before: last });
    return this.last;
  }

  add(...drafts: Draft[]): this {
    for (const d of drafts) {
      this.now += 1000;
      const entry = { ...d, seq: this.entries.length + 1, at: new Date(this.now).toISOString() } as Entry;
      this.entries = [...this.entries, entry];
    }
    return this;
  }

  /** What the engine says to an action: the sentence of the refusal, or undefined when it was recorded. */
  try(action: Action): string | undefined {
    const p = propose(this.state, action, this.by);
    if (!p.ok) return p.message;
    this.add(...p.drafts);
    return undefined;
  }

  /** An action that must be accepted. */
  do(action: Action): this {
    const refused = this.try(action);
    if (refused !== undefined) throw new Error(`${JSON.stringify(action)}: ${refused}`);
    return this;
  }

  answer(step: string, place: string, answers: Record<string, unknown>): this {
    for (const [key, text] of Object.entries(answers)) this.do({ do: 'answer', step, place, key, text });
    return this;
  }
  done(step: string, place: string): this {
    return this.do({ do: 'done', step, place });
  }
  correct(step: string, place: string, key: string, text: unknown): this {
    return this.do({ do: 'correct', step, place, key, text, reason: 'read wrongly' });
  }
  wait(minutes: number): this {
    this.now += minutes * 60_000;
    return this;
  }

  status(step: string, place: string): string {
    return this.state.view(step, place)?.status ?? 'missing';
  }
  value(key: string, place: string): unknown {
    const v = this.state.values.get(key, place);
    return v.known ? v.value : undefined;
  }
}

export interface HeadReadings {
  readonly bore?: string;
  readonly stroke?: string;
  readonly lid?: string;
  readonly outlet?: string;
}

/** Up to the pressure being off. */
export function prepared(bench = new Bench(), heads = 'two'): Bench {
  return bench
    .answer('start', 'job', { heads, name_a: '' })
    .do({ do: 'caution', step: 'pressure', place: 'job' })
    .answer('pressure', 'job', { gauge: 0 })
    .done('pressure', 'job');
}

/** A head measured, with good seats, and kept. */
export function measured(bench: Bench, head: string, r: HeadReadings = {}): Bench {
  bench.answer('outlet-there', head, { has_outlet: r.outlet ?? 'no' });
  bench.answer('bore', head, { bore: r.bore ?? '40', stroke: r.stroke ?? '50', lid: r.lid ?? '80x60' });
  bench.answer('valve-look', `${head}.inlet`, { seat: 'good' });
  if (r.outlet === 'yes') bench.answer('valve-look', `${head}.outlet`, { seat: 'good' });
  return bench.answer('decide', head, { keep: 'keep' });
}

/** Both heads measured, oil chosen: the filling comes next. */
export function readyToFill(bench = new Bench()): Bench {
  prepared(bench);
  measured(bench, 'a');
  measured(bench, 'b', { bore: '30' });
  return bench.answer('oil-kind', 'job', { oil: 'thin' });
}

/** Everything up to the witness. */
export function built(bench = new Bench()): Bench {
  readyToFill(bench);
  for (const head of ['a', 'b']) bench.done('fill', head).answer('screws', head, { screws: 4 });
  for (const head of ['a', 'b']) bench.done('glue', head).done('polish', head);
  bench.wait(31);
  for (const head of ['a', 'b']) bench.answer('badge', head, { letters: 'x,y' });
  return bench;
}

/** The whole job. */
export function finished(bench = new Bench()): Bench {
  built(bench)
    .answer('witness', 'job', { looks: 'yes' })
    .do({ do: 'sign', step: 'witness', place: 'job', initials: 'ZZ' });
  for (const leak of ['2', '1', '0.5']) bench.answer('run', 'job', { leak, noise: 'no' });
  return bench;
}
