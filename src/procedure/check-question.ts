/** Checks one question: limits, units, tables, and that the value taken in its absence fits. */
import type { QuantityKind } from '../units/kinds.js';
import { parseQuantity } from '../units/parse.js';
import { showQuantity } from '../units/show.js';
import { duplicates } from './check-names.js';
import type { CelType } from './expression.js';
import type { Judge } from './judge.js';
import { type Complain, type Path, quoted } from './problem.js';
import { kindOf, type Question, quantityOf } from './questions/index.js';
import type { Step } from './schema.js';

/** True when a number may be typed with this unit; money and counts have none. */
export const fits = (unit: string, kind: QuantityKind): boolean => unit === '' || parseQuantity(`1 ${unit}`, kind).ok;

export function checkQuestion(q: Question, s: Step, path: Path, judge: Judge, complain: Complain): void {
  judge.expression(q.when, s.at, 'bool', [...path, 'when']);
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
        complain('unit-unknown', at, `“${quoted(unit)}” is no unit of ${kind}.`, `Use one such as ${example(kind)}.`);
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
  const shown = showQuantity(1, kind).replace(/^[^a-zA-Z%°µ]+/, '');
  return shown || 'none at all: unit: ""';
};

function checkRanges(q: Question, path: Path, complain: Complain): void {
  if (!('limits' in q)) return;
  const [low, high] = q.limits;
  const plausible = 'plausible' in q ? q.plausible : undefined;
  if (low >= high)
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
