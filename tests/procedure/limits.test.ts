/** The small parts of the check at their limits: sizes, near words, what reads as what, and answers at the edge of a question. */
import { describe, expect, it } from 'vitest';
import type { Tables } from '../../src/calc/types.js';
import type { Answer } from '../../src/procedure/answer.js';
import { misfit, typeWord, unreadableExpression } from '../../src/procedure/cel-words.js';
import { checkSize } from '../../src/procedure/check-size.js';
import { type CelType, compile, environmentFor, evaluationOf } from '../../src/procedure/expression.js';
import { quantityKindOf } from '../../src/procedure/judge-kinds.js';
import type { KeyInfo } from '../../src/procedure/model.js';
import { near } from '../../src/procedure/near.js';
import { listed, type Problem, said, showProblem } from '../../src/procedure/problem.js';
import { pickedWords, type Question, readAnswer, unfit } from '../../src/procedure/questions/index.js';
import { printedSize, printedWords } from '../../src/procedure/questions/printed-size.js';
import type { Procedure } from '../../src/procedure/schema.js';
import { instructionsIn, sentencesOf, wordCount } from '../../src/procedure/sentences.js';
import { tellingSlips, unevenLine, unreadable, yamlTrouble } from '../../src/procedure/yaml-trouble.js';

const many = <T>(n: number, what: T): T[] => Array.from({ length: n }, () => what);

describe('a word that was nearly right', () => {
  it.each<[word: string, name: string, found: boolean]>([
    // In a short one two letters, where the first is right; else one.
    ['boor', 'bore', true],
    ['borxyz', 'bore', false],
    ['bxyz', 'bore', false],
    ['xore', 'bore', true],
    ['xxre', 'bore', false],
    ['abcde', 'abcxy', true],
    ['abcde', 'abxyz', false],
    // In a longer one a third of it.
    ['abcdef', 'abcdxy', true],
    ['abcdef', 'abcxyz', false],
    ['abcdefgh', 'xycdefgh', true],
    ['abcdefgh', 'xyzdefgh', false],
    ['abcdefghi', 'xyzdefghi', true],
    // Not all of it.
    ['xa', 'ba', true],
    ['a', 'b', false],
    ['NOT_AFTER', 'not-after', true],
    ['x'.repeat(60), 'x'.repeat(60), true],
    ['x'.repeat(61), 'x'.repeat(60), false],
    ['x'.repeat(60), 'x'.repeat(61), false],
  ])('%s for %s: %s', (word, name, found) => {
    expect(near(word, [name])).toBe(found ? `Did you mean “${name}”?` : '');
  });
  it('is the nearest, or the same in other letters; of no names none', () => {
    expect(near('seam', ['team-up', 'seal', 'steam'])).toBe('Did you mean “seal”?');
    expect(near('A_B', ['a-c', 'a-b'])).toBe('Did you mean “a-b”?');
    expect(near('seal', [])).toBe('');
  });
});

describe('a problem', () => {
  const problem: Problem = { file: 'p', line: 2, column: 3, code: 'words', message: 'So.', cure: 'Do.' };
  it('is said in one line, once, with all that use it', () => {
    expect(showProblem(problem)).toBe('p:2:3: So. Do.');
    expect(showProblem({ ...problem, cure: '', usedBy: [] })).toBe('p:2:3: So.');
    const [a, b] = ['a:1', 'b:2'].map((user) => ({ ...problem, usedBy: [user] }));
    expect(said([a!, b!, a!, problem]).map(showProblem)).toEqual(['p:2:3: So. Do. (used by a:1 and b:2)']);
    expect(said([problem, problem])).toEqual([problem]);
    const others = [{ file: 'q' }, { line: 1 }, { column: 1 }, { message: 'No.' }].map((more) => ({
      ...problem,
      ...more,
    }));
    expect(said([problem, ...others])).toEqual([problem, ...others]);
  });
  it('names twenty of a list', () => {
    const words = many(21, 'x');
    expect([listed([]), listed(['a']), listed(words.slice(1))]).toEqual(['none', 'a', words.slice(1).join(', ')]);
    expect(listed(words)).toBe(`${words.slice(1).join(', ')} and 1 more`);
  });
});

describe('a procedure that is too large', () => {
  const place = (id: string, instances: number, within?: string) => ({ id, within, instances: many(instances, {}) });
  const size = (more: object): string[] => {
    const told: string[] = [];
    const p = { steps: [], places: [], ...more } as unknown as Procedure;
    const fine = checkSize(p, (_code, path, message) => told.push(`${path.join('.')}: ${message}`));
    expect(fine).toBe(told.length === 0);
    return told;
  };
  const asks = (n: number) => ({ ask: many(n, { kind: 'text' }) });
  const choices = (n: number) => ({ steps: [{ ask: [{ kind: 'choice', options: many(n, {}) }] }] });
  it.each<[fits: object, not: object, words: string]>([
    [{ steps: many(400, {}) }, { steps: many(401, {}) }, 'steps: There are 401 steps, more than 400.'],
    [{ facts: many(600, {}) }, { facts: many(601, {}) }, 'facts: There are 601 facts, more than 600.'],
    [{ calcs: many(300, {}) }, { calcs: many(301, {}) }, 'calcs: There are 301 calcs, more than 300.'],
    [{ branches: many(100, {}) }, { branches: many(101, {}) }, 'branches: There are 101 branches, more than 100.'],
    [{ phases: many(60, {}) }, { phases: many(61, {}) }, 'phases: There are 61 phases, more than 60.'],
    [
      { steps: [{}, asks(40)] },
      { steps: [{}, asks(41)] },
      'steps.1.ask: There are 41 questions in one step, more than 40.',
    ],
    [
      { steps: many(50, asks(30)) },
      { steps: [...many(50, asks(30)), asks(1)] },
      'steps: There are 1501 questions in all, more than 1500.',
    ],
    [
      { steps: [{ gates: many(20, {}) }] },
      { steps: [{ gates: many(21, {}) }] },
      'steps.0.gates: There are 21 gates in one step, more than 20.',
    ],
    [choices(60), choices(61), 'steps.0.ask.0.options: There are 61 choices, more than 60.'],
    // 2 + 2 x 29 = 60; 3 + 3 x 20 = 63.
    [
      { places: [place('a', 2), place('b', 29, 'a')] },
      { places: [place('a', 3), place('b', 20, 'a')] },
      'places: There are 63 places in all, more than 60.',
    ],
    [{ places: [place('a', 60)] }, { places: [place('a', 61)] }, 'places: There are 61 places in all, more than 60.'],
  ])('%#: at the most, and one more', (fits, not, words) => {
    expect(size(fits)).toEqual([]);
    expect(size(not)).toEqual([words]);
  });
});

describe('a file that is not even read', () => {
  it.each<[text: string, at: number | undefined, message?: string]>([
    ['x'.repeat(1_000_000), undefined],
    ['x'.repeat(1_000_001), 0, 'The file is too large.'],
    ['ab\0', 2, 'The file is not text.'],
    ['a\uFFFD', 1, 'The file is not text.'],
    ['['.repeat(60), undefined],
    ['['.repeat(61), 60, 'The file is nested too deeply.'],
    ['{'.repeat(61), 60, 'The file is nested too deeply.'],
    ['[]'.repeat(99), undefined],
    ['{}'.repeat(99), undefined],
    [`]]${'['.repeat(60)}`, undefined],
    [`]]${'['.repeat(61)}`, 62, 'The file is nested too deeply.'],
    [`a:\n${'- '.repeat(39)}`, undefined],
    [`a:\n${'- '.repeat(40)}`, 3, 'The file is nested too deeply.'],
    [`a:\n${' '.repeat(199)}x`, undefined],
    [`a:\n${' '.repeat(200)}x`, 3, 'The file is nested too deeply.'],
  ])('%#: at %s', (text, at, message) => {
    const found = unreadable(text);
    expect([found?.at, found?.message]).toEqual([at, message]);
  });
  it('names a no-break space in the indent, and none elsewhere', () => {
    for (const blank of ['\u00a0', '\u202f', '\u2007']) {
      const found = unreadable(`a:\n  ${blank}b: 1`);
      expect([found?.at, found?.message]).toEqual([5, 'A no-break space stands in the indent.']);
      expect(unreadable(`a: 10${blank}mm`)).toBeUndefined();
    }
  });
  it.each([
    ['a:\n    b: 1\n   c: 2\n    d: 3\n', 3, 'This line is set in by 3, its neighbours by 4.'],
    ['a:\n    b: 1\n     c: 2\n    d: 3\n', 3, 'This line is set in by 5, its neighbours by 4.'],
    // What lies deeper by a level, and what stands between two levels, is no slip of the hand.
    ['a:\n    b:\n      c: 2\n    d: 3\n', undefined, undefined],
    ['a:\n    b: 1\n   c: 2\n  d: 3\n', undefined, undefined],
  ])('%#: of lines that are alike but one', (text, line, message) => {
    for (const near of [2, 3, 4]) {
      const found = unevenLine(text, near);
      expect([found?.line, found?.message]).toEqual([line, message]);
    }
    expect(unevenLine(text, 9)).toBeUndefined();
  });
  it('tells of one slip a line, of five at the most, and of tabs alone where there is one', () => {
    const slip = (line: number, code: 'BAD_INDENT' | 'TAB_AS_INDENT' = 'BAD_INDENT') => ({
      code,
      pos: [line * 10, 0] as const,
    });
    const told = (...errors: ReturnType<typeof slip>[]) =>
      tellingSlips(errors, (offset) => offset / 10).map((e) => e.pos[0] / 10);
    expect(told(slip(1), slip(1), slip(2))).toEqual([1, 2]);
    expect(told(...[1, 2, 3, 4, 5, 6].map((line) => slip(line)))).toEqual([1, 2, 3, 4, 5]);
    expect(told(slip(1), slip(2, 'TAB_AS_INDENT'), slip(3))).toEqual([2]);
    expect(yamlTrouble('TAB_AS_INDENT').cure).toBe('Use spaces, two a level.');
    expect(yamlTrouble('IMPOSSIBLE').message).toBe('This is not YAML.');
  });
});

const tables: Tables = {
  oils: {
    id: 'oils',
    units: { density: 'kg/m3', flash: '°F', mass: 'g' },
    rows: [{ id: 'thin', density: 850, name: 'Thin', none: null, tag: 'A', source: 'made up' }],
  },
} as unknown as Tables;
const types = new Map<string, CelType>([
  ...(['x', 'y'] as const).map((k): [string, CelType] => [k, 'double']),
  ...(['word', 'other'] as const).map((k): [string, CelType] => [k, 'string']),
  ...(['yes', 'no'] as const).map((k): [string, CelType] => [k, 'bool']),
  ['numbers', 'list<double>'],
  ['words', 'list<string>'],
  ['signs', 'list<bool>'],
]);
// Made anew by each test, so that what is changed in them is seen.
const env = () => environmentFor(types, tables);
const own = () => evaluationOf((name) => types.get(name), tables);

describe('an expression', () => {
  const known = { x: 2.5, yes: true, no: false, word: 'a', numbers: [1, 2, 3], words: ['a', 'b', 'a'] };
  it.each<[string, Answer | undefined]>([
    ['min(x, 2.0)', 2],
    ['min(2.0, x)', 2],
    ['max(x, 2.0)', 2.5],
    ['max(2.0, x)', 2.5],
    ['abs(-x)', 2.5],
    ['round(2.346, 2.0)', 2.35],
    ['round(2.344, 2.0)', 2.34],
    ['round(1250.0, -2.0)', 1300],
    ['at(numbers, 0.0)', 1],
    ['at(numbers, 2.0)', 3],
    ['at(numbers, 3.0)', undefined],
    ['last(numbers)', 3],
    ['last(first(numbers, 0.0))', undefined],
    ['sum(numbers)', 6],
    ['sum(first(numbers, 2.0))', 3],
    ['distinct(words)', ['a', 'b']],
    ["join(words, '-')", 'a-b-a'],
    ['size(words)', 3],
    ['double(size(words)) + x', 5.5],
    ['words[1]', 'b'],
    ['words[3]', undefined],
    ['words[size(words) - 2]', 'b'],
    ["number_in('oils', 'thin', 'density')", 850],
    ["text_in('oils', 'thin', 'name')", 'Thin'],
    ["text_in('oils', 'thin', 'none')", undefined],
    ["text_in('oils', 'thin', 'what')", undefined],
    ["text_in('oils', 'thick', 'name')", undefined],
    ["text_in('water', 'thin', 'name')", undefined],
    ['x / 0.0', undefined],
    // What is not known stops what hangs on it, and no more.
    ['y + 1.0', undefined],
    ['-y', undefined],
    ['y > 1.0', undefined],
    ['y > 1.0 || yes', true],
    ['yes || y > 1.0', true],
    ['y > 1.0 || no', undefined],
    ['y > 1.0 && no', false],
    ['no && y > 1.0', false],
    ['y > 1.0 && yes', undefined],
    ['yes ? x : y', 2.5],
    ['no ? y : x', 2.5],
    ['no ? x : y', undefined],
    ['y > 1.0 ? x : x', undefined],
    ['!(y > 1.0)', undefined],
    ["other == 'a'", undefined],
    ['y > 1.0 || y < 0.0', undefined],
  ])('%s is %j', (text, value) => {
    expect(compile(env, text).run(known)).toEqual(value);
    expect(compile(env, text, own()).run(known)).toEqual(value);
  });
  it('that is a name alone is what stands under it, where that is of its type', () => {
    const alone = (name: string, value: unknown) => compile(env, name, own()).run({ [name]: value as Answer });
    expect([alone('x', 2), alone('word', 'a'), alone('yes', false)]).toEqual([2, 'a', false]);
    expect([alone('numbers', [1]), alone('words', ['a']), alone('signs', [true])]).toEqual([[1], ['a'], [true]]);
    expect(compile(env, 'x').run({})).toBeUndefined();
    expect([compile(env, 'x + y').names, compile(env, 'x').names]).toEqual([['x', 'y'], ['x']]);
  });
});

describe('what is wrong with an expression', () => {
  const fault = (text: string): string => {
    try {
      env().parse(text);
    } catch (error) {
      return unreadableExpression(text, error).message;
    }
    const checked = env().check(text);
    return checked.valid ? 'sound' : misfit(checked.error).message;
  };
  it.each<[string, string]>([
    ['x > 1.0', 'sound'],
    ['x >', 'The condition breaks off at its end.'],
    ["word == 'a", 'A quote in the condition is not closed.'],
    ['(x > 1.0 yes', 'A bracket in the condition is not closed.'],
    ['x ≥ 1.0', '“≥” is no sign of the language.'],
    ['x ≠ 1.0', '“≠” is no sign of the language.'],
    ['“x > 1.0”', '““” is no quote of the language.'],
    ['x =< 1.0', '“=<” is no sign of the language.'],
    ['x => 1.0', '“=>” is no sign of the language.'],
    ['x =! 1.0', '“=!” is no sign of the language.'],
    ['x <> 1.0', '“<>” is no sign of the language.'],
    ['x = 1.0', 'A single “=” does not compare.'],
    ['yes & no', 'A single “&” joins nothing.'],
    ['yes | no', 'A single “|” joins nothing.'],
    ['yes and no', 'The words and, or, not are no signs of the language.'],
    ['yes OR no', 'The words and, or, not are no signs of the language.'],
    ['not yes', 'The words and, or, not are no signs of the language.'],
    ['x > 1,5', 'A number is written with a comma.'],
    ['x > 5 mm', 'A number is followed by a unit.'],
    ['x > 5 °C', 'A number is followed by a unit.'],
    ['x > 5°C', 'A number is followed by a unit.'],
    ['x 5', 'The condition can’t be read here.'],
    ['x > 5 %', 'The condition breaks off at its end.'],
    ['x > > 1.0', 'The condition can’t be read here.'],
    [`${'('.repeat(90)}yes${')'.repeat(90)}`, 'The condition is too long or too deep.'],
    ['x + 1', '“+” stands between a number and a whole number.'],
    ["x == 'a'", '“==” can’t compare a number with a word.'],
    ['x + word', '“+” can’t join a number and a word.'],
    ['yes > x', '“>” can’t compare yes or no with a number.'],
    ['!x', '“!” can’t stand before a number.'],
    ['-word', '“-” can’t stand before a word.'],
    ['x && yes', '&& and || join yes-no values, but here is a number.'],
    ['yes || word', '&& and || join yes-no values, but here is a word.'],
    ["yes ? x : 'a'", 'Before and after “:” stand different things: a number and a word.'],
    ['x ? 1.0 : 2.0', 'Before “?” has to stand a yes-no value.'],
    ['min(x, word)', '“min” was given what it can’t use.'],
    ["word in [1.0, 'a']", 'The list holds different things.'],
    ["numbers['a']", 'A place in a list is counted in whole numbers.'],
  ])('%s: %s', (text, message) => {
    expect(fault(text)).toBe(message);
  });
  it('is called by what it is', () => {
    expect(['int', 'list<bool>', 'list<map>', 'map'].map(typeWord)).toEqual([
      ...['a whole number', 'a list of yes and no', 'a list', 'another value'],
    ]);
    expect(misfit('odd').message).toBe('The parts of the condition do not fit together.');
  });
});

describe('the kind of quantity of an expression', () => {
  const of: Record<string, string> = {
    t: 'temperature',
    u: 'temperature',
    d: 'temperature-difference',
    l: 'length',
    m: 'mass',
  };
  const keys = new Map(Object.entries(of).map(([key, quantity]) => [key, { quantity } as unknown as KeyInfo]));
  const all = environmentFor(new Map([...Object.keys(of), 'bare'].map((k) => [k, 'double'] as const)), tables);
  const kind = (text: string): string => {
    const clashes: string[] = [];
    const found = quantityKindOf(all.parse(text).ast, keys, tables, (a, b) => clashes.push(`${a} and ${b}`));
    return clashes.length ? clashes.join('; ') : (found ?? 'none');
  };
  it.each<[string, string]>([
    ['l', 'length'],
    ['2.0', 'none'],
    ['bare', 'none'],
    // A temperature less another is a difference of them; the sum of two is nothing.
    ['t - u', 'temperature-difference'],
    ['t + u', 'none'],
    ['t + d', 'temperature'],
    ['t - d', 'temperature'],
    ['d + t', 'temperature'],
    ['d - t', 'temperature-difference and temperature'],
    ['d - d', 'temperature-difference'],
    ['l + l', 'length'],
    ['l + 1.0', 'length'],
    ['1.0 + l', 'length'],
    ['l + bare', 'none'],
    ['l + m', 'length and mass'],
    ['l - m', 'length and mass'],
    ['-l', 'length'],
    ...['<', '<=', '>', '>=', '==', '!='].map((sign): [string, string] => [`l ${sign} m`, 'length and mass']),
    ['l < l', 'none'],
    ['2.0 * l', 'length'],
    ['l * 2.0', 'length'],
    ['l * l', 'none'],
    ['l / 2.0', 'length'],
    ['2.0 / l', 'none'],
    ['l / m', 'none'],
    ['l < 1.0 ? l : m', 'length and mass'],
    ['l < m ? l : l', 'length and mass'],
    ['l < 1.0 ? l : 2.0', 'length'],
    ['min(l, m)', 'length and mass'],
    ['max(l, 1.0)', 'length'],
    ['abs(l)', 'length'],
    ['round(l, 1.0)', 'length'],
    ["number_in('oils', 'thin', 'mass')", 'mass'],
    ["number_in('oils', 'thin', 'flash')", 'none'],
    ["number_in('oils', 'thin', 'what')", 'none'],
    ['l > 1.0 && m > l', 'mass and length'],
  ])('%s: %s', (text, found) => {
    expect(kind(text)).toBe(found);
  });
});

describe('an answer at the edge of its question', () => {
  const read = (q: object, text: unknown, bounds = {}): string => {
    const asked = { key: 'k', label: 'K', ...q } as unknown as Question;
    const found = readAnswer(asked, text, tables, bounds);
    if (!found.ok) return found.message.replace('K: ', '');
    return found.unusual ? `? ${found.unusual.replace('K: ', '')}` : JSON.stringify(found.value);
  };
  const fits = (q: object, value: Answer): string | undefined =>
    unfit({ key: 'k', label: 'K', ...q } as unknown as Question, value, tables);
  const length = { kind: 'quantity', quantity: 'length', unit: 'mm', limits: [1, 100], plausible: [10, 50] };
  const refused = (v: string) => `${v} is outside what can be; type a value from 1 mm to 100 mm.`;
  const odd = (v: string) => `? ${v} is unusual; 10 mm to 50 mm is common. Read it once more.`;
  it.each<[string, string]>([
    ['0.9', refused('0.9 mm')],
    ['1', odd('1 mm')],
    ['9.9', odd('9.9 mm')],
    ['10', '10'],
    ['50', '50'],
    ['50.1', odd('50.1 mm')],
    ['100', odd('100 mm')],
    ['100.1', refused('100.1 mm')],
  ])('%s mm', (text, said_) => {
    expect(read(length, text)).toBe(said_);
  });
  it('no more than there is, and about what was asked for', () => {
    const most = (text: string) => read(length, text, { most: 20 });
    expect(most('20')).toBe('20');
    expect(most('20.1')).toMatch(/^20\.1 mm cannot be; there is 20 mm at most\./);
    const wanted = (text: string, of = 20) => read({ ...length, plausible: undefined }, text, { wanted: of });
    expect([wanted('10'), wanted('40'), wanted('50', 0)]).toEqual(['10', '40', '50']);
    for (const text of ['9.9', '40.1']) expect(wanted(text)).toMatch(/is far from the 20 mm that was asked for/);
    expect(fits(length, 1)).toBeUndefined();
    expect(fits(length, 100)).toBeUndefined();
    expect([fits(length, 0.9), fits(length, 100.1)]).toEqual(many(2, 'it is not from 1 mm to 100 mm'));
    expect([fits(length, '5'), fits(length, Number.NaN)]).toEqual(many(2, 'it is no number'));
  });
  it('numbers that can be read in two ways, where both can be', () => {
    const number = (text: string, limits: [number, number], more = {}) =>
      read({ kind: 'number', limits, ...more }, text);
    expect(number('1.200', [0, 1200])).toMatch(/can mean 1200 or 1\.2/);
    expect(number('1.200', [1.2, 1200])).toMatch(/can mean/);
    expect([number('1.200', [0, 1199]), number('1.20', [0, 1200])]).toEqual(['1.2', '1.2']);
    expect(number('1.200', [1.3, 1200])).toMatch(/1\.2 is outside what can be/);
    expect(number('1.200', [1201, 5000])).toMatch(/1\.2 is outside what can be/);
    expect(number('12 H', [0, 99], { units: ['hours', 'h'] })).toBe('12');
    expect(number('12 kg', [0, 99], { units: ['hours', 'h'] })).toBe(
      '“kg” does not belong behind it; type a number of hours.',
    );
    expect(number('12 kg', [0, 99])).toBe('“kg” does not belong behind it; type a bare number such as 12.');
    const whole = { kind: 'number', limits: [3, 9], whole: true };
    expect([fits(whole, 3), fits(whole, 3.5), fits(whole, 10)]).toEqual([
      ...[undefined, 'it is no whole number', 'it is not from 3 to 9'],
    ]);
  });
  it('texts, yes and no, counts', () => {
    const text = { kind: 'text', longest: 5 };
    expect([read(text, ' abc '), read(text, 'abcde')]).toEqual(['"abc"', '"abcde"']);
    expect(read(text, 'abcdef')).toBe('6 characters are too many; shorten it to 5.');
    expect(read(text, '  ')).toBe('nothing was typed; write a word or two.');
    expect([read({ ...text, optional: true }, ' '), read({ kind: 'yes-no' }, '')]).toEqual([
      ...['""', 'nothing was typed; give an answer first.'],
    ]);
    expect(read({ kind: 'text' }, 'x'.repeat(501))).toBe('501 characters are too many; shorten it to 500.');
    expect([fits(text, 'abcde'), fits(text, 'abcdef'), fits(text, ' '), fits(text, 1)]).toEqual([
      ...[undefined, 'it is too long', 'it is no text', 'it is no text'],
    ]);
    expect([fits({ ...text, optional: true }, ''), fits(text, ''), fits({ kind: 'text' }, 'x'.repeat(500))]).toEqual([
      ...[undefined, 'it is no text', undefined],
    ]);
    const yesNo = (...answers: unknown[]) => answers.map((a) => read({ kind: 'yes-no' }, a));
    expect(yesNo('Y', ' yes', 'true', true)).toEqual(many(4, 'true'));
    expect(yesNo('n', 'NO', 'false', false)).toEqual(many(4, 'false'));
    expect(yesNo('perhaps')).toEqual(['“perhaps” is neither yes nor no; type yes or no.']);
    expect(yesNo('x'.repeat(41))[0]).toContain(`“${'x'.repeat(40)}…” is`);
    expect(yesNo('x'.repeat(40))[0]).toContain(`“${'x'.repeat(40)}” is`);
    expect([fits({ kind: 'yes-no' }, false), fits({ kind: 'yes-no' }, 'no')]).toEqual([
      ...[undefined, 'it is neither yes nor no'],
    ]);
    const counter = { kind: 'counter', unit: 'turns', to: '8.0' };
    expect([read(counter, '8', { counted: 8 }), read(counter, '5')]).toEqual(['8', '5']);
    expect(read(counter, '7', { counted: 8 })).toBe('7 counted, but 8 turns are to be done; count again and type 8.');
    expect([0, 8, -1, 1.5, '8'].map((v) => fits(counter, v))).toEqual([
      ...[undefined, undefined, ...many(3, 'it is no count')],
    ]);
  });
  it('picks, one or several', () => {
    const options = ['red', 'blue', 'none'].map((value) => ({ value, label: value.toUpperCase() }));
    const choice = { kind: 'choice', options: [...options, { value: 'old', label: 'Old', offered: false }] };
    expect([read(choice, ' Red '), read(choice, 'BLUE')]).toEqual(['"red"', '"blue"']);
    expect(read({ kind: 'choice', options: [{ value: 'r', label: 'Deep red' }] }, 'deep RED ')).toBe('"r"');
    const picked = (q: object, typed: string) => pickedWords(q as Question, typed, tables);
    expect([picked(choice, 'red'), picked(choice, 'pink'), picked({ kind: 'text' }, 'a, b')]).toEqual([
      ...['RED', 'pink', 'a, b'],
    ]);
    expect(picked({ kind: 'series', options, least: 1, most: 9 }, ' red,blue;none pink')).toBe('RED, BLUE, NONE, pink');
    expect(read(choice, 'old')).toBe('“old” is none of the choices; type one of red, blue, none.');
    const letters = (n: number) => Array.from({ length: n }, (_, i) => ({ value: `v${i}`, label: `L${i}` }));
    expect(read({ kind: 'choice', options: letters(12) }, 'x')).toMatch(/v10, v11\.$/);
    expect(read({ kind: 'choice', options: letters(13) }, 'x')).toMatch(/v11, …\.$/);
    expect([fits(choice, 'red'), fits(choice, 'old')]).toEqual([undefined, 'it is none of the choices']);
    const series = { kind: 'series', options, least: 2, most: 3 };
    expect([read(series, 'red,red'), read(series, 'red; blue none'), read(series, ['red', 'blue'])]).toEqual([
      ...['["red","red"]', '["red","blue","none"]', '["red","blue"]'],
    ]);
    const given = (n: number) => `${n} given; 2 to 3 are expected, such as red,red.`;
    expect([read(series, 'red'), read(series, 'red red red red')]).toEqual([given(1), given(4)]);
    expect(read(series, 'red pink')).toBe('“pink” is none of the choices; type one of red, blue, none.');
    const found = {
      ...series,
      least: 1,
      options: options.map((o) => (o.value === 'none' ? { ...o, alone: true } : o)),
    };
    expect([read(found, 'none'), read(found, 'red blue')]).toEqual(['["none"]', '["red","blue"]']);
    expect(read(found, 'red none')).toBe('“NONE” can’t stand beside another answer; give it alone or leave it out.');
    expect(read(found, 'red blue red')).toBe('“RED” stands there twice; give each once.');
    expect(read({ ...found, each: 'ball' }, 'none none')).toBe('["none","none"]');
    const list = (...v: string[]) => fits(series, v);
    expect([list('red', 'red'), list('red'), list('red', 'red', 'red', 'red'), list('red', 'pink')]).toEqual([
      ...[undefined, 'it is no list of 2 to 3', 'it is no list of 2 to 3', 'it is none of the choices'],
    ]);
    expect([list('red', 'red', 'red'), fits(series, 'red')]).toEqual([undefined, 'it is no list of 2 to 3']);
  });
  it('lengths typed together', () => {
    const lid = { kind: 'dimensions', parts: ['a', 'b'], unit: 'mm', limits: [1, 100], plausible: [10, 50] };
    expect([read(lid, '10x50'), read(lid, '10x0.9')]).toEqual(['[10,50]', refused('0.9 mm')]);
    expect(read(lid, '9x51')).toBe(odd('9 mm'));
    expect([fits(lid, [1, 100]), fits(lid, [1]), fits(lid, 5), fits(lid, [1, 100.1])]).toEqual([
      ...[undefined, 'it is not 2 lengths', 'it is not 2 lengths', 'it is not from 1 mm to 100 mm'],
    ]);
  });
  it('a size as it is printed', () => {
    const suffixes = ['rs', '2rs', 'c3'].map((value) => ({ value, label: value }));
    const printed = (text: string) => {
      const found = printedSize(text, ['608', '6080', '6205'], suffixes);
      return found && [found.row, found.known.map((s) => s.value).join(' '), found.unknown.join(' ')].join('|');
    };
    expect(['608', '6205', '', '99', '60805'].map(printed)).toEqual(many(5, undefined));
    expect(['608-2RS', '6080 2rs c3', '6205RSC3', '608/2RSC3'].map(printed)).toEqual([
      ...['608|2rs|', '6080|2rs c3|', '6205|rs c3|', '608|2rs c3|'],
    ]);
    const said_ = printedWords({
      row: '608',
      known: [{ value: 'c3', label: 'loose' }],
      unknown: ['X'.repeat(21), 'Y'],
    });
    expect(said_).toBe(
      `C3: loose. ${'X'.repeat(20)}: not known here, kept as printed. Y: not known here, kept as printed.`,
    );
    expect(['608 XY', 'AB 608', 'AB-608 C3 2', 'ABCD608', 'ABCDE608'].map(printed)).toEqual([
      ...['608||XY', '608||AB', '608|c3|AB 2', '608||ABCD', undefined],
    ]);
  });
});

describe('sentences', () => {
  it('instruct by their verbs, in their order; a condition without a comma once', () => {
    const verbs = new Set(['turn', 'dry', 'wipe']);
    const rows: [string, string[]][] = [
      ['Turn.', ['turn']],
      ['Turn', ['turn']],
      ['After work turn the ring dry.', ['turn']],
      ['After work nothing is left.', []],
      ['Nothing is left after you turn it.', []],
      ['Never lift it.', ['lift']],
      ['Do not turn it, dry it.', ['turn', 'dry']],
      ["Don't lift it.", []],
      ['Turn it - dry it.', ['turn', 'dry']],
      ['Turn it: wipe cloth, dry cloth.', ['turn', 'wipe']],
      ['Turn it or dry it.', ['turn']],
      ['WARNING: slowly turn it.', ['turn']],
      ['If it is wet, with gloves on, dry it.', ['dry']],
      ['Write "turn it, dry it" down and wipe it.', ['wipe']],
      ['Write “turn it, dry it” down and wipe it.', ['wipe']],
    ];
    for (const [sentence, found] of rows)
      expect([sentence, ...instructionsIn(sentence, verbs)]).toEqual([sentence, ...found]);
  });
  it('begin behind a point, a blank and a capital, a figure or a quote', () => {
    const parts = (text: string) => sentencesOf(text).map((s) => `${s.at} ${s.text}`);
    expect(parts('Turn it. 2 turns! "So?" {x}. so. Go')).toEqual([
      ...['0 Turn it.', '9 2 turns!', '18 "So?"', '24 {x}. so.', '33 Go'],
    ]);
    expect(parts('  One.  ')).toEqual(['2 One.']);
    expect([parts(''), parts(' '), parts('a.b. c')]).toEqual([[], [], ['0 a.b. c']]);
    expect(['', 'a', 'a - b', '{x y} 5 %'].map(wordCount)).toEqual([0, 1, 2, 2]);
  });
});
