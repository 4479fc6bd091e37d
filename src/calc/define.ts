/** Wraps a calculator so that no formula ever sees a missing, unknown, misspelt or out-of-range input. */
import { isList, isOneOf } from '../guards/guards.js';
import { showQuantity } from '../units/show.js';
import { expected } from '../units/wording.js';
import { nearest } from './near-miss.js';
import {
  type CalcOutcome,
  CalcRefusal,
  type Calculator,
  type InputSpec,
  type Inputs,
  type InputValue,
  isMeasured,
  type Measured,
  type RowSource,
  type Source,
  type Tables,
} from './types.js';

/** Checked access to the inputs of one run. */
export interface CheckedInputs {
  /** A required quantity in its canonical unit. */
  readonly number: (key: string) => Measured;
  readonly maybe: (key: string) => Measured | undefined;
  readonly list: (key: string) => readonly Measured[];
  /** A required word. */
  readonly word: (key: string) => string;
  readonly maybeWord: (key: string) => string | undefined;
  /** A required word that is one of these. */
  readonly choice: <const T extends string>(key: string, words: readonly T[]) => T;
  readonly words: (key: string) => readonly string[];
  readonly flag: (key: string) => boolean;
  readonly has: (key: string) => boolean;
}

/** What a run gives: its sources are rows of tables and constants of the calculator, so that all of them can be listed. */
export type RunOutcome<C extends string = never> = Omit<CalcOutcome, 'sources'> & {
  readonly sources?: readonly RowSource[];
  /** Those that this run used. */
  readonly constants?: readonly C[];
};
type Definition<C extends string> = Omit<Calculator, 'run' | 'constants'> & {
  readonly constants?: Readonly<Record<C, Source>>;
  /** Other usual spellings of a choice, in lower case with hyphens. */
  readonly aliases?: Readonly<Record<string, string>>;
  readonly run: (given: CheckedInputs, tables: Tables) => RunOutcome<NoInfer<C>>;
};

export function defineCalculator<C extends string = never>(definition: Definition<C>): Calculator {
  const { aliases = {}, run, ...rest } = definition;
  return {
    ...rest,
    run: (inputs, tables) => {
      const checked = checkInputs(definition, inputs, aliases, tables);
      const made = run(reader(checked), tables);
      // Handed on as it is: what it works out only when it is asked for stays so.
      if (made.constants === undefined) return made;
      const { constants, ...outcome } = made;
      const own = constants.flatMap((name) => definition.constants?.[name] ?? []);
      return own.length === 0 ? outcome : { ...outcome, sources: [...(outcome.sources ?? []), ...own] };
    },
  };
}

function reader(checked: Readonly<Record<string, InputValue>>): CheckedInputs {
  const maybe = (key: string): Measured | undefined => {
    const value = checked[key];
    return isMeasured(value) ? value : undefined;
  };
  const maybeWord = (key: string): string | undefined => {
    const value = checked[key];
    return typeof value === 'string' ? value : undefined;
  };
  const all = (key: string): readonly unknown[] => {
    const value = checked[key];
    return isList(value) ? value : [];
  };
  /** Checked before: it lacks only where a calculator asks for what it never declared. */
  const required = <T>(value: T | undefined, key: string): T => {
    if (value === undefined) throw new Error(`“${key}” is no required input of this type`);
    return value;
  };
  return {
    number: (key) => required(maybe(key), key),
    maybe,
    list: (key) => all(key).filter(isMeasured),
    word: (key) => required(maybeWord(key), key),
    choice: (key, words) => {
      const value = maybeWord(key);
      return required(isOneOf(words, value) ? value : undefined, key);
    },
    maybeWord,
    words: (key) => all(key).filter((item) => typeof item === 'string'),
    flag: (key) => checked[key] === true,
    has: (key) => checked[key] !== undefined,
  };
}

/** All inputs checked against their specs; throws CalcRefusal with one sentence. */
function checkInputs(
  calculator: Pick<Calculator, 'name' | 'inputs'>,
  inputs: Inputs,
  aliases: Readonly<Record<string, string>>,
  tables: Tables,
): Record<string, InputValue> {
  const known = Object.keys(calculator.inputs);
  for (const key of Object.keys(inputs)) {
    if (!Object.hasOwn(calculator.inputs, key)) {
      const near = nearest(key, known);
      throw new CalcRefusal(
        key,
        `${calculator.name} has no input "${key}": ${near ? `did you mean ${near}?` : `its inputs are ${known.join(', ')}.`}`,
      );
    }
  }
  const checked: Record<string, InputValue> = {};
  for (const [key, spec] of Object.entries(calculator.inputs)) {
    const value = inputs[key];
    const empty = Array.isArray(value) && value.length === 0;
    if (value === undefined || (empty && spec.optional)) {
      if (!spec.optional) throw new CalcRefusal(key, `${spec.label} is missing: type ${wanted(spec)}.`);
      continue;
    }
    checked[key] = checkOne(key, withRows(spec, tables), value, aliases);
  }
  return checked;
}

function withRows(spec: InputSpec, tables: Tables): InputSpec {
  if (!('choices' in spec) || spec.table === undefined) return spec;
  const rows = (tables[spec.table]?.rows ?? []).map((row) => row.id);
  return { ...spec, choices: [...new Set([...spec.choices, ...rows])] };
}

/** What may be typed for an input, in words. */
export function wanted(spec: InputSpec): string {
  switch (spec.type) {
    case 'quantity':
      return expected[spec.kind];
    case 'quantities':
      return `one or more, each ${expected[spec.kind]}, with commas between`;
    case 'choice':
      return `one of ${spec.choices.join(', ')}`;
    case 'choices':
      return `one or more of ${spec.choices.join(', ')}, with commas between`;
    case 'flag':
      return 'yes or no';
    case 'texts':
      return 'words with commas between';
    default:
      return 'a word';
  }
}

function checkOne(
  key: string,
  spec: InputSpec,
  value: InputValue,
  aliases: Readonly<Record<string, string>>,
): InputValue {
  const wrong = (): CalcRefusal => new CalcRefusal(key, `${spec.label}: type ${wanted(spec)}.`);
  switch (spec.type) {
    case 'quantity':
      if (!isMeasured(value)) throw wrong();
      return checkNumber(key, spec, value);
    case 'quantities': {
      const list = isMeasured(value) ? [value] : value;
      if (!Array.isArray(list) || list.length === 0) throw wrong();
      return list.map((item) => {
        if (!isMeasured(item)) throw wrong();
        return checkNumber(key, spec, item);
      });
    }
    case 'choice':
      if (typeof value !== 'string') throw wrong();
      return checkWord(key, spec, spec.choices, value, aliases);
    case 'choices': {
      const list = typeof value === 'string' ? [value] : value;
      if (!Array.isArray(list) || list.length === 0) throw wrong();
      return list.map((item) => {
        if (typeof item !== 'string') throw wrong();
        return checkWord(key, spec, spec.choices, item, aliases);
      });
    }
    case 'flag':
      if (typeof value !== 'boolean') throw wrong();
      return value;
    case 'texts':
      if (!Array.isArray(value) || value.some((item) => typeof item !== 'string')) throw wrong();
      return value;
    default:
      if (typeof value !== 'string') throw wrong();
      return value;
  }
}

function checkNumber(key: string, spec: InputSpec & { kind: Parameters<typeof showQuantity>[1] }, item: Measured) {
  // Logs are long, and nearly all of them is right.
  const { value, plusMinus = 0 } = item;
  const inside = !spec.limits || (value >= spec.limits[0] && value <= spec.limits[1]);
  if (inside && Number.isFinite(value) && plusMinus >= 0 && Number.isFinite(plusMinus)) return item;
  if (!Number.isFinite(item.value)) throw new CalcRefusal(key, `${spec.label} is no number: type ${wanted(spec)}.`);
  if (item.plusMinus !== undefined && !(item.plusMinus >= 0 && Number.isFinite(item.plusMinus)))
    throw new CalcRefusal(key, `${spec.label}: the width behind +- must be a number of 0 or more.`);
  const [low, high] = spec.limits ?? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  if (item.value < low || item.value > high) {
    const show = (v: number): string => showQuantity(v, spec.kind, spec.kind === 'duration' ? { unit: 'min' } : {});
    throw new CalcRefusal(key, `${spec.label} must be from ${show(low)} to ${show(high)}, not ${show(item.value)}.`);
  }
  return item;
}

function checkWord(
  key: string,
  spec: InputSpec,
  choices: readonly string[],
  typed: string,
  aliases: Readonly<Record<string, string>>,
): string {
  const plain = typed
    .trim()
    .toLowerCase()
    .replace(/[\s_]+/g, '-');
  const word = choices.includes(plain) ? plain : aliases[plain];
  if (word !== undefined && choices.includes(word)) return word;
  const near = nearest(plain, choices);
  throw new CalcRefusal(
    key,
    `${spec.label}: "${typed.slice(0, 30)}" is not known: ${near ? `did you mean ${near}? Type` : 'type'} one of ${choices.join(', ')}.`,
  );
}
