/** What the engine says of a figure that was to be predicted, with the figures next to it and the worked solution. Pure. */
import type { Entry } from '../engine/journal/entry.js';
import { type Derivation, derivation } from '../engine/state/derivation.js';
import type { State } from '../engine/state/state.js';
import { showValue, suggestionOf } from '../engine/values/texts.js';
import { isList } from '../guards/guards.js';
import { type Expected, judgePrediction, type Neighbour, type PredictionJudgement } from './judge-prediction.js';
import { stateAfter } from './trap-outcomes.js';

/** Lines of a worked solution at most; the last ones are the nearest to the figure. */
const LINES_MOST = 10;

export function expectedOf(state: State, key: string, place: string): Expected {
  const info = state.model.keys.get(key);
  const v = state.values.get(key, place);
  const maySet = v.known && typeof v.value === 'number' ? maySetOf(state, key, place) : undefined;
  return {
    type: info?.type ?? 'string',
    quantity: info?.quantity,
    value: v.known ? v.value : undefined,
    plusMinus: v.known ? v.plusMinus : undefined,
    neighbours: v.known && typeof v.value === 'number' ? neighboursOf(state, key, place) : [],
    ...(maySet ? { maySet } : {}),
  };
}

/** Where the step then asks for a figure of the same kind: from the least that is usual to the most that it offers. */
function maySetOf(state: State, key: string, place: string): readonly [number, number] | undefined {
  const quantity = state.model.keys.get(key)?.quantity;
  const step = [...state.model.steps.values()].find((s) => s.predict?.includes(key));
  for (const q of step?.ask ?? []) {
    if (q.kind !== 'number' || quantity !== 'count' || !q.plausible || q.suggest === undefined) continue;
    const most = Number(suggestionOf(state.values, q, place) ?? Number.NaN);
    const [least] = q.plausible;
    if (most >= least) return [least, most];
  }
  return undefined;
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

interface Worked {
  readonly label: string;
  readonly text: string;
}
/** What a line works out: of `dose = 5.77 mL x 15 %` it is the dose. */
const workedOut = ({ text }: Worked): string | undefined => /^([\p{L}][\p{L} ]*) = /u.exec(text)?.[1];

/** The way to the figure, one line a step, readings first and the figure last; of what is worked out more than once what counts. */
export function workedSolution(state: State, key: string, place: string): string[] {
  const lines: Worked[] = [];
  const seen = new Set<Derivation>();
  const visit = (d: Derivation, depth: number): void => {
    if (seen.has(d) || depth > 6) return;
    seen.add(d);
    for (const input of d.inputs) visit(input, depth + 1);
    if (d.kind === 'calculation' && d.worked.length)
      for (const text of d.worked) lines.push({ label: d.label, text: withSet(text, d) });
    else if (d.kind === 'rule' && typeof d.value === 'number') {
      // A rule that only chooses between values says nothing to work along.
      const [sum = ''] = d.worked;
      if (sum !== '' && !/[?'&|]|not known|^0 = /.test(sum)) lines.push({ label: d.label, text: sum });
    } else if (depth <= 1 && d.kind !== 'unknown') lines.push({ label: d.label, text: d.shown });
  };
  /** What was offered otherwise is named as set: beside what is suggested it looks like a second answer. */
  const withSet = (text: string, { inputs }: Derivation): string =>
    inputs.reduce((t, i) => {
      const from = state.model.keys.get(i.key)?.from;
      const set = (i.kind === 'reading' || i.kind === 'corrected') && from?.by === 'question' && from.question.suggest;
      return set ? t.replace(` x ${i.shown} `, ` x ${i.shown} (as set) `) : t;
    }, text);
  const top = derivation(state, key, place);
  visit(top, 0);
  const later = (i: number, same: (l: Worked) => boolean): boolean => lines.slice(i + 1).some(same);
  const counts = lines.filter((l, i) => {
    const of = workedOut(l);
    return !later(i, (o) => o.text === l.text || (of !== undefined && o.label !== l.label && workedOut(o) === of));
  });
  const last = `${top.label}: ${top.shown}`;
  /** A calculation tells all that it works out with each of its results: a line goes with the one that it names. */
  const nameOf = (l: Worked): string =>
    lines.find((o) => o.text === l.text && ` ${o.label} `.includes(` ${workedOut(o)} `))?.label ?? l.label;
  const told = counts.map((l) => `${nameOf(l)}: ${l.text}`).filter((l) => l !== last);
  return [...told.slice(-LINES_MOST), last];
}

export interface JudgedInWords {
  /** unreadable: it is asked again, and `why` says what to type. */
  readonly verdict: Exclude<PredictionJudgement['verdict'], 'not-judged'>;
  /** The slip that it looks like, or ''. */
  readonly why: string;
}

/** The job by which a prediction is judged: a later correction makes no good one bad. `index`: of its entry. */
export function whenSaid(state: State, index: number, { key, place }: { key: string; place: string }): State {
  const early = index < 0 ? state : stateAfter(state, index);
  return early.values.get(key, place).known ? early : state;
}

/** What was expected when it was said: an entry never changes, and neither does what was known then. */
const said = new WeakMap<Entry, Expected>();

/** A prediction held against what the guide knew when it was made. Undefined where nothing was said, or nothing can be held against it yet. */
export function judgeInWords(state: State, key: string, place: string, typed: string): JudgedInWords | undefined {
  const index = state.entries.findLastIndex((e) => e.kind === 'predict' && e.key === key && e.place === place);
  const entry = state.entries[index];
  const now = expectedOf(state, key, place);
  const then = (entry && said.get(entry)) ?? expectedOf(whenSaid(state, index, { key, place }), key, place);
  if (entry && then.value !== undefined) said.set(entry, then);
  const j = judgePrediction(typed, then);
  if (j.verdict === 'not-judged') return undefined;
  const moved = JSON.stringify(then.value) !== JSON.stringify(now.value) && then.value !== undefined;
  const told = moved ? `The guide said ${showValue(state.model, key, then.value, then.plusMinus)} then.` : '';
  return { verdict: j.verdict, why: [j.slip?.says ?? j.says ?? '', told].filter(Boolean).join(' ') };
}
