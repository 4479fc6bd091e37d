/** What the engine says of a figure that was to be predicted, with the figures next to it and the worked solution. Pure. */
import { type Derivation, derivation } from '../engine/state/derivation.js';
import type { State } from '../engine/state/state.js';
import { isList } from '../guards/guards.js';
import { type Expected, judgePrediction, type Neighbour } from './judge-prediction.js';

/** Lines of a worked solution at most; the last ones are the nearest to the figure. */
const LINES_MOST = 10;

export function expectedOf(state: State, key: string, place: string): Expected {
  const info = state.model.keys.get(key);
  const v = state.values.get(key, place);
  return {
    type: info?.type ?? 'string',
    quantity: info?.quantity,
    value: v.known ? v.value : undefined,
    plusMinus: v.known ? v.plusMinus : undefined,
    neighbours: v.known && typeof v.value === 'number' ? neighboursOf(state, key, place) : [],
  };
}

function neighboursOf(state: State, key: string, place: string): Neighbour[] {
  const info = state.model.keys.get(key);
  const home = info && state.values.enclosing(info.at, place);
  if (!home) return [];
  const found: Neighbour[] = [];
  const numberAt = (k: string, p: string): number | undefined => {
    const v = state.values.get(k, p);
    return v.known && typeof v.value === 'number' ? v.value : undefined;
  };
  const own = numberAt(key, home) ?? 0;
  const parent = state.model.place.get(home)?.parent;
  if (parent !== undefined) {
    const others = state.values.below(info.at, parent).filter((p) => p !== home);
    for (const p of others) {
      const value = numberAt(key, p);
      if (value !== undefined) found.push({ slip: 'other-bearing', label: state.values.placeLabel(p), value });
    }
    const all = others.map((p) => numberAt(key, p));
    if (all.length && all.every((n) => n !== undefined))
      found.push({ slip: 'two-bearings-for-one', label: '', value: all.reduce((a, b) => a + b, own) });
  }
  for (const input of derivation(state, key, home).inputs) {
    if (state.model.keys.get(input.key)?.quantity !== info.quantity || !info.quantity) continue;
    if (isList(input.value) && input.value.length > 1)
      for (const [i, value] of input.value.entries())
        if (typeof value === 'number')
          found.push({ slip: 'one-bearing-for-two', label: `${input.label} ${i + 1}`, value });
    if (typeof input.value === 'number') found.push({ slip: 'step-short', label: input.label, value: input.value });
  }
  return found.filter((n) => n.value !== own);
}

/** The way to the figure, one line a step, readings first and the figure last. */
export function workedSolution(state: State, key: string, place: string): string[] {
  const lines: string[] = [];
  const seen = new Set<Derivation>();
  const visit = (d: Derivation, depth: number): void => {
    if (seen.has(d) || depth > 6) return;
    seen.add(d);
    for (const input of d.inputs) visit(input, depth + 1);
    if (d.kind === 'calculation' && d.worked.length) for (const w of d.worked) lines.push(`${d.label}: ${w}`);
    else if (d.kind === 'rule' && typeof d.value === 'number') {
      // A rule that only chooses between values says nothing to work along.
      const [sum = ''] = d.worked;
      if (sum !== '' && !/[?'&|]|not known/.test(sum)) lines.push(`${d.label}: ${sum}`);
    } else if (depth <= 1 && d.kind !== 'unknown') lines.push(`${d.label}: ${d.shown}`);
  };
  const top = derivation(state, key, place);
  visit(top, 0);
  const last = `${top.label}: ${top.shown}`;
  const unique = [...new Set(lines)].filter((l) => l !== last);
  return [...unique.slice(-LINES_MOST), last];
}

export interface JudgedInWords {
  /** unreadable: it is asked again, and `why` says what to type. */
  readonly verdict: 'right' | 'close' | 'wrong' | 'unreadable';
  /** The slip that it looks like, or ''. */
  readonly why: string;
}

/** A prediction held against the figure that stands on the screen now. Undefined where nothing was said, or nothing can be held against it yet. */
export function judgeInWords(state: State, key: string, place: string, typed: string): JudgedInWords | undefined {
  const j = judgePrediction(typed, expectedOf(state, key, place));
  if (j.verdict === 'not-judged') return undefined;
  return { verdict: j.verdict, why: j.slip?.says ?? j.says ?? '' };
}
