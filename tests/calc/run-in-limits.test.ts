/** Limits of the run-in: when the next reading is due, what may come unread, and what is said at each limit. By hand. */
import { describe, expect, it } from 'vitest';
import type { Curve } from '../../src/calc/run-in-curve.js';
import { coming, dueAfterChange, dueHere } from '../../src/calc/run-in-due.js';
import { headingWords, type Plan, type Reading, type Rules } from '../../src/calc/run-in-said.js';
import { Unread } from '../../src/calc/run-in-unread.js';
import { holds, refuses } from './limits.js';
import { calc } from './support.js';

const rules: Rules = {
  leastStage: 15,
  settleWindow: 10,
  settleSpan: 1,
  equilibrium: 2,
  leastLast: 30,
  coolMargin: 5,
  nearLimit: 5,
  longestHiss: 30,
  apartWatch: 8,
  apartStop: 15,
  longestBlocked: 60,
  mostBackOffs: 2,
  longestGap: 15,
  rapidRise: 15,
  rapidTime: 5,
  stageRise: 25,
};
const plan: Plan = { stages: [1000, 2000], upTo: 2, limit: 70, room: 20, rules };

describe('CP: due after a change of speed', () => {
  // 0.6 x rise over what is left to the limit: 0.6 x 20 / 15 = 0.8; / 24 = 0.5; / 48 = 0.25.
  it.each([
    [55, 40, 3],
    [55.1, 40, 2],
    [46, 40, 5],
    [46.1, 40, 3],
    [22, 40, 15],
    [21.9, 40, 15],
    [22.1, 40, 5],
    [80, 40, 2],
    [69.95, 20.1, 3],
  ])('at %s °C, heading for %s: %s min', (temp, heading, minutes) => {
    expect(dueAfterChange(plan, temp, heading, false, 4)).toBe(minutes);
  });
  it('5 min at the first two changes at most, 2 where the bearing was odd', () => {
    expect([2, 3, 4].map((next) => dueAfterChange(plan, 21, 22, false, next))).toEqual([5, 5, 15]);
    expect(dueAfterChange(plan, 55, 40, false, 2)).toBe(3);
    expect(dueAfterChange(plan, 21, 22, true, 4)).toBe(2);
  });
});

describe('CP: due at a steady speed', () => {
  interface Fake {
    since?: number;
    mean?: number;
    soon?: (minutes: number) => { mean: number; sd: number };
    rate?: { mean: number; sd: number };
    slow?: number | undefined;
    gap?: number;
  }
  const curve = (fake: Fake): Curve =>
    ({
      since: fake.since ?? 60,
      usualGap: fake.gap ?? 5,
      heading: () => ({ mean: fake.mean ?? 20, sd: 0 }),
      soon: fake.soon ?? (() => ({ mean: 30, sd: 0 })),
      rate: () => fake.rate ?? { mean: 0, sd: 0 },
      timeConstant: () => ('slow' in fake ? fake.slow && { mean: fake.slow, sd: 0 } : { mean: 60, sd: 0 }),
    }) as unknown as Curve;
  const due = (fake: Fake, isLast = false, spike?: number, sentBack = false): number =>
    dueHere(plan, curve(fake), isLast, { spike, sentBack });
  it('when the least time is up, 15 min at most, then every 5', () => {
    expect([0, 5, 14.4, 14.5, 15, 40].map((since) => due({ since }))).toEqual([15, 10, 1, 5, 5, 5]);
    expect([0, 15, 20, 29.4].map((since) => due({ since }, true))).toEqual([15, 15, 10, 1]);
  });
  it('at the last stage when the slope has fallen: 60 min x ln(slope over 2 K an hour), 3 to 15', () => {
    // 2 K an hour is 1/30 K/min. ln(1.1) x 60 = 5.7; ln(1.2) x 60 = 10.9; ln(1.3) x 60 = 15.7.
    const last = (mean: number, sd = 0, slow: number | undefined = 60) =>
      due({ since: 40, rate: { mean, sd }, slow }, true);
    expect([1, 1.05, 1.1, 1.2, 1.3].map((x) => last(x / 30))).toEqual([3, 3, 6, 11, 15]);
    expect(last(-1.2 / 30)).toBe(11);
    expect(last(1.1 / 30, 0.2 / 30)).toBe(11);
    expect(last(1.2 / 30, 0, 30)).toBe(5);
    expect(due({ since: 40, rate: { mean: 1.2 / 30, sd: 0 }, slow: undefined }, true)).toBe(11);
    expect(last(0.5 / 30)).toBe(3);
  });
  it('sooner where it may pass the limit before: what comes, twice its scatter, and a shock', () => {
    const safe = (since: number, now: number, spike?: number, sd = 0) =>
      due({ since, mean: 40, soon: () => ({ mean: now, sd }) }, false, spike);
    // Heading for 20 over the room. Up to 15 min a lump of 1.3 x 20 = 26 may come and pass the limit by 4 K:
    // 15 min: 26 x (1 - e^(-15/3.5)) = 25.64; 10 min: 24.51; 8: 23.36; 5: 19.77; 3: 14.97; 2: 11.32.
    expect([48.3, 48.4, 49.4, 49.5, 50.6, 50.7, 54.2, 54.3, 59.0, 59.1, 62.6, 62.7].map((t) => safe(0, t))).toEqual([
      15, 10, 10, 8, 8, 5, 5, 3, 3, 2, 2, 1,
    ]);
    // Then up to 30 min 0.8 x 20 = 16: 5 min: 16 x (1 - e^(-5/5)) = 10.11; 3: 7.22; 2: 5.28.
    expect([59.8, 59.9, 62.7, 62.8, 64.7, 64.8].map((t) => safe(15.1, t))).toEqual([5, 3, 3, 2, 2, 1]);
    // Where it spiked by 9 K 1 x 20: 5 min: 20 x (1 - e^(-5/4)) = 14.27; 3: 10.55; by 10 K 26: 3 min 14.97, 2 min 11.32.
    expect([55.7, 55.8, 59.4, 59.5].map((t) => safe(15.1, t, 9))).toEqual([5, 3, 3, 2]);
    expect([55.0, 55.1, 58.6, 58.7].map((t) => safe(15.1, t, 10))).toEqual([3, 2, 2, 1]);
    // A spike of 40 K may come again half as high again: 60 x 0.4353 = 26.12 in 2 min.
    expect([43.8, 43.9].map((t) => safe(15.1, t, 40))).toEqual([2, 1]);
    // Twice the scatter: 48.3 - 2 x 1.
    expect([46.3, 46.4].map((t) => safe(0, t, undefined, 1))).toEqual([15, 10]);
    // From 30 min on 10 x (1 - e^(-5/20)) = 2.21, whether it spiked or not; just before 10.11.
    expect([67.7, 67.8].map((t) => safe(30, t))).toEqual([5, 3]);
    expect([59.8, 59.9].map((t) => safe(29.9, t))).toEqual([5, 3]);
    expect([67.7, 67.8].map((t) => safe(30, t, 10))).toEqual([5, 3]);
    // Up to 30 min: within 5 where it may be heading over the limit, within 3 where it was sent back before.
    expect([70, 70.1].map((mean) => due({ since: 1, mean, soon: () => ({ mean: 0, sd: 0 }) }))).toEqual([14, 5]);
    expect([29.9, 30].map((since) => due({ since }, false, undefined, true))).toEqual([3, 5]);
    // A heading below the room is no shock.
    expect(due({ since: 0, mean: 10, soon: () => ({ mean: 70, sd: 0 }) })).toBe(15);
    expect(due({ since: 0, mean: 10, soon: () => ({ mean: 70.01, sd: 0 }) })).toBe(1);
  });
  it('the hottest on the way: half-way or at its end', () => {
    const at = (minutes: number, of: (m: number) => number) =>
      coming(curve({ soon: (m) => ({ mean: of(m), sd: m }) }), minutes);
    expect(at(6, (m) => m)).toEqual({ mean: 6, sd: 6 });
    expect(at(6, (m) => -m)).toEqual({ mean: -3, sd: 3 });
  });
});

describe('CP: what comes unread', () => {
  const reading = (stage: number, minutes: number, temp: number): Reading => ({
    stage,
    minutes,
    temp,
    sound: 'smooth',
  });
  const seen = (...readings: [stage: number, minutes: number, temp: number, expected?: number, late?: number][]) => {
    const unread = new Unread();
    for (const [stage, minutes, temp, expected = 100, late = 0] of readings)
      unread.add(reading(stage, minutes, temp), expected, late);
    return unread;
  };
  it('counts the readings at this stage', () => {
    expect(seen([1, 0, 20], [1, 5, 20], [1, 9, 20]).here).toBe(3);
    expect(seen([1, 0, 20], [1, 5, 20], [2, 9, 20]).here).toBe(1);
    expect(seen([1, 0, 20], [0, 5, 20], [0, 9, 20], [0, 10, 20]).here).toBe(3);
  });
  it('a spike is what it fell from its peak, or stood over what was expected', () => {
    expect(seen([1, 0, 40], [1, 0, 44], [1, 0, 39]).spike).toBe(5);
    expect(seen([1, 0, 40], [1, 0, 44], [1, 0, 39]).spiky).toBe(true);
    expect(seen([1, 0, 40], [1, 0, 44], [1, 0, 39.1]).spiky).toBe(false);
    expect(seen([1, 0, 40, 34]).spike).toBe(6);
    expect(seen([1, 0, 40, 41]).spike).toBe(0);
    // Another stage begins a peak of its own.
    expect(seen([1, 0, 50], [2, 0, 40]).spike).toBe(0);
    expect(seen([0, 0, 50, 30]).spike).toBe(0);
  });
  it('it fades by half in an hour of running at the stage', () => {
    expect(seen([1, 0, 40, 32], [1, 60, 20, 100]).spike).toBe(20);
    expect(seen([1, 0, 40, 32], [1, 60, 40, 100]).spike).toBe(4);
    expect(seen([1, 0, 40, 32], [1, 30, 40, 100]).spike).toBeCloseTo(5.657, 3);
    expect(seen([1, 0, 40, 32], [2, 60, 40, 100]).spike).toBe(8);
    expect(seen([1, 0, 40, 32], [0, 60, 40, 100], [0, 120, 40, 100]).spike).toBe(8);
    expect(seen([1, 0, 40, 32], [1, 60, 40, 100]).spiky).toBe(true);
  });
  it('late readings count until three came in time', () => {
    expect(seen([1, 0, 20, 100, 2]).late).toBe(false);
    expect(seen([1, 0, 20, 100, 2.1]).late).toBe(true);
    const then = (more: number) =>
      seen([1, 0, 20, 100, 3], ...Array.from({ length: more }, (): [number, number, number] => [1, 1, 20])).late;
    expect([0, 1, 2, 3].map(then)).toEqual([true, true, true, false]);
    expect(seen([1, 0, 20, 100, 3], [0, 1, 20], [0, 2, 20], [0, 3, 20]).late).toBe(true);
    expect(seen([0, 0, 20, 100, 3]).late).toBe(false);
  });
});

it('CP: told half its scatter lower, and as wide as it, 1 K at the least', () => {
  expect(headingWords({ mean: 44.4, sd: 0 })).toBe('44 ± 1 °C');
  // 45 - 0.7 = 44.3.
  expect(headingWords({ mean: 45, sd: 1.4 })).toBe('44 ± 1 °C');
  expect(headingWords({ mean: 48, sd: 6 })).toBe('45 ± 6 °C');
  expect(headingWords({ mean: 200.25, sd: 0.5 })).toBe('200 ± 1 °C');
  expect(headingWords({ mean: 200.3, sd: 0.5 })).toBe('far over 200 °C');
});

describe('P and CP: run-in', () => {
  const mind = 'Stop at once';
  it('ten equal stages', () => {
    const { results } = calc('run-in speed=12000+-120 ndm=600000');
    expect(results.stages?.value).toEqual([1200, 2400, 3600, 4800, 6000, 7200, 8400, 9600, 10_800, 12_000]);
    expect(((results.stages?.plusMinus ?? []) as unknown as number[]).map((each) => Math.round(each))).toEqual([
      12, 24, 36, 48, 60, 72, 84, 96, 108, 120,
    ]);
    expect(calc('run-in speed=12000').results.stages).not.toHaveProperty('plusMinus');
    expect(calc('run-in speed=12000').sources).toHaveLength(3);
  });
  holds([
    [
      'run-in speed=12000 ndm=500001 ambient=30',
      {
        minimumMinutes: 150,
        longestMinutes: 600,
        stageMinutes: 15,
        limit: 70,
        idealLow: 35,
        idealHigh: 40,
        cooled: 35,
        need: 'yes: n dm is above 500 000',
        burst: '30 s at speed, then at least 2.5 min rest, until it settles',
      },
      [mind],
      ['10 stages of 12000 / 10 = 1200 rpm', 'at least 10 x 15 min = 150 min, up to 10 h where it settles slowly'],
    ],
    [
      'run-in speed=12000 ndm=500000 ambient=30.1',
      { need: 'not by n dm alone; do it all the same after regreasing by hand, and always with preload' },
      [mind, 'A room of 30.1 °C leaves little margin'],
    ],
    ['run-in speed=12000', { need: 'yes: n dm was not given, so it is taken as fast', cooled: undefined }, [mind]],
  ]);
});

describe('CP: run-in-step, at its limits', () => {
  const start = 'run-in-step stages=1000,2000 ambient=20';
  const of = (stages: string, minutes: string, temps: string, more = ''): string =>
    `${start} atStage=${stages} minutes=${minutes} temps=${temps} sounds=${stages
      .split(',')
      .map(() => 'smooth')
      .join()}${more}`;
  holds([
    [
      start,
      {
        decision: 'hold',
        stage: 1,
        speed: 1000,
        outlook: 'nothing to tell yet',
        heading: undefined,
        ahead: false,
        aheadCount: 0,
      },
      [],
    ],
    [`${start} limit=71 documented=yes`, { decision: 'hold' }, []],
    ['run-in-step stages=1000,2000 ambient=50 limit=60', { decision: 'hold' }, []],
    [of('1', '0', '15'), { coldCount: 0 }, []],
    [of('1', '0', '14.9'), { coldCount: 1, ahead: false }, ['14.9 °C is colder than the room']],
    [of('1,1', '0,5', '14.9,20'), { coldCount: 1 }, []],
    // The first reading is followed by one 15 min later; 5 min late is not yet said.
    [of('1,1', '0,20', '20,20'), { late: 5 }, []],
    [of('1,1', '0,20.1', '20,20'), { late: 5.1 }, ['came 5.1 min after it was due']],
    [of('2', '0', '20'), { decision: 'back-off', stage: 1, ahead: true, aheadCount: 1 }, []],
    [of('2,1', '0,5', '20,20'), { ahead: false, aheadCount: 1 }, []],
    [of('1', '0', '69.9'), { standing: false }, []],
    [of('1', '0', '70'), { decision: 'stop', speed: 0, standing: true }, []],
    [of('0,1', '0,3', '20,21'), {}, []],
    [of('1,1,1', '0,8,16', '20,20,20'), { decision: 'next', stage: 2, settled: true }],
    [of('1,1,1', '0,8,16', '20,20,20', ' upTo=1'), { decision: 'hold', stage: 1, settled: false }],
    [of('1,1,1', '0,8,16', '20,20,20', ' upTo=9'), { decision: 'next', stage: 2, speed: 2000 }],
    // What a thermometer can be asked for, -40 to 400 °C, also where it runs away far beyond.
    [of('1', '0', '-40'), { leastExpected: -40, outlook: 'nothing to tell yet' }],
    [of('1', '0', '400'), { mostExpected: 400 }],
    [of('1,1,1,1', '0,5,10,15', '20,200,300,390'), { leastExpected: 400, mostExpected: 400, headingTop: [400, 400] }],
    [of('1,1,1,1', '0,5,10,15', '50,10,-20,-40'), { leastExpected: -40 }],
  ]);
  refuses([
    [`${start} limit=71`, 'limit', 'from 30 to 70 °C'],
    ['run-in-step stages=1000,2000 ambient=50 limit=59.9', 'ambient', 'too near the limit of 59.9 °C'],
    [`${start} atStage=1,1 minutes=0 temps=20,20 sounds=smooth,smooth`, 'minutes', 'There are 1 times but 2 stages'],
    [`${start} atStage=1 minutes=0 temps=20,20 sounds=smooth`, 'temps', 'There are 2 temperatures but 1 stages'],
    [`${start} atStage=1 minutes=0 temps=20`, 'sounds', 'There are 0 sounds but 1 stages'],
    [of('1', '0', '20', ' other=20,20'), 'other', 'There are 2 temperatures of the other bearing'],
    [of('3', '0', '20'), 'atStage', "There are 2 stages: a reading can't be at stage 3"],
    [of('1,1', '5,4', '20,20'), 'minutes', 'Reading 2 is earlier than the one before it'],
  ]);
  it('expects 1.5 K to each side of what has stood at 25 °C for hours', () => {
    const hours = (what: (i: number) => number) => Array.from({ length: 37 }, (_, i) => what(i)).join();
    const { results } = calc(
      of(
        hours(() => 1),
        hours((i) => 5 * i),
        hours(() => 25),
      ),
    );
    const [least, most] = [results.leastExpected, results.mostExpected].map((each) => Number(each?.value));
    expect([least! + 1.5, most! - 1.5].map((each) => each.toFixed(1))).toEqual(['25.0', '25.0']);
    expect(most! - least!).toBeCloseTo(3, 9);
  });
  it('tells of the last five readings', () => {
    const { worked } = calc(of('1,1,1,1,1,0', '0,1,2,3,4,5', '20,21,22,23,24,25')) as unknown as { worked: string[] };
    expect(worked.slice(0, 5)).toEqual([
      '1 min: stage 1, 1000 rpm, 21 °C, smooth',
      '2 min: stage 1, 1000 rpm, 22 °C, smooth',
      '3 min: stage 1, 1000 rpm, 23 °C, smooth',
      '4 min: stage 1, 1000 rpm, 24 °C, smooth',
      '5 min: stage 0, 0 rpm, 25 °C, smooth',
    ]);
    expect(worked[5]).toMatch(/^time constant about \d+ min$/);
    expect(worked[6]).toMatch(/^-> hold: it stands still: go on at stage 1, 1000 rpm/);
    expect(worked).toHaveLength(7);
  });
});
