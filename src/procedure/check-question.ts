/** Checks one question: limits, units, tables, and that the value taken in its absence fits. */
import { canonicalUnit, type QuantityKind } from '../units/kinds.js';
import { parseQuantity } from '../units/parse.js';
import { findUnit, units } from '../units/unit-names.js';
import { duplicates } from './check-names.js';
import type { CelType } from './expression.js';
import type { Judge } from './judge.js';
import { type Complain, type Path, quoted } from './problem.js';
import { kindOf, ownUnitOf, type Question, quantityOf, rangeOf } from './questions/index.js';
import type { Step } from './schema.js';

/** True when a number may be typed with this unit; money and counts have none. */
export const fits = (unit: string, kind: QuantityKind): boolean => unit === '' || parseQuantity(`1 ${unit}`, kind).ok;

export function checkQuestion(q: Question, s: Step, path: Path, judge: Judge, complain: Complain): void {
  judge.expression(q.when, s.at, 'bool', [...path, 'when']);
  judge.text(q.label, s.at, [...path, 'label']);
  judge.text(q.help, s.at, [...path, 'help']);
  checkSuggestion(q, s, path, judge, complain);
  checkRanges(q, path, complain);
  checkOtherwise(q, path, complain);
  kindOf(q).check?.(q, {
    path,
    complain,
    expression: (text, type, at, kind) => judge.expression(text, s.at, type, at, kind),
    table: judge.table,
    unit(unit, kind, at) {
      if (!fits(unit, kind))
        complain('unit-unknown', at, `“${quoted(unit)}” is no unit of ${kind}.`, `Use ${example(kind)}.`);
    },
  });
  if ('options' in q && q.options)
    duplicates(
      q.options.map((o, n) => ({ name: o.value, path: [...path, 'options', n, 'value'] })),
      'choice',
      complain,
    );
}

function checkSuggestion(q: Question, s: Step, path: Path, judge: Judge, complain: Complain): void {
  if (q.filled && q.suggest === undefined)
    complain(
      'suggestion-missing',
      [...path, 'filled'],
      `“${q.key}” is to be filled in but suggests nothing.`,
      'Add “suggest:”.',
      -1,
    );
  if (q.suggest === undefined) return;
  const at = [...path, 'suggest'];
  const { type, unsuggested } = kindOf(q);
  if (unsuggested || type.startsWith('list'))
    complain('suggestion-not-possible', at, `Nothing can be suggested for a ${q.kind}.`, 'Take “suggest” out.', -1);
  else judge.expression(q.suggest, s.at, type, at, quantityOf(q));
}

const example = (kind: QuantityKind): string => {
  const known = units[kind].map((u) => u.show).filter(Boolean);
  return known.length < 2 ? (known[0] ?? 'none at all: unit: ""') : `one of: ${known.join(', ')}`;
};

function checkRanges(q: Question, path: Path, complain: Complain): void {
  const limits = rangeOf(q);
  if (!limits) return;
  const [low, high] = limits;
  const plausible = 'plausible' in q ? q.plausible : undefined;
  const wide = inOtherUnit(q, limits, 1) ?? (plausible && inOtherUnit(q, plausible, 0.05));
  if (wide) complain('limits-unit', [...path, wide.range === limits ? 'limits' : 'plausible'], wide.message, wide.cure);
  else if (!keptRight(q)) complain('limits-unit', [...path, 'unit'], ...keptWords(q, high));
  else if (low >= high)
    complain(
      'limits-order',
      [...path, 'limits'],
      `The limits of “${q.key}” are in the wrong order.`,
      'Write the lower one first.',
    );
  else if (plausible && (plausible[0] < low || plausible[1] > high || plausible[0] >= plausible[1]))
    complain(
      'plausible-outside',
      [...path, 'plausible'],
      `The plausible range of “${q.key}” does not lie inside its limits ${low} to ${high}.`,
      'Narrow it, lower figure first.',
    );
}

/** A range that ends below `share` of one unit was meant in that unit, and stands in the canonical one. */
function inOtherUnit(
  q: Question,
  range: readonly [number, number],
  share: number,
): { range: readonly [number, number]; message: string; cure: string } | undefined {
  const kind = quantityOf(q);
  const own = ownUnitOf(q);
  const unit = kind && own ? findUnit(own, kind) : undefined;
  if (!kind || !unit) return undefined;
  const [low, high] = range;
  const one = unit.to(1) - unit.to(0);
  if (one < 10 || high >= one * share) return undefined;
  const to = canonicalUnit[kind];
  return {
    range,
    message: `The range ${low} to ${high} of “${q.key}” is in ${to}, but the unit is ${unit.show}.`,
    cure: `Write ranges in ${to}: ${unit.to(low)} to ${unit.to(high)}, and “plus_minus” too.`,
  };
}

const keptIn = (q: Question): string | undefined => ('kept_in' in q ? q.kept_in : undefined);

/** True where nobody can take the unit of the answer for that of the limits: it is the same, or it is said. */
function keptRight(q: Question): boolean {
  const kind = quantityOf(q);
  const unit = kind && findUnit(ownUnitOf(q) ?? '', kind);
  if (!unit || canonicalUnit[kind] === '') return true;
  const kept = keptIn(q);
  return kept === undefined ? unit.to(1) === 1 && unit.to(0) === 0 : kept === canonicalUnit[kind];
}

function keptWords(q: Question, high: number): [message: string, cure: string] {
  const kind = quantityOf(q)!;
  const unit = findUnit(ownUnitOf(q)!, kind)!;
  const to = canonicalUnit[kind];
  const same = Number(((high - unit.to(0)) / (unit.to(1) - unit.to(0))).toPrecision(3));
  return [
    `“${q.key}” is asked in ${unit.show}, but its limits and all that is compared with it are in ${to}: ${high} ${to} is ${same} ${unit.show}.`,
    `Write them in ${to}, then “kept_in: ${to}” beside “unit” to say so.`,
  ];
}

function checkOtherwise(q: Question, path: Path, complain: Complain): void {
  if (q.otherwise === undefined) return;
  const at = [...path, 'otherwise'];
  const types: Partial<Record<CelType, 'number' | 'boolean' | 'string'>> = {
    double: 'number',
    bool: 'boolean',
    string: 'string',
  };
  const wanted = types[kindOf(q).type];
  const words = { number: 'a bare number in the canonical unit', boolean: 'true or false', string: 'a word' };
  if (wanted === undefined)
    complain('otherwise-of-list', at, `“${q.key}” holds a list and can’t have an “otherwise”.`, 'Take it out.', -1);
  else if (typeof q.otherwise !== wanted)
    complain('otherwise-type', at, `The “otherwise” of “${q.key}” should be ${words[wanted]}.`, 'Mend the value.');
}
