/** What an apprentice expected held against what the guide works out: right, close or wrong, and which slip it was. Pure. */
import type { Answer } from '../engine/journal/entry.js';
import { isList } from '../guards/guards.js';
import type { CelType } from '../procedure/expression.js';
import type { QuantityKind } from '../units/kinds.js';
import { parseQuantity } from '../units/parse.js';
import { readFigures } from './read-figures.js';
import { factorSlip, meets, type Slip, type SlipId } from './slips.js';

type Verdict =
  | 'right'
  | 'close'
  /** Further off than the figure itself is known, in the direction that harms nobody. */
  | 'on the safe side'
  | 'wrong'
  /** It can't be read as such a figure. */
  | 'unreadable'
  /** Nothing was expected, or there is nothing to hold it against. */
  | 'not-judged';

/** Another figure that is easily mistaken for this one. */
export interface Neighbour {
  readonly slip: Extract<SlipId, 'other-bearing' | 'one-bearing-for-two' | 'two-bearings-for-one' | 'step-short'>;
  readonly label: string;
  readonly value: number;
}

export interface Expected {
  readonly type: CelType;
  readonly quantity: QuantityKind | undefined;
  /** Undefined while the guide itself does not know it. */
  readonly value: Answer | undefined;
  /** Half width, canonical unit; of a list one for each item. */
  readonly plusMinus: number | readonly number[] | undefined;
  readonly neighbours: readonly Neighbour[];
  /** What may then be set by it, from and to: to the least that it may be. */
  readonly maySet?: readonly [number, number];
}

export interface PredictionJudgement {
  readonly verdict: Verdict;
  /** What was read from the words; canonical. */
  readonly predicted: Answer | undefined;
  readonly slip?: Slip;
  /** Why it can't be read, and what to type. */
  readonly says?: string;
}

/** Shares of the value: within the first it is right, within the second it is close. */
const RIGHT = 0.05;
/** Within the uncertainty it is right only up to this: a vague figure is not hit by luck. */
const KNOWN = 0.1;
const CLOSE = 0.2;
/** K: temperatures have no shares. */
const RIGHT_TEMPERATURE = 2;
const CLOSE_TEMPERATURE = 6;

const NONE = 'none given';

export function judgePrediction(typed: string, expected: Expected): PredictionJudgement {
  const { value } = expected;
  const text = typed.trim();
  if (value === undefined || text === '' || text.toLowerCase() === NONE)
    return { verdict: 'not-judged', predicted: undefined };
  if (typeof value === 'number') {
    const read = readFigure(text, expected.quantity ?? 'count');
    if (!read.ok)
      return {
        verdict: 'unreadable',
        predicted: undefined,
        says: read.message,
      };
    return judgeFigure(read.value, value, oneWidth(expected.plusMinus), expected);
  }
  if (typeof value === 'boolean') return judgeYesNo(text, value);
  if (typeof value === 'string') return { verdict: judgeWords(text, value), predicted: text };
  const figures = [...value].filter((v) => typeof v === 'number');
  if (figures.length === value.length) return judgeFigures(text, figures, expected);
  return { verdict: judgeWords(text, value.join(', ')), predicted: text };
}

/** A count of hours may be typed as a time. A time that is no count of hours is asked again. */
function readFigure(text: string, kind: QuantityKind): ReturnType<typeof parseQuantity> {
  const plain = parseQuantity(text, kind);
  if (plain.ok || kind !== 'count') return plain;
  const hours = parseQuantity(text, 'duration', 'h');
  return hours.ok && /\d\s*(h|hrs?|hours?|d|days?|weeks?)\b/i.test(text)
    ? { ...hours, value: hours.value / 60 }
    : plain;
}

const oneWidth = (plusMinus: Expected['plusMinus']): number | undefined =>
  typeof plusMinus === 'number' ? plusMinus : undefined;

/**
 * Right within a twentieth, or within the uncertainty while that is no more than a tenth;
 * close within the uncertainty or a fifth: the guide's own figure may be as far off.
 */
export function nearness(
  predicted: number,
  value: number,
  plusMinus: number | undefined,
  kind: QuantityKind | undefined,
): 'right' | 'close' | 'wrong' {
  const off = Math.abs(predicted - value);
  const half = plusMinus ?? 0;
  const dust = 1e-9 * Math.max(1, Math.abs(value));
  const size = Math.abs(value);
  const [right, known, close] =
    kind === 'temperature'
      ? [RIGHT_TEMPERATURE, CLOSE_TEMPERATURE, CLOSE_TEMPERATURE]
      : [RIGHT * size, KNOWN * size, CLOSE * size];
  if (off <= Math.max(Math.min(half, known), right) + dust) return 'right';
  return off <= Math.max(half, close) + dust ? 'close' : 'wrong';
}

function judgeFigure(
  predicted: number,
  value: number,
  plusMinus: number | undefined,
  { quantity, neighbours, maySet }: Pick<Expected, 'quantity' | 'neighbours' | 'maySet'>,
): PredictionJudgement {
  const verdict = nearness(predicted, value, plusMinus, quantity);
  if (verdict === 'right') return { verdict, predicted };
  // What may be set ends where the figure, as little as it is known, begins.
  if (verdict === 'wrong' && maySet && predicted >= maySet[0] && predicted < value)
    return predicted >= maySet[1]
      ? { verdict: 'close', predicted }
      : { verdict: 'on the safe side', predicted, says: `From ${maySet[0]} to ${maySet[1]} may be set.` };
  const mistaken = neighbours.find((n) => meets(predicted, n.value, undefined));
  const slip: Slip | undefined = mistaken
    ? { slip: mistaken.slip, says: neighbourSays(mistaken) }
    : verdict === 'wrong'
      ? factorSlip(predicted, value, quantity, plusMinus)
      : undefined;
  return slip ? { verdict, predicted, slip } : { verdict, predicted };
}

function neighbourSays({ slip, label }: Neighbour): string {
  switch (slip) {
    case 'other-bearing':
      return `That is the figure of the other bearing (${label}).`;
    case 'one-bearing-for-two':
      return `That is one bearing alone (${label}); this figure is for both.`;
    case 'two-bearings-for-one':
      return 'That is both bearings together; this figure is for one.';
    default:
      return `That is “${label}”: the working stops one step short.`;
  }
}

const order: readonly PredictionJudgement['verdict'][] = ['right', 'close', 'on the safe side', 'wrong'];

function judgeFigures(text: string, value: readonly number[], expected: Expected): PredictionJudgement {
  const read = readFigures(text, value.length, expected.quantity ?? 'count');
  if (!read.ok) return { verdict: 'unreadable', predicted: undefined, says: read.message };
  const widths = isList(expected.plusMinus) ? expected.plusMinus : [];
  if (read.values.length !== value.length) {
    const only = read.values[0] ?? Number.NaN;
    const sum = value.reduce((n, v) => n + v, 0);
    const verdict = 'wrong' as const;
    if (read.values.length === 1 && value.some((v) => meets(only, v, undefined)))
      return {
        verdict,
        predicted: only,
        slip: {
          slip: 'one-bearing-for-two',
          says: `That is one of ${value.length}: each bearing has a figure of its own.`,
        },
      };
    if (read.values.length === 1 && meets(only, sum, undefined))
      return {
        verdict,
        predicted: only,
        slip: {
          slip: 'two-bearings-for-one',
          says: 'That is the sum; each bearing has a figure of its own.',
        },
      };
    return {
      verdict,
      predicted: read.values,
      says: `${value.length} figures are wanted, one for each, such as ${value.map((_, i) => 10 + i).join(' and ')}.`,
    };
  }
  const each = value.map((v, i) => judgeFigure(read.values[i] ?? 0, v, widths[i], expected));
  const worst = Math.max(...each.map((j) => order.indexOf(j.verdict)));
  const verdict = order[worst] ?? 'wrong';
  const turned =
    verdict === 'wrong' &&
    value.length === 2 &&
    [...read.values].reverse().every((p, i) => nearness(p, value[i] ?? 0, widths[i], expected.quantity) !== 'wrong');
  const slip = turned
    ? ({
        slip: 'other-bearing',
        says: 'Right figures, but each stands at the other bearing.',
      } satisfies Slip)
    : each.find((j) => j.verdict === 'wrong' && j.slip)?.slip;
  return slip ? { verdict, predicted: read.values, slip } : { verdict, predicted: read.values };
}

function judgeYesNo(text: string, value: boolean): PredictionJudgement {
  const word = text.toLowerCase();
  const predicted = /^(y|yes|true)\b/.test(word) ? true : /^(n|no|not|false)\b/.test(word) ? false : undefined;
  if (predicted === undefined)
    return {
      verdict: 'unreadable',
      predicted: undefined,
      says: `“${text.slice(0, 40)}” is neither yes nor no; type yes or no.`,
    };
  return { verdict: predicted === value ? 'right' : 'wrong', predicted };
}

const bare = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();
const negated = (text: string): boolean => /\b(not?|never|don t|doesn t|isn t|un\w+)\b/.test(text);

/** Words are right when they hold the guide's own, close when they are part of it; a “not” too many is wrong. */
function judgeWords(text: string, value: string): 'right' | 'close' | 'wrong' {
  const [said, is] = [bare(text), bare(value)];
  if (said === is) return 'right';
  // What is doubtful counts as no until it is tested: whoever says so beforehand is on the safe side.
  if (is === 'marginal' && said === 'no') return 'close';
  if (said === '' || is === '' || negated(said) !== negated(is)) return 'wrong';
  if (` ${said} `.includes(` ${is} `)) return 'right';
  return said.length >= 4 && ` ${is} `.includes(` ${said} `) ? 'close' : 'wrong';
}
