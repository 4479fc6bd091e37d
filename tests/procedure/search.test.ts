/** What the check finds by trying a procedure out: decisions that reopen themselves, dead ends, events without effect, follow-ups that nobody can have. */
import { describe, expect, it } from 'vitest';
import type { Calculator } from '../../src/calc/types.js';
import { loadProcedure } from '../../src/procedure/load.js';
import { showProblem } from '../../src/procedure/problem.js';
import type { Procedure } from '../../src/procedure/schema.js';

/** Invented: as much as was chosen, a third where nothing was; two soaps go together when they are one. */
const share: Calculator = {
  name: 'share',
  title: 'Share',
  inputs: { share: { label: 'Share', type: 'quantity', kind: 'share', unit: '%', optional: true } },
  results: { volume: { label: 'Volume', kind: 'volume', unit: 'mL' } },
  formula: 'share / 10',
  source: { tag: 'A', text: 'made up' },
  run: () => ({ results: { volume: { value: 3 } }, warnings: [], worked: [] }),
};
const soap = { type: 'choice', label: 'Soap', choices: ['red', 'blue', 'unknown'] } as const;
const pair: Calculator = {
  name: 'pair',
  title: 'Pair',
  inputs: { old: soap, new: soap },
  results: { verdict: { label: 'Together', unit: '', words: ['good', 'bad', 'unsure'] } },
  formula: 'old = new',
  source: { tag: 'A', text: 'made up' },
  run: ({ old, new: fresh }) => ({
    results: { verdict: { value: old === 'unknown' ? 'unsure' : old === fresh ? 'good' : 'bad' } },
    warnings: [],
    worked: [],
  }),
};
/** Knows nothing of blue. */
const rinse: Calculator = {
  ...pair,
  name: 'rinse',
  inputs: { old: soap, wet: { type: 'flag', label: 'Wet' } },
  run({ old, wet }) {
    if (old === 'blue') throw new Error('not of blue');
    const value = old === 'unknown' ? 'unsure' : wet ? 'good' : 'bad';
    return { results: { verdict: { value } }, warnings: [], worked: [] };
  },
};
const calculators = { share, pair, rinse };

const step = (id: string, more = ''): string =>
  `  - id: ${id}\n    phase: all\n    at: job\n    title: ${id}\n    do: Do it.\n    why: It helps.\n${more}`;
const options = '[ { value: red, label: Red }, { value: blue, label: Blue }, { value: unknown, label: Nobody knows } ]';
const text = (steps: string, rest = '', head = ''): string =>
  `procedure: soap\nversion: 1.0.0\ntitle: Soap\nsummary: Made up.\n${head}places: []\nphases: [ { id: all, title: All } ]\nsteps:\n${steps}${rest}`;
const codes = (source: string, known?: readonly Procedure[]): string[] =>
  loadProcedure(source, 'p', { tables: {}, calculators, ...(known ? { known } : {}) }).problems.map((p) => p.code);
const says = (source: string, known?: readonly Procedure[]): string[] =>
  loadProcedure(source, 'p', { tables: {}, calculators, ...(known ? { known } : {}) }).problems.map(
    (p) => `${p.line} ${showProblem(p).replace(/^p:\d+:\d+: /, '')}`,
  );

describe('a decision that reopens itself', () => {
  const ask = (key: string, kind: string): string =>
    `      - { key: ${key}, kind: quantity, quantity: ${kind}, unit: "${kind === 'share' ? '%' : 'mL'}", label: ${key}, limits: [0, 100] }\n`;
  const decision = (asks: string): string => `    decision: true\n    rests_on: [due]\n    ask:\n${asks}`;
  const calc = 'calcs:\n  - { calc: share, at: job, with: { share: chosen }, gives: { volume: due } }\n';

  it('is found by any of its questions, where the figure has a value before', () => {
    const both = decision(ask('chosen', 'share') + ask('set', 'volume'));
    expect(says(text(step('dose', both), calc))).toEqual([
      '15 The decision “dose” rests on “due”, which its own answer “chosen” changes. Let it rest on what was known before, or ask that in a step of its own before.',
    ]);
    expect(codes(text(step('dose', both), calc))).toEqual(['decision-reopens-itself']);
    const two = step('how-full', `    ask:\n${ask('chosen', 'share')}`) + step('dose', decision(ask('set', 'volume')));
    expect(says(text(two, calc))).toEqual([]);
  });

  it('is none where the figure is not known before that answer', () => {
    const fact = 'facts:\n  - { key: due, at: job, label: Due, quantity: share, is: chosen * 2.0 }\n';
    const both = decision(ask('chosen', 'share') + ask('set', 'volume'));
    expect(says(text(step('dose', both), fact))).toEqual([]);
    // The last answer has every figure before it.
    expect(says(text(step('dose', decision(ask('chosen', 'share'))), fact))[0]).toContain('its own answer “chosen”');
  });

  it.each<[is: string, known: boolean]>([
    ['chosen * 2.0', false],
    ['half * 2.0', false],
    ['dry ? chosen : 5.0', true],
    ['dry ? 5.0 : chosen', true],
    ['dry ? chosen : chosen * 2.0', false],
    ['chosen > 5.0 ? 1.0 : 2.0', false],
    ['dry || chosen > 5.0 ? 1.0 : 2.0', true],
    ['chosen > 5.0 && dry ? 1.0 : 2.0', true],
    ['chosen > 1.0 && chosen < 5.0 ? 1.0 : 2.0', false],
    ['-chosen', false],
    ['max(1.0, chosen)', false],
    ['usual * 2.0', true],
    // It counts only once the answer is there.
    ['5.0, when: chosen > 1.0', false],
    ['5.0, when: dry || chosen > 1.0', true],
  ])('by a figure that may be known before the answer: %s', (is, known) => {
    const first = step('first', '    ask:\n      - { key: dry, kind: yes-no, label: Dry }\n');
    const both = decision(
      ask('chosen', 'share') + ask('usual', 'share').replace(' }\n', ', otherwise: 5 }\n') + ask('set', 'volume'),
    );
    const [own, when] = is.split(', when: ');
    const facts = `facts:\n  - { key: due, at: job, label: Due, quantity: share, is: "${own}"${when ? `, when: "${when}"` : ''} }\n  - { key: half, at: job, label: Half, quantity: share, is: chosen / 2.0 }\n`;
    const by = is.startsWith('usual') ? 'usual' : 'chosen';
    expect(says(text(first + step('dose', both), facts)).map((x) => x.replace(/^\d+ /, ''))).toEqual(
      known
        ? [
            `The decision “dose” rests on “due”, which its own answer “${by}” changes. Let it rest on what was known before, or ask that in a step of its own before.`,
          ]
        : [],
    );
  });
});

describe('an unknown answer', () => {
  const old = step('old', `    ask:\n      - { key: was, kind: choice, label: Old soap, options: ${options} }\n`);
  const fresh = (gate: string): string =>
    step(
      'new',
      `    ask:\n      - { key: fresh, kind: choice, label: New soap, options: ${options} }\n    gates:\n      - { id: meet, must: "verdict == 'good'", say: Not so., ${gate} }\n`,
    );
  const rest = 'calcs:\n  - { calc: pair, at: job, with: { old: was, new: fresh }, gives: { verdict: verdict } }\n';

  it('that ends in a stop that nobody can pass is found, through calculators too', () => {
    expect(says(text(old + fresh('overrule: never'), rest))).toEqual([
      '25 Whoever answered “unknown” to “was” never passes the gate “meet”, and it can’t be overruled. Hold it where that is asked, name a way out in “raise” or “correct”, or let it be overruled.',
    ]);
  });

  it('has a code that stays', () => {
    expect(codes(text(old + fresh('overrule: never'), rest))).toEqual(['unknown-never-passes']);
  });

  it('is fine where the stop can be overruled, or offers another way', () => {
    expect(says(text(old + fresh('overrule: with-reason'), rest))).toEqual([]);
    const branch = `${rest}branches:\n  - { id: take-out, at: job, title: Taken out, mark: Taken out, reopens: [old] }\n`;
    const steps = old + fresh('overrule: never, raise: take-out') + step('out', '    branch: take-out\n');
    expect(says(text(steps, branch))).toEqual([]);
    const open =
      "facts:\n  - { key: fine, at: job, label: Fine, type: bool, is: \"was == 'unknown' || verdict == 'good'\" }\n";
    expect(says(text(old + fresh('overrule: never').replace("verdict == 'good'", 'fine'), open + rest))).toEqual([]);
  });

  it('is fine where the stop, or its step, does not count then', () => {
    const known = `, when: "was != 'unknown'"`;
    expect(says(text(old + fresh(`overrule: never${known}`), rest))).toEqual([]);
    const left = fresh('overrule: never').replace('    ask:\n', `    when: "was != 'unknown'"\n    ask:\n`);
    expect(says(text(old + left, rest))).toEqual([]);
    // A stop that always counts is told as before.
    expect(codes(text(old + fresh(`overrule: never, when: "was != 'red'"`), rest))).toEqual(['unknown-never-passes']);
  });

  it('is fine where the stop offers to correct what makes it count', () => {
    const asked = step('kind', '    ask:\n      - { key: mixed, kind: yes-no, label: Mixed }\n');
    const gate = (more: string): string => `overrule: never, when: mixed, correct: [${more}]`;
    expect(says(text(asked + old + fresh(gate('mixed')), rest))).toEqual([]);
    expect(codes(text(asked + old + fresh(gate('fresh')), rest))).toEqual(['unknown-never-passes']);
    expect(codes(text(asked + old + fresh(gate('was')), rest))).toEqual(['unknown-never-passes']);
  });

  it('is not told of an answer that comes later, nor of a stop that nobody passes at all', () => {
    expect(codes(text(fresh('overrule: never') + old, rest))).not.toContain('unknown-never-passes');
    const never = fresh('overrule: never').replace(
      "verdict == 'good'",
      "verdict == 'good' && fresh == 'unknown' && was == 'red'",
    );
    expect(codes(text(old + never, rest))).not.toContain('unknown-never-passes');
  });

  it('is found through a calculator that is not sure of some, and not through one that is worked only at times', () => {
    const rinsed = rest.replace('calc: pair', 'calc: rinse').replace('new: fresh', 'wet: "fresh == \'red\'"');
    expect(codes(text(old + fresh('overrule: never'), rinsed))).toEqual(['unknown-never-passes']);
    const atTimes = rest.replace('gives:', 'when: "fresh == \'red\'", gives:');
    expect(codes(text(old + fresh('overrule: never'), atTimes))).toEqual([]);
  });

  it('is fine where it is asked in the same step: the stop comes at once', () => {
    const one = step(
      'both',
      `    ask:\n      - { key: was, kind: choice, label: Old soap, options: ${options} }\n      - { key: fresh, kind: choice, label: New soap, options: ${options} }\n    gates:\n      - { id: meet, must: "verdict == 'good'", say: Not so., overrule: never }\n`,
    );
    expect(says(text(one, rest))).toEqual([]);
  });
});

describe('an event', () => {
  const seen = step('first', '    ask:\n      - { key: first, kind: yes-no, label: First }\n');
  const fell = step('fell-down', '    branch: fell\n    ask:\n      - { key: whole, kind: yes-no, label: Whole }\n');
  const branch = (more = ''): string => `branches:\n  - { id: fell, at: job, title: Fell, mark: It fell${more} }\n`;

  it('that changes nothing is found', () => {
    expect(says(text(seen + fell, branch()))).toEqual([
      '26 Raising “fell” changes nothing: it reopens no step, and nothing reads that it happened or what was answered. Add “reopens:”, or let something read event_fell.',
    ]);
  });

  it('has a code that stays', () => {
    expect(codes(text(seen + fell, branch()))).toEqual(['event-without-effect']);
  });

  it('is fine once it reopens a step, or something reads it or its answer', () => {
    expect(says(text(seen + fell, branch(', reopens: [first]')))).toEqual([]);
    const last = (must: string): string =>
      step('last', `    gates:\n      - { id: whole, must: ${must}, say: Not whole., overrule: with-reason }\n`);
    expect(says(text(seen + fell + last('"!event_fell"'), branch()))).toEqual([]);
    expect(says(text(seen + fell + last('whole'), branch()))).toEqual([]);
  });

  it.each([
    ['another event', '  - { id: lost, at: job, title: Lost, mark: L, when: event_fell, reopens: [first] }\n', ''],
    ['the sheet', 'sheet:\n  figures: []\n  next: [whole]\n', ''],
    ['a fact', 'facts:\n  - { key: told, at: job, label: T, type: bool, is: event_fell }\n', ''],
    ['a step that shows it', '', '    show: [event_fell]\n'],
    ['a step in its words', '', '    brief: "So {whole}."\n'],
    ['a step that asks on it', '', '    ask:\n      - { key: k, kind: yes-no, label: K, when: event_fell }\n'],
    ['a suggestion', '', '    ask:\n      - { key: k, kind: yes-no, label: K, suggest: event_fell }\n'],
    ['a wait', '', '    wait: { minutes: "event_fell ? 5.0 : 1.0", label: W }\n'],
    ['a drawing', '', '    draw: { picture: syringe, with: { mark: event_fell } }\n'],
    [
      'the end of a log',
      '',
      '    repeat: { until: event_fell, most: 9 }\n    ask:\n      - { key: k, kind: yes-no, label: K }\n',
    ],
    [
      'what a log had by then',
      '',
      '    show: [rows_last_at_fell]\n    repeat: { until: "true", most: 9 }\n    ask:\n      - { key: k, kind: yes-no, label: K }\n',
    ],
  ])('is fine once %s reads it', (name, more, inStep) => {
    const lost = name === 'another event' ? step('find', '    branch: lost\n') : '';
    const steps = seen + fell + step('last', inStep) + lost;
    expect(says(text(steps, branch() + more))).toEqual([]);
  });

  it('is fine once a step of it offers another event', () => {
    const two = `${branch()}  - { id: lost, at: job, title: Lost, mark: L, reopens: [first] }\n`;
    const gate = '    gates:\n      - { id: g, must: whole, say: S, raise: lost, overrule: with-reason }\n';
    const offers = fell.replace('    ask:', `${gate}    ask:`);
    expect(says(text(seen + offers + step('find', '    branch: lost\n'), two))).toEqual([]);
    expect(codes(text(seen + offers.replace(', raise: lost', '') + step('find', '    branch: lost\n'), two))).toEqual([
      'event-without-effect',
    ]);
  });
});

describe('a follow-up', () => {
  const load = (source: string): Procedure => {
    const { procedure, problems } = loadProcedure(source, 'p', { tables: {}, calculators });
    if (!procedure) throw new Error(problems.map(showProblem).join('\n'));
    return procedure;
  };
  const seen = step('first', '    ask:\n      - { key: first, kind: yes-no, label: First }\n');
  const other = (reads: string, of: string): string =>
    text(
      seen.replaceAll('first', 'look'),
      '',
      `follows:\n  procedure: ${of}\n  reads:\n    then: { key: ${reads}, at: job, type: bool, label: Then }\n`,
    ).replace('procedure: soap', 'procedure: again');

  it('that no finished job can have is found at the procedure that promises it', () => {
    const first = load(text(seen));
    const wrong = load(text(seen).replace('procedure: soap', 'procedure: water'));
    const again = load(other('first', 'water'));
    const promised = text(seen, '', 'followed_by: again\n');
    expect(says(promised, [first, wrong, again])).toEqual([
      '5 “again” follows “water”, so no finished job of this procedure can have it. Let it follow this one, or name another.',
    ]);
    expect(codes(promised, [first, wrong, again])).toEqual(['follow-up-not-possible']);
    expect(says(promised, [first, wrong, load(other('first', 'soap'))])).toEqual([]);
    expect(says(promised.replace('by: again', 'by: agian'), [first, again])[0]).toContain('Did you mean “again”?');
  });

  it('that reads what only some jobs have is found', () => {
    const fell = step('fell-down', '    branch: fell\n    ask:\n      - { key: whole, kind: yes-no, label: Whole }\n');
    const first = load(
      text(seen + fell, 'branches:\n  - { id: fell, at: job, title: Fell, mark: It fell, reopens: [first] }\n'),
    );
    expect(says(other('whole', 'soap'), [first])[0]).toContain(
      '“whole” is known only in jobs in which “fell” was raised, so a finished job may lack it.',
    );
    expect(says(other('first', 'soap'), [first])).toEqual([]);
  });
});
