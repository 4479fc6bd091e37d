/** What may stand in a journal: each kind of entry, each of its fields, each limit. Written out by hand. */
import { describe, expect, it } from 'vitest';
import type { Draft } from '../../src/engine/journal/entry.js';
import { entryFault, isKnownKind, journalFault, toEntries } from '../../src/store/check-entry.js';

const at = '2031-05-04T09:30:00.000Z';
const step = { step: 's', place: 'a' };
const hash = 'ab'.repeat(32);
const figure = { key: 'k', label: 'K', place: 'a', where: 'Left', unit: 'mm', text: '1 mm', value: 1 };
const event = { job: 'j', name: 'J', did: 'Regreased', machine: 'M', at, found: [], figures: [] };

/** Of each kind the least that it holds, and what it may hold beside. */
const kinds: Record<string, { must: Record<string, unknown>; may?: Record<string, unknown> }> = {
  job: {
    must: { name: 'n', procedure: 'p', version: '1', hash: 'h' },
    may: { practice: 'r', apprentice: 'AP', mentor: '', earlier: 'e', earlierValues: { 'k@a': 1 }, life: [event] },
  },
  operator: { must: { initials: 'AB' } },
  pace: { must: { pace: 'brisk' } },
  caution: { must: step, may: { known: true, also: ['b'] } },
  answer: {
    must: { ...step, key: 'k', value: 1 },
    may: { typed: '1', plusMinus: 0, way: 'w', figures: { k: 1 }, from: { job: 'j', name: 'n', at } },
  },
  done: { must: step, may: { figures: {} } },
  sign: { must: { ...step, role: 'mentor', initials: 'KR' }, may: { own: 'x' } },
  refuse: { must: { ...step, reason: 'r', initials: 'KR' } },
  overrule: { must: { ...step, gate: 'g', reason: 'r', initials: 'KR' } },
  correct: { must: { ...step, of: 1, key: 'k', value: 'x', reason: 'r' }, may: { typed: '', plusMinus: 2, way: 'w' } },
  settle: { must: { ...step, reason: 'r' }, may: { figures: { k: [1, 2] } } },
  undo: { must: { of: 1 } },
  raise: { must: { branch: 'b', place: 'a' }, may: { text: '' } },
  predict: { must: { ...step, key: 'k', value: false }, may: { typed: 'no' } },
  note: { must: { place: 'a', text: 't' } },
  handover: { must: { text: 't' } },
  name: { must: { of: 'AB', name: 'A. B.' } },
  picture: {
    must: { ...step, file: `${hash}.jpg`, sha256: hash, bytes: 0, name: 'x.jpg' },
    may: { shows: 'seal' },
  },
  procedure: { must: { version: '1', hash: 'h' } },
};
const entry = (kind: string, more: object = {}, seq = 2): Record<string, unknown> => ({
  seq,
  at,
  by: 'AB',
  kind,
  ...kinds[kind]!.must,
  ...more,
});
const fault = (kind: string, more: object): string | undefined => entryFault(entry(kind, more), 2);

describe('an entry', () => {
  it.each(Object.entries(kinds))(
    '%s: right with the least and with all, wrong without or with a wrong field',
    (kind, { must, may }) => {
      expect(fault(kind, {})).toBeUndefined();
      expect(fault(kind, may ?? {})).toBeUndefined();
      for (const key of [...Object.keys(must), ...Object.keys(may ?? {})])
        expect(fault(kind, { [key]: { no: ['such', {}] } }), key).toMatch(new RegExp(`^${kind}, ${key}: expected `));
      for (const key of Object.keys(must)) expect(fault(kind, { [key]: undefined }), key).toMatch(`${kind}, ${key}: `);
      for (const key of Object.keys(may ?? {})) expect(fault(kind, { [key]: null }), key).toMatch(`${kind}, ${key}: `);
    },
  );
  it('of a kind that is not known, or none at all', () => {
    expect(Object.keys(kinds).every(isKnownKind)).toBe(true);
    for (const no of ['toString', 'nothing', 5, undefined]) expect(isKnownKind(no)).toBe(false);
    expect(entryFault({ ...entry('note'), kind: 'n'.repeat(50) }, 2)).toMatch(
      /^kind: 'n{20,40}[^n]{1,9} is not known here$/,
    );
    for (const no of [null, [], 'x', 5]) expect(entryFault(no, 1)).toBe('an entry should be a set of named fields');
  });
  it('has the next number, a time that is one, and initials', () => {
    expect(entryFault(entry('note', {}, 3), 2)).toBe('seq: expected 2, found 3');
    for (const no of ['', '2031-05-04', '2031-13-04T09:30:00Z', `${at}x`, `x${at}`, '2031-05-04T09:30:00.1234Z', 5])
      expect(fault('note', { at: no }), String(no)).toBe('at: expected a time such as 2031-05-04T09:30:00.000Z');
    for (const yes of ['2031-05-04T09:30:00Z', '2031-05-04T09:30:00.1Z'])
      expect(fault('note', { at: yes })).toBeUndefined();
    expect(fault('note', { by: 5 })).toBe('by: expected a text of at most 300 characters');
    expect(fault('note', { by: '' })).toBeUndefined();
    expect(fault('note', { joined: true })).toBeUndefined();
    expect(fault('note', { joined: false })).toBe('joined: expected true');
  });
  it('the first is the job, and no other names one to come', () => {
    expect(entryFault(entry('job', {}, 1), 1)).toBeUndefined();
    expect(entryFault(entry('note', {}, 1), 1)).toBe("kind: the first entry should be 'job'");
    expect(fault('job', {})).toBeUndefined();
    expect(fault('undo', { of: 1 })).toBeUndefined();
    expect(fault('undo', { of: 2 })).toBe('of: expected an entry before 2');
    expect(fault('correct', { of: 3 })).toBe('of: expected an entry before 2');
  });

  const x = (length: number): string => 'x'.repeat(length);
  const numbers = (length: number): number[] => Array.from({ length }, () => 1);
  const named = (length: number, value: unknown = 1): Record<string, unknown> =>
    Object.fromEntries(Array.from({ length }, (_, i) => [`k${i}@a`, value]));
  const life = (more: object) => ({ life: [{ ...event, ...more }] });
  const limits: [kind: string, right: object, wrong: object][] = [
    ['note', { place: x(300) }, { place: x(301) }],
    ['note', { place: 'x' }, { place: '' }],
    ['note', { text: x(20_000) }, { text: x(20_001) }],
    ['note', { by: x(300) }, { by: x(301) }],
    ['operator', { initials: x(300) }, { initials: x(301) }],
    ['pace', { pace: 'learning' }, { pace: 'quick' }],
    ['sign', { role: 'self' }, { role: 'other' }],
    ['caution', { known: true }, { known: false }],
    ['caution', { also: Array.from({ length: 100 }, () => 'a') }, { also: Array.from({ length: 101 }, () => 'a') }],
    ['caution', { also: [x(300)] }, { also: [x(301)] }],
    ['caution', { also: ['a', 'b'] }, { also: ['a', x(301)] }],
    ['undo', { of: 1 }, { of: 0 }],
    ['undo', { of: 1 }, { of: 1.5 }],
    ['undo', { of: 1 }, { of: '1' }],
    ['answer', { plusMinus: 0 }, { plusMinus: -0.1 }],
    ['answer', { plusMinus: 5 }, { plusMinus: Number.POSITIVE_INFINITY }],
    ['answer', { value: -1.5 }, { value: Number.NaN }],
    ['answer', { value: true }, { value: null }],
    ['answer', { value: x(20_000) }, { value: x(20_001) }],
    ['answer', { value: [] }, { value: {} }],
    ['answer', { value: numbers(10_000) }, { value: numbers(10_001) }],
    ['answer', { value: [1, 2] }, { value: [1, 'a'] }],
    ['answer', { value: ['a', 'b'] }, { value: ['a', true] }],
    ['answer', { value: [x(20_000)] }, { value: [x(20_001)] }],
    ['answer', { value: [1] }, { value: [Number.NaN] }],
    ['answer', { figures: named(1000) }, { figures: named(1001) }],
    ['answer', { figures: { a: [1], b: 'x', c: true } }, { figures: { a: [1], b: null } }],
    ['answer', { figures: {} }, { figures: [] }],
    ['answer', { from: { job: 'j', name: '', at: '' } }, { from: { job: 'j', name: '' } }],
    ['answer', { from: { job: x(300), name: 'n', at } }, { from: { job: x(301), name: 'n', at } }],
    ['answer', { from: { job: 'j', name: 'n', at } }, { from: { job: 'j', name: 'n', at, more: 1 } }],
    ['job', { earlierValues: named(500) }, { earlierValues: named(501) }],
    ['job', { earlierValues: { 'k@a': numbers(10_000) } }, { earlierValues: { 'k@a': numbers(10_001) } }],
    ['job', { earlierValues: { 'k@a': [true, false] } }, { earlierValues: { 'k@a': [true, 1] } }],
    ['job', { earlierValues: { 'k@a': 'x' } }, { earlierValues: { 'k@a': null } }],
    ['job', { earlierValues: { [`${x(298)}@a`]: 1 } }, { earlierValues: { [`${x(299)}@a`]: 1 } }],
    ['job', { earlierValues: { 'kk@aa': 1 } }, { earlierValues: { k: 1 } }],
    ['job', { earlierValues: { 'k@a': 1 } }, { earlierValues: { '@a': 1 } }],
    ['job', { earlierValues: { 'k@a': 1 } }, { earlierValues: { 'k@': 1 } }],
    ['job', { earlierValues: { 'k@a': 1 } }, { earlierValues: { 'k@a@b': 1 } }],
    ['job', { earlierValues: {} }, { earlierValues: [] }],
    ['job', { life: Array.from({ length: 60 }, () => event) }, { life: Array.from({ length: 61 }, () => event) }],
    ['job', life({ begins: true }), life({ begins: false })],
    ['job', life({ hours: 5 }), life({ hours: 'x' })],
    ['job', life({ due: 'x' }), life({ due: 5 })],
    ['job', life({ at }), life({ at: 'never' })],
    ['job', life({ at }), life({ at: undefined })],
    ['job', life({ did: x(300) }), life({ did: x(301) })],
    ['job', life({ found: [{ where: 'a', text: 'b' }] }), life({ found: [{ where: 'a' }] })],
    ['job', life({ found: [] }), life({ found: [{ where: 'a', text: 'b', more: 1 }] })],
    ['job', life({ found: [] }), life({ found: {} })],
    [
      'job',
      life({ figures: Array.from({ length: 100 }, () => figure) }),
      life({ figures: Array.from({ length: 101 }, () => figure) }),
    ],
    [
      'job',
      life({ figures: [{ ...figure, plusMinus: 1, item: 2 }] }),
      life({ figures: [{ ...figure, plusMinus: 'x' }] }),
    ],
    ['job', life({ figures: [] }), life({ figures: [{ ...figure, item: 'x' }] })],
    ['job', life({ figures: [] }), life({ figures: [{ ...figure, value: 'x' }] })],
    ['job', life({ figures: [] }), life({ figures: [null] })],
    ['job', life({}), life({ more: 1 })],
    ['picture', { file: `${hash}.png` }, { file: `${hash}.gif` }],
    ['picture', { file: `${hash}.webp` }, { file: `x${hash}.webp` }],
    ['picture', { file: `${hash}.jpg` }, { file: `${hash}.jpgx` }],
    ['picture', { file: `${hash}.jpg` }, { file: `${hash}xjpg` }],
    ['picture', { sha256: hash }, { sha256: `${hash}0` }],
    ['picture', { sha256: hash }, { sha256: hash.toUpperCase() }],
    ['picture', { sha256: hash }, { sha256: 5 }],
    ['picture', { sha256: hash }, { sha256: [hash] }],
    ['picture', { file: `${hash}.png` }, { file: [`${hash}.png`] }],
    ['picture', { bytes: 0 }, { bytes: -1 }],
  ];
  it.each(limits)('%s: its limits', (kind, right, wrong) => {
    expect(fault(kind, right)).toBeUndefined();
    expect(fault(kind, wrong)).toMatch(/: expected /);
  });
});

describe('a journal', () => {
  const first = entry('job', {}, 1);
  it('is a list of entries that are right, none missing', () => {
    expect(journalFault([first, entry('note')])).toBeUndefined();
    expect(journalFault({})).toBe('expected a list of entries');
    expect(journalFault([])).toBe('expected at least one entry');
    expect(journalFault([first, entry('note', {}, 3)])).toBe('entry 2: seq: expected 2, found 3');
  });
  it('takes drafts with their number and time, as plain data', () => {
    const note = { kind: 'note', by: 'AB', place: 'a', text: 't' } as Draft;
    const made = toEntries([note, note], 4, at);
    expect(made).toEqual([
      { ...note, seq: 5, at },
      { ...note, seq: 6, at },
    ]);
    expect(toEntries([{ ...note, text: undefined } as unknown as Draft], 4, at)).toMatch(/^note, text: expected/);
    expect(toEntries([{ kind: 'undo', by: 'AB', of: 5 }], 4, at)).toBe('of: expected an entry before 5');
  });
  it('takes no new initials that are none', () => {
    const draft = (more: object): Draft => ({ kind: 'note', by: 'AB', place: 'a', text: 't', ...more }) as Draft;
    expect(toEntries([draft({ by: '5' })], 4, at)).toMatch(/^by: .*[^.]$/);
    expect(toEntries([draft({ by: '' })], 4, at)).toMatch(/^by: /);
    expect(toEntries([{ kind: 'operator', by: 'AB', initials: ' KR' } as Draft], 4, at)).toMatch(/^initials: /);
    const job = (more: object): Draft => ({ ...kinds.job!.must, kind: 'job', by: 'AB', ...more }) as Draft;
    expect(toEntries([job({ apprentice: 'A B' })], 4, at)).toMatch(/^apprentice: /);
    expect(toEntries([job({ mentor: '?' })], 4, at)).toMatch(/^mentor: /);
    expect(toEntries([job({ mentor: 'KR', apprentice: 'AP' })], 4, at)).toHaveLength(1);
    expect(toEntries([draft({ initials: 5 })], 4, at)).toMatch(/^initials: /);
  });
});
