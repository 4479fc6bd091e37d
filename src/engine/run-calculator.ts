/** One run of a calculator with what is known at a place. */
import { type CalcOutcome, CalcRefusal, type Inputs, type InputValue, type Measured } from '../calc/types.js';
import type { CalcUse } from '../procedure/schema.js';
import type { Known, Unknown } from './known.js';
import type { Values } from './values.js';

export interface CalcRun {
  readonly outcome?: CalcOutcome;
  readonly inputs: Record<string, readonly string[]>;
  readonly asOf: number;
  readonly missing: readonly string[];
  readonly refusal?: string;
}

export function runCalculator(values: Values, use: CalcUse, place: string): CalcRun {
  const { model } = values;
  const calculator = model.calculators[use.calc];
  const read: Record<string, readonly string[]> = {};
  if (!calculator) return { inputs: read, asOf: 0, missing: [], refusal: `there is no calculator ${use.calc}` };
  if (use.when && values.holds(use.when, place) !== true) return { inputs: read, asOf: 0, missing: [] };
  const inputs: Record<string, InputValue | undefined> = {};
  let asOf = 0;
  const missing: string[] = [];
  let refused: Unknown | undefined;
  for (const [key, text] of Object.entries(use.with)) {
    const v = values.evaluate(text, place);
    read[key] = v.names;
    if (v.known) {
      inputs[key] = inputValue(v, calculator.inputs[key]?.type);
      asOf = Math.max(asOf, v.asOf);
    } else if (!calculator.inputs[key]?.optional) {
      missing.push(...v.missing);
      if (v.refusal) refused ??= v;
    }
  }
  const lacks = Object.entries(calculator.inputs).some(([k, spec]) => !spec.optional && inputs[k] === undefined);
  if (lacks) return { inputs: read, asOf, missing: [...new Set(missing)], refusal: refused?.refusal };
  try {
    return { outcome: calculator.run(inputs as Inputs, model.tables), inputs: read, asOf, missing: [] };
  } catch (e) {
    if (e instanceof CalcRefusal) return { inputs: read, asOf, missing: [], refusal: e.message };
    // A job must open whatever its readings do to a formula: unknown, said so, and every gate on it holds.
    const why = e instanceof Error ? e.message : String(e);
    return { inputs: read, asOf, missing: [], refusal: `${calculator.title} can’t be worked out: ${why}` };
  }
}

function inputValue(v: Known, type: string | undefined): InputValue {
  const spread = v.plusMinus;
  if (type === 'quantity' && typeof v.value === 'number')
    return { value: v.value, plusMinus: typeof spread === 'number' ? spread : undefined } satisfies Measured;
  if (type === 'quantities' && Array.isArray(v.value))
    return (v.value as readonly number[]).map((value, i) => ({
      value,
      plusMinus: Array.isArray(spread) ? (spread[i] as number) : undefined,
    }));
  return v.value as InputValue;
}
