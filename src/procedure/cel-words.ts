/** What is wrong with a CEL expression, in the words of somebody who writes procedures. */
import { isRecord } from '../guards/guards.js';
import { canonicalUnit } from '../units/kinds.js';
import { near } from './near.js';
import { quoted } from './problem.js';

export interface Words {
  readonly message: string;
  readonly cure: string;
  readonly offset?: number;
}

/** What may be called, with the arguments that it wants. */
const signatures: Readonly<Record<string, string>> = {
  min: 'min(number, number)',
  max: 'max(number, number)',
  abs: 'abs(number)',
  round: 'round(number, number of digits)',
  at: 'at(list of numbers, place in it counted from 0.0)',
  last: 'last(list of numbers)',
  highest: 'highest(list of numbers)',
  sum: 'sum(list of numbers)',
  first: 'first(list of numbers, how many of them)',
  distinct: 'distinct(list of words)',
  join: "join(list of words, ', ')",
  number_in: "number_in('table', row, 'column')",
  text_in: "text_in('table', row, 'column')",
  size: 'size(list)',
  double: 'double(whole number)',
  contains: "word.contains('part')",
  startsWith: "word.startsWith('part')",
  endsWith: "word.endsWith('part')",
  all: "list.all(x, x == 'value')",
  exists: "list.exists(x, x == 'value')",
  exists_one: "list.exists_one(x, x == 'value')",
  filter: 'list.filter(x, x > 1.0)',
  map: 'list.map(x, x * 2.0)',
};
const functions = Object.keys(signatures);
export const isMacro = (name: string): boolean => ['all', 'exists', 'exists_one', 'filter', 'map'].includes(name);

/** What was meant by signs that other languages have. */
const signs: Readonly<Record<string, string>> = { '=<': '<=', '=>': '>=', '=!': '!=', '<>': '!=' };
const canonical = [...new Set(Object.values(canonicalUnit))].filter(Boolean);

/** Names that the expression language keeps for itself. */
export const reservedWords: readonly string[] = [
  ...['true', 'false', 'null', 'in', 'as', 'break', 'const', 'continue', 'else', 'for', 'function', 'if', 'import'],
  ...['let', 'loop', 'package', 'namespace', 'return', 'var', 'void', 'while', 'int', 'uint', 'double', 'bool'],
  ...['string', 'bytes', 'list', 'map', 'type', 'cel', 'google', 'optional', 'constructor', 'prototype'],
];

/** A call to something that is not there; also keeps slow ones out, such as matches(). */
export function strangeCall(name: string): Words | undefined {
  if (functions.includes(name)) return undefined;
  const meant = near(name, functions);
  return { message: `There is no function “${quoted(name)}”.`, cure: meant || `Known are: ${functions.join(', ')}.` };
}

export function unreadableExpression(text: string, error: unknown): Words {
  const summary = summaryOf(error);
  const offset = offsetOf(error);
  const at = offset ?? 0;
  const words = (message: string, cure: string): Words => ({ message, cure, offset });
  if (/^Exceeded max/.test(summary)) return words('The condition is too long or too deep.', 'Break it up into facts.');
  if (summary === 'Unexpected token: EOF')
    return words('The condition breaks off at its end.', 'Write what is to come.');
  if (/^Unterminated/.test(summary))
    return words('A quote in the condition is not closed.', 'Put words between single quotes.');
  if (/^Expected (RPAREN|RBRACKET|RBRACE)/.test(summary))
    return words('A bracket in the condition is not closed.', 'Close each ( and [.');
  const rest = text.slice(at);
  const before = text.slice(0, at);
  if (/^[≥≤≠]/.test(rest)) return words(`“${rest[0]}” is no sign of the language.`, 'Write >=, <= or !=.');
  if (/^[“”„‘’«»]/.test(rest))
    return words(
      `“${rest[0]}” is no quote of the language.`,
      'Put the whole condition between " and ", a word in it between \' and \'.',
    );
  const sign = /^(=<|=>|=!)/.exec(rest)?.[0] ?? (/<$/.test(before) && rest.startsWith('>') ? '<>' : undefined);
  if (sign) return words(`“${sign}” is no sign of the language.`, `Write ${signs[sign]}.`);
  if (/^=[^=]/.test(rest) || rest === '=') return words('A single “=” does not compare.', 'Write ==.');
  if (/^&/.test(rest)) return words('A single “&” joins nothing.', 'Write && for and.');
  if (/^\|/.test(rest)) return words('A single “|” joins nothing.', 'Write || for or.');
  if (/\b(and|or|not)\b\s*$/i.test(before) || /^(and|or|not)\b/i.test(rest) || /\b(and|or|not) [\w(]/i.test(text))
    return words('The words and, or, not are no signs of the language.', 'Write && for and, || for or, ! for not.');
  if (/\d,?$/.test(before) && /^,?\d/.test(rest))
    return words('A number is written with a comma.', 'Write it with a point: 1.5.');
  if (/\d\s*$/.test(before) && /^[a-z%°]/i.test(rest))
    return words(
      'A number is followed by a unit.',
      `Write the bare number in the canonical unit: ${canonical.join(', ')}.`,
    );
  return words(
    'The condition can’t be read here.',
    "Conditions are CEL, such as kappa > 1.0 && seated == 'all-round'.",
  );
}

const typeWords: Record<string, string> = {
  bool: 'yes or no',
  double: 'a number',
  int: 'a whole number',
  string: 'a word',
  null: 'nothing',
  'list<double>': 'a list of numbers',
  'list<string>': 'a list of words',
  'list<bool>': 'a list of yes and no',
};
export const typeWord = (t: string): string => typeWords[t] ?? (t.startsWith('list') ? 'a list' : 'another value');

const wholeNumber = 'Write numbers with a point: 2.0, not 2.';

/** A type error of a sound expression. */
export function misfit(error: unknown): Words {
  const summary = summaryOf(error);
  const offset = offsetOf(error);
  const words = (message: string, cure: string): Words => ({ message, cure, offset });
  let m = /^no such overload: (\S+) (\S+) (\S+)$/.exec(summary);
  if (m) {
    const [, a = '', sign = '', b = ''] = m;
    const mixed = [a, b].includes('int') && [a, b].includes('double');
    const compares = /[=<>]|^in$/.test(sign);
    return words(
      mixed
        ? `“${sign}” stands between a number and a whole number.`
        : `“${sign}” can’t ${compares ? 'compare' : 'join'} ${typeWord(a)} ${compares ? 'with' : 'and'} ${typeWord(b)}.`,
      mixed ? wholeNumber : 'Compare like with like: words in single quotes, yes-no values on their own or after !.',
    );
  }
  m = /^no such overload: ([!-])(\S+)$/.exec(summary);
  if (m) return words(`“${m[1]}” can’t stand before ${typeWord(m[2] ?? '')}.`, "Compare it first: x == 'value'.");
  m = /^Logical operator requires bool operands, got '(.*)'$/.exec(summary);
  if (m)
    return words(
      `&& and || join yes-no values, but here is ${typeWord(m[1] ?? '')}.`,
      "Compare it first: x == 'value'.",
    );
  m = /^Ternary branches must have the same type, got '(.*)' and '(.*)'$/.exec(summary);
  if (m)
    return words(
      `Before and after “:” stand different things: ${typeWord(m[1] ?? '')} and ${typeWord(m[2] ?? '')}.`,
      m.slice(1).includes('int') ? wholeNumber : 'Give both the same kind of value.',
    );
  if (/^Ternary/.test(summary))
    return words('Before “?” has to stand a yes-no value.', "Compare something: x == 'value' ? … : ….");
  m = /^found no matching overload for '(?:.*\.)?(\w+)\((.*)\)'$/.exec(summary);
  if (m)
    return words(
      `“${quoted(m[1])}” was given what it can’t use.`,
      (m[2] ?? '').includes('int')
        ? `It is used as ${signatures[m[1] ?? ''] ?? m[1]}; write numbers with a point.`
        : `It is used as ${signatures[m[1] ?? ''] ?? m[1]}.`,
    );
  if (/^List elements/.test(summary))
    return words('The list holds different things.', 'Keep to one kind: all words or all numbers.');
  if (/^List index/.test(summary)) return words('A place in a list is counted in whole numbers.', 'Use at(list, 0.0).');
  return words(
    'The parts of the condition do not fit together.',
    'Compare like with like; words in single quotes, numbers with a point.',
  );
}

const summaryOf = (e: unknown): string =>
  !(e instanceof Error)
    ? String(e)
    : 'summary' in e && typeof e.summary === 'string'
      ? e.summary
      : (e.message.split('\n')[0] ?? '');

function offsetOf(e: unknown): number | undefined {
  if (!(e instanceof Error)) return undefined;
  const found = ['range', 'node'].flatMap((name) => {
    const part = isRecord(e) ? e[name] : undefined;
    return isRecord(part) && typeof part.start === 'number' ? [part.start] : [];
  });
  return found[0];
}
