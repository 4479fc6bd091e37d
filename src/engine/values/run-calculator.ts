/** One run of a calculator with what is known at a place. */
import { type CalcOutcome, CalcRefusal, type Calculator, type InputValue, type Measured } from '../../calc/types.js';
import { isList, isRecord } from '../../guards/guards.js';
import type { Model } from '../../procedure/model.js';
import type { CalcUse } from '../../procedure/schema.js';
import type { Known, Unknown, ValueSource } from './known.js';

export interface CalcRun {
  readonly outcome?: CalcOutcome;
  readonly inputs: Record<string, readonly string[]>;
  readonly asOf: number;
  readonly missing: readonly string[];
  readonly refusal?: string;
}

export function runCalculator(values: ValueSource, use: CalcUse, place: string): CalcRun {
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
  return { ...sameAsLast(model, use, place, inputs, () => outcomeOf(calculator, model, inputs)), inputs: read, asOf };
}

type Ended = Pick<CalcRun, 'outcome' | 'refusal' | 'missing'>;

function outcomeOf(calculator: Calculator, model: Model, inputs: Given): Ended {
  try {
    return { outcome: calculator.run(inputs, model.tables), missing: [] };
  } catch (e) {
    if (e instanceof CalcRefusal) return { missing: [], refusal: e.message };
    // A job must open whatever its readings do to a formula: unknown, said so, and every gate on it holds.
    const why = e instanceof Error ? e.message : String(e);
    return { missing: [], refusal: `${calculator.title} can’t be worked out: ${why}` };
  }
}

type Given = Readonly<Record<string, InputValue | undefined>>;
const last = new WeakMap<Model, Map<CalcUse, Map<string, { readonly given: Given; readonly ended: Ended }>>>();

/** Calculators are pure: where the readings that came in since left the inputs as they were, so is what comes out. */
function sameAsLast(model: Model, use: CalcUse, place: string, given: Given, run: () => Ended): Ended {
  const uses = last.get(model) ?? new Map<CalcUse, Map<string, { given: Given; ended: Ended }>>();
  last.set(model, uses);
  const places = uses.get(use) ?? new Map<string, { given: Given; ended: Ended }>();
  uses.set(use, places);
  const seen = places.get(place);
  if (seen && same(seen.given, given)) return seen.ended;
  const ended = run();
  places.set(place, { given, ended });
  return ended;
}

/** The same in every part; inputs are numbers, words, and lists and pairs of them. */
function same(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (isList(a)) {
    if (!isList(b) || a.length !== b.length) return false;
    for (let i = 0; i < a.length; i++) if (!same(a[i], b[i])) return false;
    return true;
  }
  if (!isRecord(a) || !isRecord(b)) return false;
  for (const k in a) if (!same(a[k], b[k])) return false;
  for (const k in b) if (!(k in a)) return false;
  return true;
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
