/** Random but sensible work on a job, for property tests: at each number of the list one thing is done. */

import { propose } from '../../src/engine/actions/propose.js';
import type { Entry } from '../../src/engine/journal/entry.js';
import type { State } from '../../src/engine/state/state.js';
import type { Question } from '../../src/procedure/schema.js';
import { Bench } from './pump.js';

/** Everything that a state says, without the journal and without objects of its own. */
export function snapshot(state: State) {
  return {
    views: state.views.map((v) => ({
      at: `${v.step.id}@${v.place}`,
      status: v.status,
      wants: v.wants,
      question: v.question?.key,
      because: v.because,
      gates: v.gates.map((g) => [g.gate.id, g.missing, g.refusal]),
      changed: v.changed,
      wait: v.wait,
      signed: v.signed?.initials,
      answered: v.answered.map((a) => [a.question.key, a.given.value]),
    })),
    values: valuesOf(state),
    remedies: state.remedies.map((r) => r.text),
    raised: state.ledger.raised.map((r) => [r.branch, r.place]),
    progress: state.progress,
  };
}

/** Every value at every place; elapsed times are the clock's. */
export function valuesOf(state: State): Record<string, unknown> {
  const out: Record<string, unknown> = {};
  for (const [key, info] of state.model.keys)
    for (const p of state.model.places) {
      if (p.kind !== info.at || key.startsWith('elapsed_')) continue;
      const v = state.values.get(key, p.id);
      out[`${key}@${p.id}`] = v.known ? { value: v.value, plusMinus: v.plusMinus } : { missing: v.missing };
    }
  return out;
}

const pick = <T>(list: readonly T[], n: number): T => list[n % list.length] as T;

/** An answer that is accepted, as typed; the number chooses which. */
export function answerTo(q: Question, n: number, screws: number): string {
  switch (q.kind) {
    case 'choice':
      return pick(q.options, n).value;
    case 'choice-from-table':
      return pick(['thin', 'thick'], n);
    case 'yes-no':
      return pick(['yes', 'no'], n);
    case 'quantity':
      return q.key === 'leak'
        ? pick(['0.5', '0.5', '3'], n)
        : q.key === 'wear'
          ? pick(['0.5', '2'], n)
          : String(20 + (n % 60));
    case 'dimensions':
      return pick(['80x60', '120 x 60'], n);
    case 'number':
      return pick(['0', '0', '7'], n);
    case 'counter':
      return String(screws);
    case 'text':
      return pick(['Front', 'Left'], n);
    case 'series':
      return pick(['x,y', 'y,y,x'], n);
  }
}

export interface Ways {
  readonly corrections?: boolean;
  readonly overrules?: boolean;
  readonly branches?: boolean;
  /** Answers depend on key and place alone, not on the order of work. */
  readonly settledAnswers?: boolean;
}

/** Answers with which a job comes to its end. */
const settled: Record<string, string> = {
  heads: 'two',
  gauge: '0',
  wear: '0.5',
  keep: 'replace',
  ring_found: 'yes',
  leak: '0.5',
};

const hash = (text: string): number => [...text].reduce((n, c) => (n * 31 + c.charCodeAt(0)) % 10_007, 7);

/** One thing more. `n` chooses it; false when nothing could be done. */
export function onward(bench: Bench, n: number, ways: Ways = {}): boolean {
  const { state } = bench;
  const side = n % 11;
  if (side === 0 && ways.corrections && correctOne(bench, n)) return true;
  if (side === 1 && ways.branches && n % 5 === 0)
    return bench.try({ do: 'raise', branch: 'ring-dropped', place: pick(['a', 'b'], n) }) === undefined;
  if (side === 2 && ways.corrections) {
    const remedy = state.remedies[0]?.view ?? state.views.find((v) => v.changed.length > 0);
    if (remedy)
      return bench.try({ do: 'settle', step: remedy.step.id, place: remedy.place, reason: 'seen to' }) === undefined;
  }
  if (side === 3) return bench.wait(n % 40) !== undefined;
  const open = state.available();
  if (!open.length) return bench.wait(31) !== undefined && state.waiting.length > 0;
  const view = pick(open, n >> 4);
  const at = { step: view.step.id, place: view.place };
  switch (view.wants) {
    case 'caution':
      return bench.try({ do: 'caution', ...at }) === undefined;
    case 'question': {
      const q = view.question!;
      const by = ways.settledAnswers ? hash(`${q.key}@${view.place}`) : n >> 3;
      const long = state.values.get('lid_long', view.place);
      const screws = long.known && (long.value as number) > 100 ? 6 : 4;
      const text = ways.settledAnswers && Object.hasOwn(settled, q.key) ? settled[q.key] : answerTo(q, by, screws);
      return bench.try({ do: 'answer', ...at, key: q.key, text }) === undefined;
    }
    case 'confirm':
      return bench.try({ do: 'done', ...at }) === undefined;
    case 'sign':
      return bench.try({ do: 'sign', ...at, initials: 'ZZ' }) === undefined;
    case 'predict':
      return bench.try({ do: 'predict', ...at, key: view.step.predict?.[0] ?? '', text: '1' }) === undefined;
    case 'gate': {
      const g = view.gates[0]!.gate;
      if (ways.overrules && g.overrule === 'with-reason')
        return bench.try({ do: 'overrule', ...at, gate: g.id, reason: 'reason', initials: 'AP' }) === undefined;
      const q = pick(view.step.ask ?? [], n >> 2);
      if (!q || g.at === 'enter') return false;
      return bench.try({ do: 'answer', ...at, key: q.key, text: answerTo(q, n >> 5, 4) }) === undefined;
    }
    default:
      return false;
  }
}

export function correctOne(bench: Bench, n: number): boolean {
  const given = bench.state.views.flatMap((v) => v.answered.map((a) => ({ v, a })));
  if (!given.length) return false;
  const { v, a } = pick(given, n >> 6);
  const text = answerTo(a.question, n >> 4, Number(a.given.value));
  const p = propose(
    bench.state,
    { do: 'correct', step: v.step.id, place: v.place, key: a.question.key, text, reason: 'read wrongly' },
    'AP',
  );
  if (!p.ok) return false;
  bench.add(...p.drafts);
  return true;
}

export function walked(numbers: readonly number[], ways: Ways = {}): Bench {
  const bench = new Bench();
  for (const n of numbers) onward(bench, n, ways);
  return bench;
}

/** Freezes a journal so that whoever changes it is found out. */
export function frozen(entries: readonly Entry[]): readonly Entry[] {
  for (const e of entries) {
    Object.freeze(e);
    for (const v of Object.values(e)) if (typeof v === 'object' && v !== null) Object.freeze(v);
  }
  return Object.freeze([...entries]);
}

/** Evenly spread numbers from a seed: fast-check's own lean to small ones, and then nothing much happens. */
export function spreadNumbers(seed: number, length: number): number[] {
  let x = (seed ^ 0x9e3779b9) >>> 0 || 1;
  return Array.from({ length }, () => {
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    x >>>= 0;
    return x % 1_000_003;
  });
}
