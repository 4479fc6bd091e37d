/** An outcome, and the list of calculators, as plain text for a terminal or a log. */
import { isList } from '../guards/guards.js';
import type { QuantityKind } from '../units/kinds.js';
import { showQuantity } from '../units/show.js';
import { cite } from './cite.js';
import type {
  CalcOutcome,
  Calculator,
  InputSpec,
  Inputs,
  InputValue,
  Measured,
  ResultSpec,
  ResultValue,
} from './types.js';

/** A result in words, with its unit and half width. Kinds without a unit of their own take the unit of the result. */
function showResult(spec: ResultSpec | undefined, found: ResultValue): string {
  const one = (value: number | string | boolean, half?: number): string => {
    if (typeof value !== 'number') return value === true ? 'yes' : value === false ? 'no' : value;
    if (!spec?.kind) return String(value);
    const text = showQuantity(value, spec.kind, { plusMinus: half });
    return spec.kind === 'ratio' && spec.unit !== '' ? `${text} ${spec.unit}` : text;
  };
  const { value, plusMinus } = found;
  if (!isList(value)) return one(value, isList(plusMinus) ? undefined : plusMinus);
  const halves = isList(plusMinus) ? plusMinus : [];
  return value.map((item, i) => one(item, halves[i])).join(', ');
}

/** An input is shown as it was given, not rounded by its half width. */
function asGiven(item: Measured, kind: QuantityKind): string {
  const value = showQuantity(item.value, kind, { figures: 6 });
  if (item.plusMinus === undefined) return value;
  return `${value} ± ${Number(item.plusMinus.toPrecision(3))}`;
}

function showInput(spec: InputSpec | undefined, value: InputValue): string {
  const kind: QuantityKind | undefined = spec && 'kind' in spec ? spec.kind : undefined;
  const one = (item: Measured | string | boolean): string => {
    if (typeof item === 'object') return kind ? asGiven(item, kind) : String(item.value);
    return item === true ? 'yes' : item === false ? 'no' : item;
  };
  return isList(value) ? value.map(one).join(', ') : one(value);
}

const table = (rows: readonly (readonly [string, string])[]): string[] => {
  const widest = Math.max(0, ...rows.map(([left]) => left.length));
  return rows.map(([left, right]) => `  ${left.padEnd(widest)}  ${right}`.trimEnd());
};

export function printOutcome(calculator: Calculator, inputs: Inputs, outcome: CalcOutcome): string {
  const results = Object.entries(outcome.results).flatMap(([key, found]): (readonly [string, string])[] => {
    const spec = calculator.results[key];
    const name = `${spec?.label ?? key} [${key}]`;
    if (isList(found.value) && typeof found.value[0] === 'string')
      return found.value.map((text, i) => [i === 0 ? name : '', String(text)]);
    const from = found.dominant === undefined ? '' : ` (mostly from ${found.dominant})`;
    return [[name, `${showResult(spec, found)}${from}`]];
  });
  const given = Object.entries(inputs).filter((pair): pair is [string, InputValue] => pair[1] !== undefined);
  return [
    calculator.title,
    ...table(results),
    ...(outcome.warnings.length > 0 ? ['', 'Mind', ...outcome.warnings.map((warning) => `  ! ${warning}`)] : []),
    '',
    'Formula',
    `  ${calculator.formula}`,
    'Worked',
    ...outcome.worked.map((line) => `  ${line}`),
    'Inputs',
    ...table(given.map(([key, value]) => [key, showInput(calculator.inputs[key], value)] as const)),
    'Source',
    ...[...new Set([calculator.source, ...(outcome.sources ?? [])].map(cite))].map((text) => `  ${text}`),
    '',
  ].join('\n');
}

/** What each key takes: unit of a bare number, choices, limits. */
function takes(spec: InputSpec): string {
  switch (spec.type) {
    case 'quantity':
    case 'quantities': {
      const unit = spec.unit === '' ? 'number' : spec.unit;
      const limits = spec.limits
        ? `, ${spec.limits.map((v) => showQuantity(v, spec.kind, spec.kind === 'duration' ? { unit: 'min' } : {})).join(' to ')}`
        : '';
      return `${unit}${spec.type === 'quantities' ? ', list with commas' : ''}${limits}`;
    }
    case 'choice':
      return spec.choices.join(' | ');
    case 'choices':
      return `list of ${spec.choices.join(' | ')}`;
    case 'flag':
      return 'yes | no';
    default:
      return 'words';
  }
}

export function listOne(calculator: Calculator): string {
  const inputs = Object.entries(calculator.inputs).map(
    ([key, spec]) => [spec.optional ? `[${key}]` : key, `${spec.label}: ${takes(spec)}`] as const,
  );
  const results = Object.entries(calculator.results).map(
    ([key, spec]) => [`-> ${key}`, spec.unit === '' ? spec.label : `${spec.label}, ${spec.unit}`] as const,
  );
  return [`${calculator.name}: ${calculator.title}`, ...table([...inputs, ...results]), ''].join('\n');
}

export function listAll(calculators: Readonly<Record<string, Calculator>>): string {
  return [
    'calc NAME key=value… [--json]. A bare number is in the unit shown; [key] may be left out; a half width as 14.5+-0.1mm.',
    '',
    ...Object.values(calculators).map(listOne),
  ].join('\n');
}
