/** Due list, history and calendar of invented rotors; days reckoned by hand. */
import ICAL from 'ical.js';
import { describe, expect, test } from 'vitest';
import type { Entry } from '../../src/engine/journal/entry.js';
import { State } from '../../src/engine/state/state.js';
import { calendarOf } from '../../src/life/calendar.js';
import { dueLine, dueList, dueWords, marksOf } from '../../src/life/due.js';
import { coursesOf, historyOf } from '../../src/life/history.js';
import { dueDay, lifeMarkOf } from '../../src/life/life-mark.js';
import { lifePages } from '../../src/sheet/life-pages.js';
import { pump } from '../screens/pump.js';

describe('the day of the next look', () => {
  test.each([
    // 500 h at 8 h a day are 62.5 days, rounded down to 62: 2 March and 62 days is 3 May. By a calendar.
    ['2026-03-02T16:00:00Z', 500, 8, '2026-05-03'],
    ['2026-03-02T16:00:00Z', 500, 24, '2026-03-22'],
    // 2028 is a leap year.
    ['2028-02-28T08:00:00Z', 24, 24, '2028-02-29'],
    ['2026-03-02T16:00:00Z', 4, 24, '2026-03-02'],
  ])('from %s, %i h at %i h a day', (at, hours, aDay, day) => {
    expect(dueDay(at, hours, aDay)).toBe(day);
  });
  test.each([
    [0, 8],
    [500, 0],
    [500, 25],
    [-1, 8],
    [Number.NaN, 8],
    [500, Number.NaN],
  ])('%s h at %s h a day has none', (hours, aDay) => {
    expect(dueDay('2026-03-02T16:00:00Z', hours, aDay)).toBeUndefined();
  });
});

const head = (id: string, rotor: string, changed: string, more: Record<string, string | number> = {}) => ({
  id,
  changed,
  summary: { finished: true, rotor, machine: 'Fan', did: 'Regreased', hours: 500, ...more },
});

test('the latest job of each rotor decides; what is most overdue stands first', () => {
  const heads = [
    head('j1', 'R 1', '2026-01-05T10:00:00Z', { due: '2026-02-01' }),
    head('j2', 'r1', '2026-03-05T10:00:00Z', { due: '2026-06-01' }),
    head('j3', 'R2', '2026-01-05T10:00:00Z', { due: '2026-03-01' }),
    head('j4', 'R3', '2026-01-05T10:00:00Z', { due: '2026-03-12' }),
    head('j5', 'R4', '2026-01-05T10:00:00Z'),
    head('j6', 'R5', '2026-01-05T10:00:00Z', { due: '2026-02-20' }),
    { ...head('j7', 'R6', '2026-01-05T10:00:00Z', { due: '2026-01-20' }), practice: 'quiet-one' },
    { id: 'j8', changed: '2026-01-05T10:00:00Z', summary: { finished: false } },
    head('j9', 'R7', '2026-01-05T10:00:00Z', { due: '2026-04-10' }),
  ];
  const list = dueList(marksOf(heads), '2026-03-10');
  expect(list.map((d) => [d.rotor, d.when, d.days])).toEqual([
    ['R5', 'overdue', -18],
    ['R2', 'overdue', -9],
    ['R3', 'this week', 2],
    ['R7', 'this month', 31],
    ['r1', 'later', 83],
    ['R4', 'by hours', undefined],
  ]);
  expect(dueLine(list)).toBe('2 overdue, 1 this week, 1 this month');
  expect(dueWords(list[0]!)).toBe('R5 (Fan): by 2026-02-20, 18 days late (500 h of running since 2026-01-05)');
});

test.each([
  ['2026-03-10', 'this week', 0],
  ['2026-03-17', 'this week', 7],
  ['2026-03-18', 'this month', 8],
  ['2026-04-10', 'this month', 31],
  ['2026-04-11', 'later', 32],
  ['2026-03-09', 'overdue', -1],
])('due on %s is %s', (due, when, days) => {
  expect(dueList(marksOf([head('j', 'R', '2026-01-05T10:00:00Z', { due })]), '2026-03-10')[0]).toMatchObject({
    when,
    days,
  });
});

test('a telephone can read the calendar (read by another library)', () => {
  const evil = 'R2;\r\nDTEND:1\u001b[31m, "x"';
  const list = dueList(
    marksOf([
      head('j1', 'R1', '2026-01-05T10:00:00Z', { due: '2026-05-03' }),
      head('j2', evil, '2026-01-05T10:00:00Z', { due: '2026-05-04' }),
      head('j3', 'R3', '2026-01-05T10:00:00Z'),
    ]),
    '2026-03-10',
  );
  const text = calendarOf(list, Date.parse('2026-03-10T09:00:00Z'));
  const calendar = new ICAL.Component(ICAL.parse(text));
  const events = calendar.getAllSubcomponents('vevent').map((e) => new ICAL.Event(e));
  expect(events.map((e) => [e.startDate.toString(), e.startDate.isDate])).toEqual([
    ['2026-05-03', true],
    ['2026-05-04', true],
  ]);
  expect(events[0]?.summary).toBe('Look at rotor R1, Fan');
  expect(events[0]?.uid).toBe('j1-next-look@rotorside');
  expect(text).not.toContain('\u001b');
  for (const line of text.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
  expect(new ICAL.Component(ICAL.parse(calendarOf([], 0))).getAllSubcomponents('vevent')).toEqual([]);
});

const life = {
  rotor: 'serial',
  machine: 'machine',
  did: 'Oiled',
  hours: 'hours',
  a_day: 'a_day',
  trend: [{ key: 'heat', label: 'Heat' }],
};
const model = pump(
  [
    {
      id: 'what',
      phase: 'work',
      at: 'job',
      title: 'What',
      do: 'Say what it is.',
      why: 'It is a test.',
      ask: [
        { key: 'serial', kind: 'text', label: 'Serial' },
        { key: 'machine', kind: 'text', label: 'Machine' },
        { key: 'hours', kind: 'number', label: 'Hours', limits: [1, 9999] },
        { key: 'a_day', kind: 'number', label: 'Hours a day', limits: [0.1, 24], optional: true },
      ],
    },
    {
      id: 'heat',
      phase: 'work',
      at: 'valve',
      title: 'Heat',
      do: 'Measure it.',
      why: 'It is a test.',
      ask: [{ key: 'heat', kind: 'number', label: 'Heat', limits: [0, 200], plus_minus: 1 }],
    },
  ],
  { life },
);

function done(at: string, a: number, b: number, aDay: number | '' = 8): State {
  const step = (place: string, key: string, value: number | string) => ({
    kind: 'answer',
    step: key === 'heat' ? 'heat' : 'what',
    place,
    key,
    value,
    ...(key === 'heat' ? { plusMinus: 1 } : {}),
  });
  const all = [
    { kind: 'job', name: `Oiled ${at}`, procedure: 'pump', version: '1.0.0', hash: 'hash' },
    step('job', 'serial', 'P 7'),
    step('job', 'machine', 'Press'),
    step('job', 'hours', 400),
    step('job', 'a_day', aDay),
    step('a', 'heat', a),
    step('b', 'heat', b),
  ];
  const entries = all.map((e, i) => ({ ...e, by: 'AP', seq: i + 1, at: `${at}T08:00:00.000Z` })) as Entry[];
  return new State(model, entries, Date.parse(`${at}T08:00:00Z`));
}

test('a finished job says what it is in the life of its rotor', () => {
  // 400 h at 8 h a day: 50 days after 2 March 2026 is 21 April. By a calendar.
  expect(lifeMarkOf(done('2026-03-02', 40, 41))).toEqual({
    rotor: 'P 7',
    machine: 'Press',
    did: 'Oiled',
    at: '2026-03-02T08:00:00.000Z',
    hours: 400,
    due: '2026-04-21',
  });
  expect(lifeMarkOf(done('2026-03-02', 40, 41, ''))).not.toHaveProperty('due');
});

test('over four years each bearing is held against itself, and what moved more than its doubt is marked', () => {
  const jobs = [
    { job: 'j3', state: done('2029-03-02', 52, 41.5) },
    { job: 'j1', state: done('2026-03-02', 40, 41) },
    { job: 'j2', state: done('2027-03-02', 41, 41) },
  ];
  const events = historyOf(jobs);
  expect(events.map((e) => e.job)).toEqual(['j1', 'j2', 'j3']);
  const moved = (i: number, place: string) =>
    coursesOf(events).find((c) => c.key === 'heat' && c.place === place)?.points[i]?.moved;
  expect([moved(0, 'a'), moved(0, 'b')]).toEqual([undefined, undefined]);
  // Half widths 1 and 1: the doubt of a difference is the root of 2, 1.41.
  const doubt = expect.closeTo(Math.SQRT2, 6);
  expect(moved(1, 'a')).toEqual({ by: 1, doubt, beyondDoubt: false });
  expect(moved(2, 'a')).toEqual({ by: 12, doubt, beyondDoubt: true });
  expect(moved(2, 'b')).toEqual({ by: 0.5, doubt, beyondDoubt: false });
  for (const ascii of [false, true])
    for (const width of [60, 80, 120]) {
      const lines = lifePages('P 7', events)[0]!
        .lines(width, ascii)
        .map((l) => l.map((s) => s.text).join(''));
      expect(lines[0]).toBe('Rotor P 7, Press');
      expect(lines.join(' ').match(/\bmoved\b/g)).toHaveLength(1);
      for (const line of lines) expect([...line].length).toBeLessThanOrEqual(width);
      if (ascii) expect(lines.slice(8).filter((l) => /^[ -~]*$/.test(l)).length).toBeGreaterThan(5);
    }
});
