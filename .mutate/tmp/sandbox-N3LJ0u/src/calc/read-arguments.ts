/** Reads `key=value` words of the command line into the inputs of a calculator. */
// @ts-nocheck

import { parseQuantity } from '../units/parse.js';
import { wanted } from './define.js';
import { nearest } from './near-miss.js';
import { CalcRefusal, type Calculator, type InputSpec, type InputValue, type Measured } from './types.js';

/** Words to pairs. `bore=14.5 mm` may come as two words: a word without `=` belongs to the value before it. */
export function pairsOf(calculator: Calculator, words: readonly string[]): Map<string, string> {
  const pairs = new Map<string, string>();
  let last: string | undefined;
  for (const word of words) {
    const at = word.indexOf('=');
    if (at < 0) {
      if (last === undefined) throw new CalcRefusal(word, `"${word}" is no key=value: type ${example(calculator)}.`);
      pairs.set(last, `${pairs.get(last)} ${word}`);
      continue;
    }
    const key = word.slice(0, at).trim();
    if (!Object.hasOwn(calculator.inputs, key)) {
      const known = Object.keys(calculator.inputs);
      const near = nearest(key, known);
      throw new CalcRefusal(
        key,
        `${calculator.name} has no input "${key}": ${near ? `did you mean ${near}?` : `its inputs are ${known.join(', ')}.`}`,
      );
    }
    if (pairs.has(key)) throw new CalcRefusal(key, `${key} is given twice: type it once.`);
    pairs.set(key, word.slice(at + 1));
    last = key;
  }
  return pairs;
}

const example = (calculator: Calculator): string =>
  Object.keys(calculator.inputs)
    .slice(0, 2)
    .map((key) => `${key}=…`)
    .join(' ');

/** A typed value as the input wants it; one sentence when it can't be read. */
export function readInput(key: string, spec: InputSpec, typed: string): { value: InputValue; unit?: string } {
  const text = typed.trim();
  if (text === '') throw new CalcRefusal(key, `${spec.label} is empty: type ${wanted(spec)}.`);
  switch (spec.type) {
    case 'quantity':
      return readOne(key, spec, text);
    case 'quantities': {
      const read = split(key, spec, text).map((part) => readOne(key, spec, part));
      return { value: read.map((item) => item.value), ...(read[0]?.unit ? { unit: read[0].unit } : {}) };
    }
    case 'choices':
    case 'texts':
      return { value: text.split(/\s*[,;]\s*/).filter((part) => part !== '') };
    case 'flag': {
      const yes = /^(y|yes|true|1)$/i.test(text);
      if (!yes && !/^(n|no|false|0)$/i.test(text))
        throw new CalcRefusal(key, `${spec.label}: type yes or no, not "${text.slice(0, 20)}".`);
      return { value: yes };
    }
    default:
      return { value: text };
  }
}

type Quantity = Extract<InputSpec, { type: 'quantity' | 'quantities' }>;

function readOne(key: string, spec: Quantity, text: string): { value: Measured; unit: string } {
  const read = parseQuantity(text, spec.kind, spec.unit);
  if (!read.ok) throw new CalcRefusal(key, `${spec.label}: ${read.message}`);
  const half = read.plusMinus;
  return {
    value: half === undefined ? { value: read.value } : { value: read.value, plusMinus: half },
    unit: read.unit,
  };
}

/** Parts of a list. Commas part, unless a semicolon does; `1,5` and `1,5ml` could be either and are refused. */
function split(key: string, spec: Quantity, text: string): string[] {
  if (text.includes(';')) return text.split(';').map((part) => part.trim());
  // Other lists stand beside a second one of the same length, which tells the two readings apart.
  const two = spec.kind === 'volume' && /^(\d+),(\d+)(?!\s*[,.\d])/.exec(text);
  if (two && !text.slice(two[0].length).includes(',') && !/[a-zµμ]/i.test(text))
    throw new CalcRefusal(
      key,
      `${spec.label}: "${text.slice(0, 40)}" can be ${two[1]}.${two[2]}, or ${two[1]} and ${two[2]}: type ${two[1]}.${two[2]}, or ${two[1]};${two[2]} for two.`,
    );
  const parts = text.split(',').map((part) => part.trim());
  const named = parts.filter((part) => /[^\d.\s+±-]/.test(part)).length;
  if (parts.length > 1 && named > 0 && named < parts.length)
    throw new CalcRefusal(
      key,
      `${spec.label}: "${text.slice(0, 40)}" can be a decimal comma or a list: type a unit behind each, such as 1ml,1.5ml, or part the list with semicolons.`,
    );
  return parts;
}
