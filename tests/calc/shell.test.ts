/** What a calculator is wrapped in: its inputs read and checked, its outcome printed. */
import { describe, expect, it } from 'vitest';
import { runCalc } from '../../src/calc/command.js';
import { defineCalculator, wanted } from '../../src/calc/define.js';
import { listAll, listOne, printOutcome } from '../../src/calc/print.js';
import { pairsOf, readInput } from '../../src/calc/read-arguments.js';
import { jsonOf } from '../../src/calc/report.js';
import { CalcRefusal, type Inputs, type InputValue, type TableRow, type Tables } from '../../src/calc/types.js';
import { tables } from './support.js';

const seen: Record<string, unknown>[] = [];
/** Invented: takes one input of each type and says what reached it. */
const odd = defineCalculator({
  name: 'odd',
  title: 'An invented one',
  inputs: {
    size: { type: 'quantity', label: 'Size', kind: 'length', unit: 'mm', limits: [1, 10], optional: true },
    time: { type: 'quantity', label: 'Time', kind: 'duration', unit: 'min', limits: [1, 90], optional: true },
    sizes: { type: 'quantities', label: 'Sizes', kind: 'length', unit: 'mm', optional: true },
    one: { type: 'choice', label: 'One', choices: ['red', 'dark-blue'], table: 'hues', optional: true },
    some: { type: 'choices', label: 'Some', choices: ['red', 'dark-blue'], optional: true },
    text: { type: 'text', label: 'Text', optional: true },
    texts: { type: 'texts', label: 'Texts', optional: true },
    yes: { type: 'flag', label: 'Yes or no', optional: true },
    must: { type: 'choice', label: 'Must', choices: ['a', 'b'] },
  },
  results: {
    size: { label: 'Size', kind: 'length', unit: 'mm' },
    sizes: { label: 'Sizes', kind: 'length', unit: 'mm', list: true },
    share: { label: 'Share', kind: 'ratio', unit: 'mm/mL' },
    plain: { label: 'Plain', unit: '' },
    flag: { label: 'Flag', unit: '', flag: true },
    lines: { label: 'Lines', unit: '', list: true },
  },
  formula: 'size = size',
  source: { tag: 'A', text: 'arithmetic' },
  aliases: { navy: 'dark-blue', gone: 'green' },
  constants: { rule: { tag: 'CP', text: 'a rule; no source' } },
  run: (given) => {
    seen.push({
      size: given.maybe('size'),
      sizes: given.list('sizes'),
      one: given.maybeWord('one'),
      some: given.words('some'),
      yes: given.flag('yes'),
      has: given.has('text'),
    });
    return {
      results: {
        size: { value: 14.5, plusMinus: 0.1, dominant: 'size' },
        sizes: { value: [1, 2], plusMinus: [0.1, 0.2] },
        share: { value: 6.056 },
        plain: { value: 3 },
        flag: { value: true },
        lines: { value: ['first', 'second'] },
      },
      warnings: given.flag('yes') ? ['Mind this.'] : [],
      worked: ['size = 14.5'],
      sources: [{ tag: 'A', text: 'arithmetic', row: 'one' }],
      constants: ['rule'],
    };
  },
});
const nothing = () => ({ results: {}, warnings: [], worked: [] });
const hues: Tables = {
  hues: { id: 'hues', rows: [{ id: 'grey', tag: 'shop', source: 'tested here' } as TableRow] },
};
const run = (inputs: Inputs) => {
  seen.length = 0;
  odd.run({ must: 'a', ...inputs }, hues);
  return seen[0];
};
const refused = (inputs: Record<string, InputValue | undefined>): string => {
  try {
    odd.run({ must: 'a', ...inputs }, hues);
  } catch (error) {
    if (error instanceof CalcRefusal) return `${error.key}: ${error.message}`;
    throw error;
  }
  return 'taken';
};

describe('inputs are checked', () => {
  it('hands over what was given, and nothing of what was not', () => {
    expect(run({})).toEqual({ size: undefined, sizes: [], one: undefined, some: [], yes: false, has: false });
    expect(
      run({ size: { value: 1 }, sizes: { value: 3 }, one: 'Dark Blue', some: 'navy', yes: true, text: 'x' }),
    ).toEqual({
      size: { value: 1 },
      sizes: [{ value: 3 }],
      one: 'dark-blue',
      some: ['dark-blue'],
      yes: true,
      has: true,
    });
    expect(
      run({ size: { value: 10, plusMinus: 0 }, one: ' grey ', some: ['red', 'dark_blue'], sizes: [] }),
    ).toMatchObject({ one: 'grey', some: ['red', 'dark-blue'], sizes: [] });
  });
  const no: [Record<string, InputValue | undefined>, string][] = [
    [{ siz: true }, 'siz: odd has no input "siz": did you mean size?'],
    [
      { qqqqqq: true },
      'qqqqqq: odd has no input "qqqqqq": its inputs are size, time, sizes, one, some, text, texts, yes, must.',
    ],
    [{ must: undefined }, 'must: Must is missing: type one of a, b.'],
    [{ size: { value: 0.99 } }, 'size: Size must be from 1 mm to 10 mm, not 0.99 mm.'],
    [{ size: { value: 10.1 } }, 'size: Size must be from 1 mm to 10 mm, not 10.1 mm.'],
    [{ time: { value: 91 } }, 'time: Time must be from 1 min to 90 min, not 91 min.'],
    [{ size: { value: Number.NaN } }, 'size: Size is no number: type a length such as 14.5 mm or 0.571 in.'],
    [{ size: { value: 2, plusMinus: -1 } }, 'size: Size: the width behind +- must be a number of 0 or more.'],
    [
      { size: { value: 2, plusMinus: Number.POSITIVE_INFINITY } },
      'size: Size: the width behind +- must be a number of 0 or more.',
    ],
    [{ size: 'x' }, 'size: Size: type a length such as 14.5 mm or 0.571 in.'],
    [{ size: null as never }, 'size: Size: type a length such as 14.5 mm or 0.571 in.'],
    [{ size: {} as never }, 'size: Size: type a length such as 14.5 mm or 0.571 in.'],
    [{ sizes: 'x' }, 'sizes: Sizes: type one or more, each a length such as 14.5 mm or 0.571 in, with commas between.'],
    [
      { sizes: ['x'] },
      'sizes: Sizes: type one or more, each a length such as 14.5 mm or 0.571 in, with commas between.',
    ],
    [{ one: ['red'] }, 'one: One: type one of red, dark-blue, grey.'],
    [{ one: 'rad' }, 'one: One: "rad" is not known: did you mean red? Type one of red, dark-blue, grey.'],
    [{ one: 'zzzzzz' }, 'one: One: "zzzzzz" is not known: type one of red, dark-blue, grey.'],
    [{ one: 'z'.repeat(40) }, `one: One: "${'z'.repeat(30)}" is not known: type one of red, dark-blue, grey.`],
    // An alias of what is no choice here.
    [{ one: 'gone' }, 'one: One: "gone" is not known: type one of red, dark-blue, grey.'],
    [{ some: true }, 'some: Some: type one or more of red, dark-blue, with commas between.'],
    [{ some: [1] as never }, 'some: Some: type one or more of red, dark-blue, with commas between.'],
    [{ texts: 'x' }, 'texts: Texts: type words with commas between.'],
    [{ texts: ['x', 1] as never }, 'texts: Texts: type words with commas between.'],
    [{ texts: ['x', 'y'] }, 'taken'],
    [{ yes: 'yes' }, 'yes: Yes or no: type yes or no.'],
    [{ text: true }, 'text: Text: type a word.'],
    [{ text: 'x' }, 'taken'],
  ];
  it.each(no)('%j', (inputs, said) => {
    expect(refused(inputs)).toBe(said);
  });
  it('an empty list of what must be there is missing', () => {
    const one = defineCalculator({
      ...odd,
      run: nothing,
      inputs: { some: { type: 'choices', label: 'Some', choices: ['a'] } },
    });
    expect(() => one.run({ some: [] }, {})).toThrow('Some: type one or more of a');
    expect(() => one.run({}, {})).toThrow('Some is missing: type one or more of a, with commas between.');
    const sizes = defineCalculator({
      ...odd,
      run: nothing,
      inputs: { sizes: { ...odd.inputs.sizes!, optional: false } },
    });
    expect(() => sizes.run({ sizes: [] }, {})).toThrow('Sizes: type one or more, each a length');
  });
  it('says in words what is wanted', () => {
    expect(Object.values(odd.inputs).map(wanted)).toEqual([
      'a length such as 14.5 mm or 0.571 in',
      'a time such as 90 min, 1.5 h or 1 h 30 min',
      'one or more, each a length such as 14.5 mm or 0.571 in, with commas between',
      'one of red, dark-blue',
      'one or more of red, dark-blue, with commas between',
      'a word',
      'words with commas between',
      'yes or no',
      'one of a, b',
    ]);
  });
});

describe('words of the command line', () => {
  const pairs = (...words: string[]) => Object.fromEntries(pairsOf(odd, words));
  it('are cut at the first =, and what has none belongs to the one before', () => {
    expect(pairs('size=1', 'mm', 'text=a=b')).toEqual({ size: '1 mm', text: 'a=b' });
    expect(() => pairs('x')).toThrow('"x" is no key=value: type size=… time=….');
    expect(() => pairs('siz=1')).toThrow('odd has no input "siz": did you mean size?');
    expect(() => pairs('qqqqqq=1')).toThrow('its inputs are size, time,');
    expect(() => pairs('size=1', 'size=2')).toThrow('size is given twice: type it once.');
  });
  const read = (key: string, typed: string) => readInput(key, odd.inputs[key]!, typed);
  it('are read by the type of their input', () => {
    expect(read('size', ' 1 in ')).toEqual({ value: { value: 25.4 }, unit: 'in' });
    expect(read('size', '1+-0.1')).toEqual({ value: { value: 1, plusMinus: 0.1 }, unit: 'mm' });
    expect(read('sizes', '1,2')).toEqual({ value: [{ value: 1 }, { value: 2 }], unit: 'mm' });
    expect(read('sizes', '1mm, 2mm')).toEqual({ value: [{ value: 1 }, { value: 2 }], unit: 'mm' });
    expect(read('sizes', '1,5; 2')).toEqual({ value: [{ value: 1.5 }, { value: 2 }], unit: 'mm' });
    expect(read('some', 'a ; b,,c')).toEqual({ value: ['a', 'b', 'c'] });
    expect(read('texts', 'a,b')).toEqual({ value: ['a', 'b'] });
    for (const yes of ['y', 'Yes', 'true', '1']) expect(read('yes', yes), yes).toEqual({ value: true });
    for (const not of ['n', 'No', 'false', '0']) expect(read('yes', not), not).toEqual({ value: false });
    for (const odd of ['yess', 'xyes', 'nox', 'xno', '10'])
      expect(() => read('yes', odd), odd).toThrow(`Yes or no: type yes or no, not "${odd}".`);
    expect(() => read('yes', 'z'.repeat(30))).toThrow(`not "${'z'.repeat(20)}".`);
    expect(read('one', 'x')).toEqual({ value: 'x' });
    expect(() => read('size', '  ')).toThrow('Size is empty: type a length');
    expect(() => read('size', 'x')).toThrow('Size: "x" has no number in front');
    expect(() => read('sizes', '1,5mm')).toThrow(
      'Sizes: "1,5mm" can be a decimal comma or a list: type a unit behind each, such as 1ml,1.5ml, or part the list with semicolons.',
    );
  });
});

describe('an outcome', () => {
  const inputs: Inputs = {
    must: 'a',
    size: { value: 14.5, plusMinus: 0.12345 },
    sizes: [{ value: 1 }, { value: 2, plusMinus: 0.1 }],
    yes: true,
    some: ['red', 'dark-blue'],
    text: undefined,
  };
  const outcome = odd.run({ must: 'a', yes: true }, hues);
  it('is printed line by line', () => {
    expect(printOutcome(odd, inputs, outcome)).toBe(
      [
        'An invented one',
        '  Size [size]    14.5 ± 0.1 mm (mostly from size)',
        '  Sizes [sizes]  1.0 ± 0.1 mm, 2.0 ± 0.2 mm',
        '  Share [share]  6.056 mm/mL',
        '  Plain [plain]  3',
        '  Flag [flag]    yes',
        '  Lines [lines]  first',
        '                 second',
        '',
        'Mind',
        '  ! Mind this.',
        '',
        'Formula',
        '  size = size',
        'Worked',
        '  size = 14.5',
        'Inputs',
        '  must   a',
        '  size   14.5 mm ± 0.123',
        '  sizes  1 mm, 2 mm ± 0.1',
        '  yes    yes',
        '  some   red, dark-blue',
        'Source',
        '  arithmetic',
        '  common practice, no source: a rule',
        '',
      ].join('\n'),
    );
  });
  it('without warnings, sources and what no spec names', () => {
    const bare = { results: { flag: { value: false }, other: { value: 2 } }, warnings: [], worked: [] };
    expect(printOutcome(odd, { yes: false }, bare)).toBe(
      [
        'An invented one',
        '  Flag [flag]    no',
        '  other [other]  2',
        '',
        'Formula',
        '  size = size',
        'Worked',
        'Inputs',
        '  yes  no',
        'Source',
        '  arithmetic',
        '',
      ].join('\n'),
    );
  });
  it('is given as data in canonical units', () => {
    expect(jsonOf(odd, inputs, outcome)).toStrictEqual({
      name: 'odd',
      inputs: {
        must: { value: 'a', unit: '' },
        size: { value: 14.5, unit: 'mm', plusMinus: 0.12345 },
        sizes: { value: [1, 2], unit: 'mm', plusMinus: [null, 0.1] },
        yes: { value: true, unit: '' },
        some: { value: ['red', 'dark-blue'], unit: '' },
      },
      results: {
        size: { value: 14.5, unit: 'mm', plusMinus: 0.1, dominant: 'size' },
        sizes: { value: [1, 2], unit: 'mm', plusMinus: [0.1, 0.2] },
        share: { value: 6.056, unit: 'mm/mL' },
        plain: { value: 3, unit: '' },
        flag: { value: true, unit: '' },
        lines: { value: ['first', 'second'], unit: '' },
      },
      formula: 'size = size',
      worked: ['size = 14.5'],
      source: 'arithmetic',
      sources: ['arithmetic', 'common practice, no source: a rule'],
      warnings: ['Mind this.'],
    });
    const bare = { results: { other: { value: 1 } }, warnings: [], worked: [] };
    expect(jsonOf(odd, { sizes: [{ value: 1 }], must: [], qq: 'x' }, bare)).toMatchObject({
      inputs: { sizes: { value: [1], unit: 'mm' }, must: { value: [], unit: '' }, qq: { value: 'x', unit: '' } },
      results: { other: { value: 1, unit: '' } },
      sources: [],
    });
    expect(jsonOf(odd, { sizes: [{ value: 1 }] }, bare).inputs.sizes).not.toHaveProperty('plusMinus');
  });
  it('and the list of what each takes', () => {
    expect(listOne(odd)).toBe(
      [
        'odd: An invented one',
        '  [size]    Size: mm, 1 mm to 10 mm',
        '  [time]    Time: min, 1 min to 90 min',
        '  [sizes]   Sizes: mm, list with commas',
        '  [one]     One: red | dark-blue',
        '  [some]    Some: list of red | dark-blue',
        '  [text]    Text: words',
        '  [texts]   Texts: words',
        '  [yes]     Yes or no: yes | no',
        '  must      Must: a | b',
        '  -> size   Size, mm',
        '  -> sizes  Sizes, mm',
        '  -> share  Share, mm/mL',
        '  -> plain  Plain',
        '  -> flag   Flag',
        '  -> lines  Lines',
        '',
      ].join('\n'),
    );
    const bare = defineCalculator({
      ...odd,
      run: nothing,
      name: 'bare',
      inputs: { n: { type: 'quantity', label: 'N', kind: 'count', unit: '', limits: [3, 60] } },
      results: {},
    });
    expect(listOne(bare)).toBe('bare: An invented one\n  n  N: number, 3 to 60\n');
    expect(listAll({ bare })).toMatch(/^calc NAME key=value….*\n\nbare: An invented one\n/);
  });
});

describe('the command', () => {
  const ran = (...argv: string[]) => runCalc(argv, tables);
  it('lists, helps, or says what is wrong', () => {
    expect(ran().stdout).toMatch(/^calc NAME key=value/);
    expect(ran('bead', '--help').stdout).toMatch(/^bead: Bead for each/);
    expect(ran('bead', '-h')).toMatchObject({ code: 0, stdout: ran('bead', '--help').stdout });
    expect(ran('bead', '-x').stderr).toBe('calc has no option -x: type key=value pairs, and --json for JSON.\n');
    expect(ran('--Json').stderr).toContain('no option --Json');
    expect(ran('bead', 'dose=1', 'balls=-3').stderr).toContain('balls: ');
    expect(ran('toString').stderr).toContain('There is no calculator “toString”: type calc alone for the list.');
    expect(ran('beat').stderr).toBe('There is no calculator “beat”: did you mean bead?\n');
    expect(ran('be\u001bat\u0007').stderr).toBe('There is no calculator “be?at?”: type calc alone for the list.\n');
    expect(ran('bead', 'dose=1', 'balls=10').stdout).toMatch(/^Bead for each/);
    expect(() => runCalc(['bead', 'dose=1', 'balls=10'], undefined as never)).not.toThrow();
    expect(() => runCalc(['fill', 'freeVolume=1', 'ndm=1'], undefined as never)).toThrow(TypeError);
  });
  it('lists all as data for scripts', () => {
    const all = JSON.parse(ran('--json').stdout) as { name: string; inputs: Record<string, object> }[];
    const of = (name: string) => all.find((one) => one.name === name);
    expect(of('bead')?.inputs.dose).toEqual({
      label: 'Dose',
      type: 'quantity',
      optional: false,
      unit: 'mL',
      limits: ['0.001 mL', '1 L'],
    });
    expect(of('bead')?.inputs.tip).toMatchObject({ optional: true });
    expect(of('seal-oil')?.inputs.oil).toMatchObject({ type: 'choice', optional: false });
    expect(of('seal-oil')?.inputs.oil).not.toHaveProperty('unit');
    expect(of('seal-oil')?.inputs.oil).toHaveProperty('choices');
    expect(of('bead')?.inputs.dose).not.toHaveProperty('choices');
    expect(of('fill')?.inputs.pfpe).toEqual({ label: 'Fluorinated (PFPE) grease', type: 'flag', optional: true });
  });
  it('takes amounts in one currency', () => {
    const line = (price: string, cost: string) =>
      ran('save-or-scrap', `pairPrice=${price}`, `jobCost=${cost}`, 'findings=none');
    expect(line('480 EUR', '200EUR').code).toBe(0);
    expect(line('480', '200 EUR').code).toBe(0);
    expect(line('€ 480', '200 eur').code).toBe(0);
    expect(line('480 USD', '200 EUR').stderr).toBe(
      'jobCost: Amounts are in different currencies (USD, EUR): type all in one.\n',
    );
  });
});
