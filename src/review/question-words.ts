/** Questions, gates and the other parts of a step in plain words. */
import { type KeyInfo, underscored } from '../procedure/model.js';
import { kindOf, optionsOf, ownUnitOf, type Question, quantityOf, rangeOf } from '../procedure/questions/index.js';
import { raisesOf } from '../procedure/raises.js';
import type { Gate, Step } from '../procedure/schema.js';
import { canonicalUnit } from '../units/kinds.js';
import { showQuantity } from '../units/show.js';
import { figureWords, inWords } from './condition-words.js';

type Keys = ReadonlyMap<string, KeyInfo>;

function figure(q: Question, n: number): string {
  const kind = quantityOf(q);
  if (!kind) return String(n);
  return canonicalUnit[kind] === '' ? String(n) : figureWords(n, kind, ownUnitOf(q));
}
export const rangeWords = (q: Question, range: readonly [number, number]): string =>
  `${figure(q, range[0])} to ${figure(q, range[1])}`;

export function otherwiseWords(q: Question): string | undefined {
  if (q.otherwise === undefined) return undefined;
  if (typeof q.otherwise === 'number') return figure(q, q.otherwise);
  if (typeof q.otherwise === 'boolean') return q.otherwise ? 'yes' : 'no';
  const named = 'options' in q ? q.options?.find((o) => o.value === q.otherwise)?.label : undefined;
  // A value that nobody can pick has no label: its name is for conditions alone.
  if ('options' in q && named === undefined) return 'none of these';
  return `“${named ?? q.otherwise}”`;
}

const goesOn = (q: Question, a: string | boolean): string =>
  typeof a === 'boolean' ? (a ? 'yes' : 'no') : (optionsOf(q, {}).find((o) => o.value === a)?.label ?? a);

/** What may be answered. */
export const answerWords = (q: Question, keys: Keys): string => kindOf(q).words(q, (cel) => inWords(cel, keys));

/** Everything about a question but its label, in one line. */
export function questionDetails(q: Question, keys: Keys): string[] {
  const out = [answerWords(q, keys)];
  const limits = rangeOf(q);
  if (limits) out.push(`${rangeWords(q, limits)} allowed`);
  if ('plausible' in q && q.plausible) out.push(`${rangeWords(q, q.plausible)} usual`);
  if ('plus_minus' in q && q.plus_minus !== undefined)
    out.push(q.plus_minus === 0 ? 'exact' : `good to ± ${figure(q, q.plus_minus)}`);
  const { most, wanted } = kindOf(q).bounds?.(q) ?? {};
  if (most) out.push(`no more than ${inWords(most, keys)}`);
  if (wanted) out.push(`${inWords(wanted, keys)} is asked for`);
  if (q.optional) out.push('may be left empty');
  if ('goes_on' in q && q.goes_on) out.push(`goes on after ${q.goes_on.map((a) => goesOn(q, a)).join(' / ')}`);
  if (q.when) out.push(`asked only if ${inWords(q.when, keys)}`);
  const otherwise = otherwiseWords(q);
  if (otherwise) out.push(`counts as ${otherwise} while it is not answered`);
  return out;
}

export const overruleWords = (g: Gate): string =>
  g.overrule === 'never'
    ? 'It can’t be overruled.'
    : `It can be overruled with a reason and ${g.overrule === 'second-person' ? 'the initials of a second person' : 'initials'}.`;

/** What a gate offers there; empty when it names nothing. */
export function waysWords(g: Gate, keys: Keys): string {
  const ways = [
    ...raisesOf(g).map((b) => `report “${keys.get(`event_${underscored(b)}`)?.label ?? b}”`),
    ...(g.correct ? [`correct ${labels(g.correct, keys)}`] : []),
  ];
  return ways.length ? `Offered there: ${ways.join('; ')}.` : '';
}

export function gateWords(g: Gate, keys: Keys): string {
  const when = g.when ? ` (if ${inWords(g.when, keys)})` : '';
  const until = inWords(g.must, keys);
  return g.at === 'enter' ? `Does not begin until${when}: ${until}` : `Does not count as done until${when}: ${until}`;
}

export const labels = (list: readonly string[], keys: Keys): string =>
  list.map((k) => keys.get(k)?.label ?? k).join(', ');

/** {key} as the name of the figure in square brackets. */
export const withLabels = (text: string, keys: Keys): string =>
  text.replace(/\{([a-z][a-z0-9_]*)(?:\.(old|change))?\}/g, (whole, key: string, part?: string) => {
    const label = keys.get(key)?.label;
    if (label === undefined) return whole;
    return part === 'old' ? `[${label} as it was]` : part === 'change' ? `[change of ${label}]` : `[${label}]`;
  });

export const waitWords = (step: Step, keys: Keys): string | undefined => {
  if (!step.wait) return undefined;
  const bare = Number(step.wait.minutes);
  return `${Number.isFinite(bare) ? showQuantity(bare, 'duration') : inWords(step.wait.minutes, keys)}, ${step.wait.label}`;
};

/** Of whom a step is asked again. */
export const anewWords = ({ anew }: Step): string | undefined =>
  anew &&
  `of each person who takes over${anew.each === 'sitting' ? ', and in each sitting' : ''}; not of who proved the same just then.`;
