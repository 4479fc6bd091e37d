/** What a calculator was given, input by input: which reading, or which figure of the procedure itself. */
import type { InputSpec } from '../../calc/types.js';
import { isList } from '../../guards/guards.js';
import type { CalcUse } from '../../procedure/schema.js';
import { showQuantity, withoutDust } from '../../units/show.js';
import type { Values } from './values.js';

export interface GivenInput {
  /** The calculator's own name for it. */
  readonly label: string;
  /** As the calculator got it; undefined when it is not known. */
  readonly shown: string | undefined;
  readonly missing: readonly string[];
  readonly refusal: string | undefined;
  /** Keys that it was made of; none for a figure that stands in the procedure. */
  readonly names: readonly string[];
  /** True when it is the value of one key as it stands. */
  readonly same: boolean;
  /** The expression of the procedure. */
  readonly rule: string;
}

/** Optional inputs that nothing was known for are left out. */
export function givenInputs(values: Values, use: CalcUse, place: string): GivenInput[] {
  const calculator = values.model.calculators[use.calc];
  return Object.entries(use.with).flatMap(([input, rule]) => {
    const spec = calculator?.inputs[input];
    const v = values.evaluate(rule, place);
    if (!v.known && spec?.optional) return [];
    const names = values.model.expression(rule).names.filter((n) => values.model.keys.has(n));
    const list = !v.known ? [] : isList(v.value) ? [...v.value] : [v.value];
    return [
      {
        label: spec?.label ?? input,
        shown: v.known ? list.map((x) => inWords(x, spec)).join(', ') : undefined,
        missing: v.known ? [] : v.missing,
        refusal: v.known ? undefined : v.refusal,
        names,
        same: names.length === 1 && rule.trim() === names[0],
        rule,
      },
    ];
  });
}

function inWords(v: string | number | boolean, spec: InputSpec | undefined): string {
  if (typeof v === 'boolean') return v ? 'yes' : 'no';
  if (typeof v === 'string') return v;
  return spec && 'kind' in spec ? showQuantity(v, spec.kind) : String(Number(withoutDust(v).toPrecision(5)));
}
