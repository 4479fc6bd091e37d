/** Checks the calculations of a procedure against the calculators' declared inputs and results. */
import type { Calculator, InputSpec } from '../calc/types.js';
import type { NameCheck } from './check-names.js';
import type { CelType } from './expression.js';
import type { Judge } from './judge.js';
import type { KeyInfo } from './model.js';
import { near } from './near.js';
import { type Complain, listed, type Path, quoted } from './problem.js';
import type { Procedure } from './schema.js';

const typeOf: Record<InputSpec['type'], CelType> = {
  quantity: 'double',
  quantities: 'list<double>',
  choice: 'string',
  choices: 'list<string>',
  text: 'string',
  texts: 'list<string>',
  flag: 'bool',
};

export function checkCalcs(
  p: Procedure,
  calculators: Readonly<Record<string, Calculator>>,
  keys: ReadonlyMap<string, KeyInfo>,
  kinds: readonly string[],
  judge: Judge,
  one: NameCheck,
  complain: Complain,
): void {
  const steps = p.steps.map((s) => s.id);
  (p.calcs ?? []).forEach((use, i) => {
    const path: Path = ['calcs', i];
    const calc = Object.hasOwn(calculators, use.calc) ? calculators[use.calc] : undefined;
    if (!calc) {
      const names = Object.keys(calculators);
      return complain(
        'calculator-unknown',
        [...path, 'calc'],
        `There is no calculator “${quoted(use.calc)}”.`,
        near(use.calc, names) || `Known are: ${listed(names)}.`,
      );
    }
    if (!one([...path, 'at'], use.at, kinds, 'kind of place')) return;
    judge.expression(use.when, use.at, 'bool', [...path, 'when']);
    one([...path, 'warn_at'], use.warn_at, steps, 'step');
    const inputs = Object.keys(calc.inputs);
    for (const [key, text] of Object.entries(use.with)) {
      const spec = Object.hasOwn(calc.inputs, key) ? calc.inputs[key] : undefined;
      if (!spec) {
        complain(
          'input-unknown',
          [...path, 'with', key],
          `The calculator “${use.calc}” has no input “${quoted(key)}”.`,
          near(key, inputs) || `Its inputs are: ${inputs.join(', ')}.`,
          -1,
        );
        continue;
      }
      const kind = keys.get(text.trim())?.quantity;
      const clash = kind && 'kind' in spec && spec.kind !== kind;
      if (clash)
        complain(
          'quantity-other',
          [...path, 'with', key],
          `“${text.trim()}” is a ${kind}, but “${key}” of ${use.calc} is a ${spec.kind}.`,
          'Give a value of that kind.',
        );
      const wanted = !clash && spec.type === 'quantity' ? spec.kind : undefined;
      judge.expression(text, use.at, typeOf[spec.type], [...path, 'with', key], wanted);
    }
    const lacking = inputs.filter((k) => !calc.inputs[k]?.optional && use.with[k] === undefined);
    if (lacking.length)
      complain(
        'input-missing',
        [...path, 'with'],
        `The calculator “${use.calc}” also needs ${lacking.join(', ')}.`,
        'Add what is missing.',
      );
    const results = Object.keys(calc.results);
    for (const key of Object.keys(use.gives))
      if (!results.includes(key))
        complain(
          'result-unknown',
          [...path, 'gives', key],
          `The calculator “${use.calc}” has no result “${quoted(key)}”.`,
          near(key, results) || `Its results are: ${results.join(', ')}.`,
          -1,
        );
    for (const [result, key] of Object.entries(use.names ?? {})) {
      if (!Object.hasOwn(use.gives, result) || !calc.results[result]?.list)
        complain(
          'result-no-list',
          [...path, 'names', result],
          `“${quoted(result)}” is no list that this calculation gives.`,
          'Name only results of “gives” that are lists.',
          -1,
        );
      judge.expression(key, use.at, 'list<string>', [...path, 'names', result]);
    }
  });
}
