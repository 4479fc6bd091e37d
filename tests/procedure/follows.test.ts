/** What a procedure reads from an earlier job is checked against the procedure of that job. */
import { describe, expect, it } from 'vitest';
import { loadProcedure } from '../../src/procedure/load.js';
import { showProblem } from '../../src/procedure/problem.js';
import { calculators, changed, sound, tables } from './sound.js';

const first = loadProcedure(sound, 'first', { tables, calculators }).procedure;
const after = `procedure: fan-look
version: 1.0.0
title: Look at the fan again
summary: Made up for tests.
follows:
  procedure: fan-bearing
  reads:
    old_grease: { key: grease, at: job, type: string, label: Grease then }
    old_bore: { key: bore, at: position, type: double, quantity: length, label: Bore then }
places:
  - { id: position, name: Bearing, instances: [ { id: a, label: Left }, { id: b, label: Right } ] }
phases:
  - { id: look, title: Look }
steps:
  - id: look
    phase: look
    at: position
    title: Look
    do: The bore was {old_bore}.
    why: It wears.
`;
const says = (find?: string, replace = ''): string[] => {
  const text = find === undefined ? after : changed(find, replace, after);
  return loadProcedure(text, 'p', { tables, calculators, known: first ? [first] : [] }).problems.map((p) =>
    showProblem(p).slice(2),
  );
};

describe('following an earlier job', () => {
  it('is sound when both agree', () => {
    expect(says()).toEqual([]);
  });

  it.each([
    [
      'an unknown procedure',
      'procedure: fan-bearing',
      'procedure: fan-bering',
      '6:14: There is no procedure “fan-bering” to follow. Did you mean “fan-bearing”?',
    ],
    [
      'an unknown key',
      'key: grease',
      'key: greese',
      '8:24: “fan-bearing” has no value “greese”. Did you mean “grease”?',
    ],
    [
      'another kind of place',
      'key: bore, at: position',
      'key: bore, at: job',
      '9:32: “bore” of the earlier job belongs to: position. Write “at: position”.',
    ],
    [
      'an unknown kind of place',
      'key: bore, at: position',
      'key: bore, at: bearing',
      '9:32: There is no kind of place “bearing”. Known are: job, position.',
    ],
    [
      'another type',
      'at: job, type: string',
      'at: job, type: bool',
      '8:47: “grease” of the earlier job is string. Write “type: string”.',
    ],
    [
      'another quantity',
      'quantity: length',
      'quantity: speed',
      '9:66: “bore” of the earlier job is a length. Write “quantity: length”.',
    ],
    ['no quantity', 'quantity: length, ', '', '9:22: “bore” of the earlier job is a length. Write “quantity: length”.'],
    [
      'other places',
      '{ id: b, label: Right }',
      '{ id: c, label: Right }',
      '9:32: The places of kind “position” are a, c here but a, b in the earlier job. Give them the same ids.',
    ],
    [
      'a key of its own again',
      'old_grease: {',
      'old_bore: {',
      '9:5: The same name stands twice in one block. Keep one of them.',
    ],
  ])('%s', (_, find, replace, ...sentences) => {
    const found = says(find, replace);
    expect(found.slice(0, 1)).toEqual(sentences);
  });
});

describe('a job that follows one of its own too, or is followed', () => {
  const fell =
    '    why: It lies on the floor.\n    ask:\n      - { key: hurt, kind: yes-no, label: Hurt }\n      - { key: cracked, kind: yes-no, label: Cracked, otherwise: false }\n';
  const earlier = loadProcedure(changed('    why: It lies on the floor.\n', fell), 'first', { tables, calculators })
    .procedure!;
  const next = (id: string, follows?: string) =>
    ({
      ...earlier,
      procedure: id,
      ...(follows ? { follows: { procedure: follows, reads: {} } } : {}),
    }) as typeof earlier;
  const all = [earlier, next('fan-look', 'fan-bearing'), next('pump-look', 'pump-bearing'), next('pump-bearing')];
  const told = (changes: readonly (readonly [string, string])[], text = after, known = all): string[] =>
    loadProcedure(
      changes.reduce((whole, [find, replace]) => changed(find, replace, whole), text),
      'p',
      { tables, calculators, known },
    ).problems.map((p) => showProblem(p).slice(2));
  const read = (more: string): [string, string] => [
    '    old_grease:',
    `    more: { ${more}, label: M }\n    old_grease:`,
  ];
  const again: [string, string] = ['  procedure: fan-bearing\n', '  procedure: fan-bearing\n  again: true\n'];
  const ask: [string, string] = [
    '    why: It wears.\n',
    '    why: It wears.\n    ask: [ { key: looks, kind: text, label: L }, { key: wide, kind: quantity, quantity: length, unit: mm, label: W, limits: [1, 9] } ]\n',
  ];
  it.each<[string, readonly (readonly [string, string])[], ...string[]]>([
    [
      'is sound',
      [
        again,
        ask,
        read('key: grease, at: job, type: string, otherwise: none'),
        ['old_grease: {', 'old_grease: { otherwise: none,'],
      ],
    ],
    [
      'a quantity of what has none',
      [['type: string, label: Grease then', 'type: string, quantity: length, label: Grease then']],
      '8:65: “grease” of the earlier job has no quantity. Take “quantity” out.',
    ],
    [
      'a value that no job knows',
      [read('at: job, type: string')],
      '8:11: No job knows “more”: it has no “key”, and no job of this procedure itself gives it. Name the key of the earlier job, or write “again:” with a key of this procedure.',
    ],
    ['a value that its own jobs know', [again, ask, read('at: position, type: string, again: looks')]],
    [
      'one that names itself, which no job gives',
      [again, read('at: job, type: string, again: more')],
      '9:11: No job knows “more”: it has no “key”, and no job of this procedure itself gives it. Name the key of the earlier job, or write “again:” with a key of this procedure.',
    ],
    [
      'one that names nothing, though it follows its own',
      [again, read('at: job, type: string')],
      '9:11: No job knows “more”: it has no “key”, and no job of this procedure itself gives it. Name the key of the earlier job, or write “again:” with a key of this procedure.',
    ],
    [
      'one that they do not know',
      [again, ask, read('at: position, type: string, again: look')],
      '9:48: There is no value “look” here. Did you mean “looks”?',
    ],
    [
      'one that is nowhere near',
      [again, ask, read('at: position, type: string, again: bearing_temperature')],
      '9:48: There is no value “bearing_temperature” here. Use a key of this procedure.',
    ],
    [
      'one of another type',
      [again, ask, read('key: bore, quantity: length, at: position, type: double, again: looks')],
      '9:77: “looks” is string at position. It has to be double at position.',
    ],
    [
      'one of another place',
      [again, ask, read('key: grease, at: job, type: string, again: looks')],
      '9:56: “looks” is string at position. It has to be string at job.',
    ],
    [
      'one that follows none of its own',
      [ask, read('key: grease, at: job, type: string, again: looks')],
      '8:56: This procedure follows none of its own jobs. Write “again: true” above.',
    ],
    [
      'a stand-in of another type',
      [
        read('key: grease, at: job, type: string, otherwise: 5'),
        ['type: double, quantity', 'type: double, otherwise: none, quantity'],
      ],
      '8:60: “5” is no string. Write a value of type string, or take “otherwise” out.',
      '10:67: “none” is no double. Write a value of type double, or take “otherwise” out.',
    ],
    [
      'a stand-in for yes or no',
      [read('key: fast, at: job, type: bool, otherwise: "no"')],
      '8:56: “no” is no bool. Write a value of type bool, or take “otherwise” out.',
    ],
    ['one that is right', [read('key: fast, at: job, type: bool, otherwise: false')]],
    [
      'what is asked only after an event',
      [read('key: hurt, at: position, type: bool')],
      '8:18: “hurt” is known only in jobs in which “dropped” was raised, so a finished job may lack it. Give that question an “otherwise”, or read something that every job has.',
    ],
    ['what then has a value of its own', [read('key: cracked, at: position, type: bool')]],
    [
      'a key that is nowhere near',
      [read('key: bearing_temperature, at: job, type: string')],
      '8:18: “fan-bearing” has no value “bearing_temperature”. Use the key of one of its questions, facts or calculations.',
    ],
    [
      'a procedure that is nowhere near',
      [['procedure: fan-bearing', 'procedure: gearbox']],
      '6:14: There is no procedure “gearbox” to follow. Known are: fan-bearing, pump-look, pump-bearing.',
    ],
  ])('%s', (_, changes, ...said) => {
    expect(told(changes)).toEqual(said);
  });

  it.each<[string, string, ...string[]]>([
    ['is followed', 'fan-look'],
    ['by none that is known', 'fan-lok', '3:14: There is no procedure “fan-lok”. Did you mean “fan-look”?'],
    [
      'by none that is near',
      'gearbox',
      '3:14: There is no procedure “gearbox”. Those that follow another are: fan-look, pump-look.',
    ],
    [
      'by one that follows another',
      'pump-look',
      '3:14: “pump-look” follows “pump-bearing”, so no finished job of this procedure can have it. Let it follow this one, or name another.',
    ],
    [
      'by one that follows none',
      'pump-bearing',
      '3:14: “pump-bearing” follows no job, so no finished job of this procedure can have it. Let it follow this one, or name another.',
    ],
  ])('%s', (_, by, ...said) => {
    expect(
      told([['title: Fan bearing\n', `title: Fan bearing\nfollowed_by: ${by}\n`]], sound).map((t) =>
        t.replace(/^4:/, '3:'),
      ),
    ).toEqual(said);
  });
});
