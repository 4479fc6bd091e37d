/** What a slip in a file is called and how it is mended: each kind of slip by itself, as the schema tells of it. */
import { describe, expect, it } from 'vitest';
import * as z from 'zod';
import { checkWords, countInstructions } from '../../src/procedure/check-words.js';
import { readDocument, readWithPlaces } from '../../src/procedure/document.js';
import { explain, type Issue, issuesOf } from '../../src/procedure/explain-issue.js';
import type { KeyInfo } from '../../src/procedure/model.js';
import { asFacts, asNeeds } from '../../src/procedure/paste-needs.js';
import { repair } from '../../src/procedure/repair.js';
import type { Need, Part } from '../../src/procedure/schema.js';
import { givenBy, standIns, without } from '../../src/procedure/unmet-needs.js';
import type { Word } from '../../src/procedure/word-list.js';

describe('a slip in words', () => {
  const told = (
    issue: Omit<Issue, 'message'> & { message?: string },
    value: unknown,
    allowed: string[] = [],
    root: unknown = {},
  ) =>
    explain({ message: 'such a form', ...issue }, root, value, allowed).map((s) => `${s.code}: ${s.message} ${s.cure}`);
  const type = (expected: string, value: unknown, allowed: string[] = []): string[] =>
    told({ code: 'invalid_type', expected, path: ['a'] }, value, allowed);
  it.each<[string, unknown, string]>([
    ['string', 5, 'kind-of-value: “a” should be text. Put it in quotes: "5".'],
    ['string', true, 'kind-of-value: “a” should be text. Put it in quotes: "true".'],
    ['string', [], 'kind-of-value: “a” should be text. Write one text; put it in quotes when it begins with [ or {.'],
    ['boolean', 'x', 'kind-of-value: “a” should be true or false. Write true or false.'],
    ['int', 1.5, 'kind-of-value: “a” should be a whole number. Write it without a point.'],
    ['int', '1', 'kind-of-value: “a” should be a whole number. Write digits with a point and no unit.'],
    ['number', '1', 'kind-of-value: “a” should be a number. Write digits with a point and no unit.'],
    ['number', [], 'kind-of-value: “a” should be a number. Write its parts as “name: value”.'],
    ['array', 'x', 'kind-of-value: “a” should be a list. Write each item on a line of its own that begins with “- ”.'],
    ['tuple', 5, 'kind-of-value: “a” should be two numbers such as [1, 10]. Write two numbers such as [1, 10].'],
    ['date', 5, 'kind-of-value: “a” should be another value. Write its parts as “name: value”.'],
    ['string', undefined, 'missing: “a” is missing. Add “a:” with text.'],
    ['string', null, 'missing: “a” is empty. Give it text, or take the line out.'],
  ])('%s where %j stands', (expected, value, words) => {
    expect(type(expected, value)).toEqual([words]);
  });
  it('names the parts of a block', () => {
    expect(type('object', 5, ['id', 'at'])).toEqual([
      'kind-of-value: “a” should be a block of “name: value” lines. Write its parts: id:, at:.',
    ]);
  });
  it('an item by its number, the innermost part that has a name', () => {
    const root = { steps: [{ id: 'open', ask: [{ key: 'bore' }, { label: 'L' }, 'x'] }], reads: { dose: { at: 1 } } };
    const at = (...path: (string | number)[]) => told({ code: 'invalid_type', expected: 'string', path }, 5, [], root);
    const words = (where: string) => [`kind-of-value: ${where}. Put it in quotes: "5".`];
    expect(at('steps', 0, 'id')).toEqual(words('“id” should be text in the step “open”'));
    expect(at('steps', 0, 'ask', 0, 'key')).toEqual(words('“key” should be text in the question “bore”'));
    expect(at('steps', 0, 'ask', 1, 'key')).toEqual(words('“key” should be text in question number 2'));
    expect(at('steps', 0, 'ask', 2, 'key')).toEqual(words('“key” should be text in the step “open”'));
    expect(at('steps', 0, 'ask', 9, 'key')).toEqual(words('“key” should be text in the step “open”'));
    expect(at('steps', 0)).toEqual(words('Item 1 of “steps” should be text'));
    expect(at('reads', 'dose', 'at')).toEqual(
      words('“at” should be text in the value read from the earlier job “dose”'),
    );
    expect(at(0)).toEqual(words('Item 1 of “the list” should be text'));
    expect(at()).toEqual(words('“the file” should be text'));
    expect(told({ code: 'invalid_type', expected: 'string', path: ['a', 'b'] }, 5, [], 'text')).toEqual(
      words('“b” should be text'),
    );
  });
  it('names that are not known, values that are none of the choices', () => {
    const unknown = (keys: string[], value: unknown = {}, root = {}) =>
      told({ code: 'unrecognized_keys', keys, path: [] }, value, ['title', 'label'], root);
    expect(unknown(['titel', 'xyz'])).toEqual([
      'name-not-known: “titel” is not a name that is known here. Did you mean “title”?',
      'name-not-known: “xyz” is not a name that is known here. Use one of: title, label.',
    ]);
    const cut = 'name-not-known: “not torn” is not a name that is known here. ';
    expect(unknown(['not torn'], { 'not torn': null })).toEqual([
      `${cut}Between { and } a comma ends a value: put text with a comma in double quotes.`,
    ]);
    expect(unknown(['not torn'], { 'not torn': 1 })).toEqual([`${cut}Use one of: title, label.`]);
    expect(unknown(['torn'], { torn: null })[0]).toContain('Use one of');
    const choice = (value: unknown, more: object = { values: ['red', 1] }) =>
      told({ code: 'invalid_value', path: ['a'], ...more }, value);
    expect(choice('rde')).toEqual(['value-not-allowed: “a” can’t be “rde”. Did you mean “red”?']);
    expect(choice(7)).toEqual(['value-not-allowed: “a” can’t be “7”. Use one of: red, 1.']);
    expect(choice(undefined)).toEqual(['missing: “a” is missing. Add “a:” with one of: red, 1.']);
    expect(choice('x', { code: 'invalid_union', options: ['b'] })).toEqual([
      'value-not-allowed: “a” can’t be “x”. Use one of: b.',
    ]);
  });
  it('bounds and forms', () => {
    const bound = (code: string, more: object) => told({ code, path: ['a'], ...more }, 0);
    const said = (words: string) => [`out-of-bounds: “a” ${words}`];
    expect(bound('too_small', { origin: 'string' })).toEqual(said('is empty. Write it out.'));
    expect(bound('too_small', { origin: 'array', minimum: 1 })).toEqual(
      said('needs at least one item. Add what is missing.'),
    );
    expect(bound('too_small', { origin: 'array', minimum: 2 })).toEqual(
      said('needs at least 2 items. Add what is missing.'),
    );
    expect(bound('too_small', { origin: 'number', minimum: 0 })).toEqual(
      said('has to be more than 0. Write more than 0.'),
    );
    expect(bound('too_small', { origin: 'number', minimum: 0, inclusive: true })).toEqual(
      said('can’t be less than 0. Write 0 or more.'),
    );
    expect(bound('too_big', { origin: 'string', maximum: 9 })).toEqual(
      said('is too long. Shorten it to 9 characters.'),
    );
    expect(bound('too_big', { origin: 'array', maximum: 3 })).toEqual(said('can have at most 3 items. Take some out.'));
    expect(bound('too_big', { origin: 'number', maximum: 5 })).toEqual(said('can be at most 5. Write 5 or less.'));
    expect(told({ code: 'invalid_format', path: ['a'] }, 'X')).toEqual([
      'value-not-allowed: “a” has a form that is not allowed. Use such a form.',
    ]);
    const key = (issues?: Issue[]) =>
      told({ code: 'invalid_key', path: ['a'], ...(issues ? { issues } : {}) }, undefined);
    expect(key([{ path: [], message: 'small letters' }])).toEqual([
      'value-not-allowed: The name “a” has a form that is not allowed. Use small letters.',
    ]);
    for (const none of [key(), key([])])
      expect(none).toEqual(['value-not-allowed: The name “a” has a form that is not allowed. Use another name.']);
    expect(told({ code: 'custom', path: ['a'] }, 1)).toEqual([
      'value-not-allowed: “a” has a value that is not allowed. Compare it with a shipped procedure.',
    ]);
  });
  it('of what may be one of several the nearest speaks', () => {
    const one = (code: string, path: string[], keys?: string[]): Issue => ({
      code,
      path,
      message: '',
      ...(keys ? { keys } : {}),
    });
    const union = (...errors: Issue[][]) =>
      issuesOf({ issues: [{ code: 'invalid_union', path: ['q'], message: '', errors }] });
    const type = one('invalid_type', ['key']);
    expect(union([type, type], [one('invalid_value', ['kind'])])).toEqual([
      { ...one('invalid_value', []), path: ['q', 'kind'] },
    ]);
    // A name that is not known weighs twice, one that lies deeper a little less.
    expect(union([one('unrecognized_keys', [], ['x'])], [type])[0]?.code).toBe('invalid_type');
    expect(union([one('unrecognized_keys', [], ['x'])], [type, type, type])[0]?.code).toBe('unrecognized_keys');
    expect(union([one('invalid_value', [])], [type])[0]?.code).toBe('invalid_type');
    expect(union()).toHaveLength(1);
  });
});

describe('a slip that is mended by guess, to look further', () => {
  const schema = z.strictObject({
    kind: z.enum(['red', 'blue']),
    title: z.string().min(1),
    list: z.array(z.string()).optional(),
    version: z.string().regex(/^\d/).optional(),
    tag: z.enum(['A', 'B', 'CP']).optional(),
    overrule: z.enum(['reason', 'never']).optional(),
    size: z.number().optional(),
    block: z.strictObject({ say: z.string() }).optional(),
  });
  const good = { kind: 'red', title: 'T' };
  it.each<[string, unknown, unknown]>([
    ['nothing wrong', good, good],
    ['a name', { ...good, verson: '1' }, { ...good, version: '1' }],
    ['a name too many', { ...good, zzzzzz: 1 }, good],
    ['a name that is there already', { ...good, titel: 'U' }, good],
    ['a choice', { ...good, kind: 'rde' }, good],
    ['one text for a list', { ...good, list: 'x' }, { ...good, list: ['x'] }],
    ['a text', { ...good, title: 7 }, { ...good, title: 'x' }],
    ['a text that is missing', { kind: 'red' }, { ...good, title: 'x' }],
    ['a text deeper', { ...good, block: { say: [] } }, { ...good, block: { say: 'x' } }],
    ['a version', { ...good, version: 'x' }, { ...good, version: '0.0.0' }],
    ['a tag', { ...good, tag: 'zzzz' }, { ...good, tag: 'CP' }],
    ['an overrule', { ...good, overrule: 'perhaps' }, { ...good, overrule: 'never' }],
    ['a choice too far off', { ...good, kind: 'yellow' }, undefined],
    ['a number', { ...good, size: 'x' }, undefined],
    ['a list where a number should be', { ...good, size: ['x'] }, undefined],
    ['no block', 'text', undefined],
    ['a block that is none', { ...good, block: 'x' }, undefined],
    ['what can’t be copied', { ...good, title: () => 1 }, undefined],
  ])('%s', (_, value, mended) => {
    expect(repair(value, schema)).toEqual(mended);
  });
});

describe('needs that are missing', () => {
  const needs = [
    { key: 'bore', at: 'position', quantity: 'length' },
    { key: 'is_dry', at: 'job', type: 'bool' },
    { key: 'names', at: 'job', type: 'list<string>' },
    { key: 'word', at: 'job' },
    { key: 'count', at: 'job', quantity: 'length', type: 'list<double>' },
    { step: 'open', at: 'seal' },
  ] as unknown as Need[];
  it('are written out to be pasted as facts', () => {
    expect(asFacts(needs)).toEqual([
      '  - { key: bore, at: position, label: bore, quantity: length, is: "1.0" }',
      '  - { key: is_dry, at: job, label: is dry, type: bool, is: "false" }',
      '  - { key: names, at: job, label: names, type: list<string>, is: "[]" }',
      '  - { key: word, at: job, label: word, type: string, is: "\'none\'" }',
      '  - { key: count, at: job, label: count, type: list<double>, quantity: length, is: "[]" }',
    ]);
  });
  it('or as needs, with what is known of them', () => {
    const known = new Map<string, KeyInfo>([
      ['bore', { type: 'double', quantity: 'length', at: 'seal' } as unknown as KeyInfo],
      ['is_dry', { type: 'bool', at: 'job' } as unknown as KeyInfo],
      ['names', { type: 'string', at: 'job' } as unknown as KeyInfo],
      ['count', { type: 'list<double>', quantity: 'length', at: 'job' } as unknown as KeyInfo],
    ]);
    expect(asNeeds(needs, known)).toEqual([
      '  - { key: bore, at: seal, quantity: length }',
      '  - { key: is_dry, at: job, type: bool }',
      '  - { key: names, at: job }',
      '  - { key: word, at: job }',
      '  - { key: count, at: job, type: list<double>, quantity: length }',
      '  - { step: open, at: seal }',
    ]);
  });

  const part = {
    needs: [
      { step: 'open', optional: true },
      { branch: 'fell-down', at: 'job', optional: true },
      { key: 'whole', at: 'job', type: 'double', otherwise: 2 },
      { key: 'half', at: 'job', quantity: 'length', otherwise: 0.25 },
      { key: 'said', at: 'job', otherwise: "it's \\" },
      { key: 'yes', at: 'job', type: 'bool', otherwise: false },
      { key: 'must', at: 'job' },
      { branch: 'lost', at: 'job' },
    ],
  } as unknown as Part;
  const none = givenBy({});
  it('that a part can do without become facts', () => {
    const fact = (key: string, more: object) => ({ key, at: 'job', label: key, ...more });
    expect(standIns(part, none)).toEqual([
      { need: 1, fact: fact('event_fell_down', { label: 'fell-down', type: 'bool', is: 'false' }) },
      { need: 2, fact: fact('whole', { type: 'double', is: '2.0' }) },
      { need: 3, fact: fact('half', { quantity: 'length', is: '0.25' }) },
      { need: 4, fact: fact('said', { type: 'string', is: "'it\\'s \\\\'" }) },
      { need: 5, fact: fact('yes', { type: 'bool', is: 'false' }) },
    ]);
    const given = givenBy({
      steps: [{ id: 'open', ask: [{ key: 'whole', parts: ['half'] }] }, 'odd'],
      follows: { reads: { said: {} } },
      calcs: [{ gives: { x: 'yes' } }, {}],
      facts: [{ key: 'more' }],
      branches: [{ id: 'fell-down' }],
    });
    expect(standIns(part, given)).toEqual([]);
    expect([...given.keys]).toEqual(['whole', 'half', 'said', 'yes', 'more', 'event_fell_down']);
    expect([[...given.steps], [...given.branches]]).toEqual([['open'], ['fell-down']]);
    expect(standIns(part, { ...none, keys: new Set(['event_fell_down']) }).map((s) => s.need)).toEqual([2, 3, 4, 5]);
  });
  it('and what hangs on them is left out', () => {
    const item = {
      not_after: ['open', 'fill'],
      reopens: ['open'],
      warn_at: 'open',
      gates: [{ id: 'a', raise: 'fell-down' }, { id: 'b', raise: 'other' }, 'odd'],
      anew: { each: 'sitting', after: ['open', 'fill'] },
      fresh: { after: 'fill', raise: 'fell-down' },
      ask: [
        { key: 'q', options: [{ value: 'x', only_with: 'yes' }, { value: 'y', only_with: 'must' }, { value: 'z' }] },
        1,
      ],
    };
    expect(without(item, part, none)).toEqual({
      not_after: ['fill'],
      gates: [{ id: 'a' }, { id: 'b', raise: 'other' }, 'odd'],
      anew: { each: 'sitting', after: ['fill'] },
      fresh: { after: 'fill' },
      ask: [{ key: 'q', options: [{ value: 'x', offered: false }, { value: 'y' }, { value: 'z' }] }, 1],
    });
    expect(without({ fresh: { after: 'open' }, warn_at: 'fill' }, part, none)).toEqual({ warn_at: 'fill' });
    const all = givenBy({ steps: [{ id: 'open' }], branches: [{ id: 'fell-down' }], facts: [{ key: 'yes' }] });
    const options = [{ value: 'x' }, { value: 'y' }, { value: 'z' }];
    expect(without(item, part, all)).toEqual({ ...item, ask: [{ key: 'q', options }, 1] });
    expect([without('text', part, none), without({ id: 'a' }, part, none)]).toEqual(['text', { id: 'a' }]);
  });
});

describe('words that can be misread, in all places', () => {
  const known: Word[] = [
    { word: 'turn', is: 'do', means: 'x' },
    { word: 'dry', is: 'do', means: 'x', not: ['wound', 'ID'] },
    { word: 'burn', is: 'hazard', means: 'x' },
    { word: 'kappa', is: 'sign', means: 'how thick the oil is', said: ['against the need'] },
  ];
  const faults = (text: string): string[] => checkWords(text, 'x.yaml', known).map((p) => `${p.line}: ${p.fault}`);
  it.each<[string, string, string[]]>([
    ['a fact', "facts:\n  - { key: a, label: A, is: \"b ? 'a wound here' : 'wound'\" }\n", ['2: word not used']],
    ['its label', 'facts:\n  - { key: a, label: A wound, is: b }\n', ['2: word not used']],
    ['a sign in its label', 'facts:\n  - { key: a, label: The kappa, is: b }\n', ['2: sign unexplained']],
    ['a sign that it explains', 'facts:\n  - { key: a, label: "kappa, Against The Need", is: b }\n', []],
    ['no sign in another word', 'facts:\n  - { key: a, label: pre-kappa, is: b }\n', []],
    ['a branch', 'branches:\n  - { id: a, title: Wound, mark: Wound }\n', ['2: word not used', '2: word not used']],
    ['a heading of the sheet', 'sheet:\n  blocks: [ { heading: Wound, other: wound } ]\n', ['2: word not used']],
    [
      'a fact that a step is done by',
      'steps:\n  - { id: s, do: "{a}" }\nfacts:\n  - { key: a, is: "\'Air is here.\'" }\n',
      ['4: no instruction'],
    ],
    ['a piece of one', 'steps:\n  - { id: s, do: "{a}" }\nfacts:\n  - { key: a, is: "\'air is here\'" }\n', []],
    ['one word of it, though a blank stands before', 'facts:\n  - { key: a, is: "b + \' wound\'" }\n', []],
    ['what should be text and is a number', 'steps:\n  - { id: s, do: 5, why: [wound] }\n', []],
    ['one that no step is done by', 'facts:\n  - { key: a, is: "\'Air is here.\'" }\n', []],
    ['small letters of what is written large', 'branches:\n  - { id: a, title: an id }\n', []],
    ['large ones', 'branches:\n  - { id: a, title: an ID }\n', ['2: word not used']],
    ['what cannot be read', 'a: [', []],
    ['the largest sentence', `steps:\n  - { id: s, do: "Turn ${'x '.repeat(19)}." }\n`, []],
    ['one word more', `steps:\n  - { id: s, do: "Turn ${'x '.repeat(20)}." }\n`, ['2: long']],
    ['the largest that tells', `steps:\n  - { id: s, why: "${'x '.repeat(25)}." }\n`, []],
    ['one word more of it', `steps:\n  - { id: s, why: "${'x '.repeat(26)}." }\n`, ['2: long']],
    ['a waiting time', 'steps:\n  - { id: s, wait: { label: wound } }\n', ['2: word not used']],
    [
      'a caution of what happens, without what to do',
      'steps:\n  - { id: s, caution: ["NOTICE: Air is here."] }\n',
      ['2: caution without hazard and what to do'],
    ],
    ['a notice', 'steps:\n  - { id: s, caution: ["NOTICE: Turn it."] }\n', []],
  ])('%s', (_, text, said) => {
    expect(faults(text)).toEqual(said);
  });
  const long = (n: number): string => `Turn ${'x '.repeat(n - 1)}.`;
  it.each<[string, (text: string) => string, number | undefined]>([
    // How many words a sentence may have there; nothing is said of the length of labels.
    ['do', (t) => `do: "${t}"`, 20],
    ['brief', (t) => `brief: "${t}"`, 20],
    ['remedy', (t) => `remedy: "${t}"`, 20],
    ['what a gate says', (t) => `gates: [ { say: "${t}" } ]`, 20],
    ['what a hold says', (t) => `hold: { say: "${t}" }`, 20],
    ['what is checked there', (t) => `hold: { self_check: "${t}" }`, 25],
    ['why', (t) => `why: "${t}"`, 25],
    ['otherwise', (t) => `otherwise: "${t}"`, 25],
    ['tell', (t) => `tell: "${t}"`, 25],
    ['mark', (t) => `mark: "${t}"`, 25],
    ['help', (t) => `ask: [ { help: "${t}" } ]`, 25],
    ['title', (t) => `title: "${t}"`, undefined],
    ['label', (t) => `ask: [ { label: "${t}" } ]`, undefined],
    ['an answer', (t) => `ask: [ { options: [ { label: "${t}" } ] } ]`, undefined],
    ['its note', (t) => `ask: [ { options: [ { note: "${t}" } ] } ]`, undefined],
    ['a wait', (t) => `wait: { label: "${t}" }`, undefined],
  ])('are looked for under %s', (_, line, most) => {
    const said = (text: string): string[] => faults(`steps:\n  - id: s\n    ${line(text)}\n`);
    const once = (fault: string) => expect.arrayContaining([`3: ${fault}`]);
    expect(said('Turn the wound.')).toEqual(once('word not used'));
    expect(said('Turn it.')).toEqual([]);
    if (most === undefined) return expect(said(long(40))).toEqual([]);
    expect(said(long(most))).toEqual([]);
    expect(said(long(most + 1))).toEqual(once('long'));
  });
  it('are told in sentences, with what to do', () => {
    const told = (lines: string): string[] =>
      checkWords(`steps:\n  - id: s\n    ${lines}\n`, 'x.yaml', known).map(
        (p) => `${p.line}:${p.column}: ${p.message} ${p.cure}`,
      );
    expect(told(`do: "${long(21)}"`)).toEqual([
      '3:9: A sentence has 21 words, at most 20 are read well. Make two of it.',
    ]);
    expect(told(`do: "${'Air is here '.repeat(5)}."`)).toEqual([
      '3:9: “Air is here Air is here Air is here Air is here Ai” instructs nothing. Begin with a verb of the word list, after the condition.',
    ]);
    expect(told('why: It is kappa.')).toEqual([
      '3:10: “kappa” is not explained here. Say what it is: how thick the oil is.',
    ]);
    expect(told('caution: [ "Turn it, burns." ]')).toEqual([
      '3:16: A caution begins with no signal word. Begin with one of DANGER, WARNING, CAUTION, NOTICE and a colon.',
    ]);
    expect(told('caution: [ "WARNING: Turn it, it burns.", "DANGER: Turn it, it burns." ]')).toEqual([
      '3:47: DANGER stands after a lesser word. Put the graver one first.',
    ]);
    expect(told('caution: [ "DANGER: Turn it, it burns.", "DANGER: Turn it, it burns." ]')).toEqual([]);
    const hazard = 'The first sentence of a caution stays on the screen and does not say';
    expect(told('caution: [ { say: "WARNING: Air is here." } ]')).toEqual([
      `3:23: ${hazard} what hurts nor what to do. Say both in it, in ten words.`,
    ]);
    expect(told('caution: [ "WARNING: Turn it." ]')).toEqual([
      `3:16: ${hazard} what hurts. Say both in it, in ten words.`,
    ]);
    expect(told('caution: [ "WARNING: It burns." ]')).toEqual([
      `3:16: ${hazard} what to do. Say both in it, in ten words.`,
    ]);
    // What a figure begins may well instruct.
    expect(told('do: "{a} is here. Turn it."')).toEqual([]);
  });
  it('counts what is instructed, and where it is dangerous', () => {
    const steps =
      'steps:\n  - { id: a, do: One. Two., brief: Three., hazard: true }\n  - { id: b, do: Four. }\n  - { id: c }\n';
    expect(countInstructions(steps, 'x')).toEqual({ all: 4, dangerous: 3 });
    expect(countInstructions('a: [', 'x')).toEqual({ all: 0, dangerous: 0 });
  });
});

describe('the place of a slip', () => {
  const at = (text: string, path: (string | number)[], offset?: number): string => {
    const { line, column } = readWithPlaces(text, 'x').source!.spot(path, offset);
    return `${line}:${column}`;
  };
  const text = 'a:\n  - b: "one two one"\n    c: >-\n      fold\n      two\n';
  it.each<[(string | number)[], number | undefined, string]>([
    [['a', 0, 'b'], undefined, '2:8'],
    [['a', 0, 'b'], -1, '2:5'],
    // Characters into the value: the word that stands there, as often as it came before.
    [['a', 0, 'b'], 4, '2:13'],
    [['a', 0, 'b'], 8, '2:17'],
    [['a', 0, 'b'], 0, '2:8'],
    [['a', 0, 'b'], 99, '2:20'],
    [['a', 0, 'c'], 5, '5:7'],
    // What is not there is told at what is around it.
    [['a', 0, 'x'], undefined, '2:5'],
    [['a', 0, 'x'], -1, '2:5'],
    [['a', 5], undefined, '2:3'],
    [['x'], -1, '1:1'],
    [[], undefined, '1:1'],
  ])('%j, %s characters into it: %s', (path, offset, spot) => {
    expect(at(text, path, offset)).toBe(spot);
  });
  it('of a file that is not even read is told by line and column', () => {
    const { problems, source } = readWithPlaces('ab\nc\0', 'x');
    expect([source, problems[0]?.line, problems[0]?.column]).toEqual([undefined, 2, 2]);
    const read = readDocument('a: [', 'x', z.strictObject({}));
    expect([read.value, read.guess, read.problems.length]).toEqual([undefined, undefined, 1]);
    expect(read.complain('yaml', [], '', '')).toBeUndefined();
    expect(readDocument('a: 1', 'x', z.strictObject({ a: z.number() }))).toMatchObject({
      value: { a: 1 },
      problems: [],
    });
  });
});
