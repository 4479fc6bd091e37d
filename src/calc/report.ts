/** An outcome as data: what `--json` prints. */
import { isList } from '../guards/guards.js';
import { canonicalUnit } from '../units/kinds.js';
import { cite } from './cite.js';
import {
  type CalcOutcome,
  type Calculator,
  type InputSpec,
  type Inputs,
  type InputValue,
  isMeasured,
  type ResultValue,
} from './types.js';

function jsonInput(spec: InputSpec | undefined, value: InputValue) {
  const unit = spec && 'kind' in spec ? canonicalUnit[spec.kind] : '';
  if (isMeasured(value)) return { value: value.value, unit, ...half(value.plusMinus) };
  const list = isList(value) ? value.filter((item) => typeof item === 'object') : [];
  if (list.length > 0) {
    const halves = list.map((item) => item.plusMinus ?? null);
    return {
      value: list.map((item) => item.value),
      unit,
      ...(halves.some((h) => h !== null) ? { plusMinus: halves } : {}),
    };
  }
  return { value, unit };
}

const half = (plusMinus: ResultValue['plusMinus']) => (plusMinus === undefined ? {} : { plusMinus });

/** All of an outcome in canonical units. */
export function jsonOf(calculator: Calculator, inputs: Inputs, outcome: CalcOutcome) {
  const given = Object.entries(inputs).filter((pair): pair is [string, InputValue] => pair[1] !== undefined);
  return {
    name: calculator.name,
    inputs: Object.fromEntries(given.map(([key, value]) => [key, jsonInput(calculator.inputs[key], value)])),
    results: Object.fromEntries(
      Object.entries(outcome.results).map(([key, found]) => [
        key,
        {
          value: found.value,
          unit: calculator.results[key]?.unit ?? '',
          ...half(found.plusMinus),
          ...(found.dominant === undefined ? {} : { dominant: found.dominant }),
        },
      ]),
    ),
    formula: calculator.formula,
    worked: outcome.worked,
    source: cite(calculator.source),
    sources: (outcome.sources ?? []).map(cite),
    warnings: outcome.warnings,
  };
}
