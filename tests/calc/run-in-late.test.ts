/**
 * What the run-in foretells and asks for, against the closed form of one heat balance, T = end + (start - end) exp(-t / tau),
 * worked by hand; and what it does where readings come late.
 */
import { describe, expect, it } from 'vitest';
import { calc } from './support.js';

type Row = readonly [stage: number, minutes: number, temp: number, sound?: string];
const stages = Array.from({ length: 10 }, (_, i) => (i + 1) * 1200).join(',');

function results(rows: readonly Row[], more = '') {
  const list = (i: 0 | 1 | 2): string => rows.map((r) => r[i]).join(',');
  return calc(
    `run-in-step stages=${stages} ambient=20 atStage=${list(0)} minutes=${list(1)} temps=${list(2)} sounds=${rows.map((r) => r[3] ?? 'smooth').join(',')}${more}`,
  ).results as unknown as Record<string, { value: unknown; plusMinus?: number }>;
}
const step = (rows: readonly Row[], more = ''): Record<string, unknown> =>
  Object.fromEntries(Object.entries(results(rows, more)).map(([key, r]) => [key, r.value]));
const saying = (rows: readonly Row[], more = ''): string[] =>
  rows.map((_, i) => String(step(rows.slice(0, i + 1), more).decision));

const approach = (stage: number, from: number, start: number, end: number, tau: number, times: number[]): Row[] =>
  times.map((t): Row => [stage, from + t, Number((end + (start - end) * Math.exp(-t / tau)).toFixed(1))]);
const every = (gap: number, minutes: number): number[] =>
  Array.from({ length: Math.floor(minutes / gap) + 1 }, (_, i) => i * gap);

describe('heading', () => {
  // From 20 to 40 degC: after one time constant 40 - 20 / e = 32.6, after two 40 - 20 / e^2 = 37.3.
  it.each([
    [20, 60],
    [45, 110],
    [90, 180],
  ])('of a ring with a time constant of %d min is 40 °C, by minute %d', (tau, minutes) => {
    const { heading } = results(approach(1, 0, 20, 40, tau, every(5, minutes)));
    expect(Math.abs(Number(heading?.value) - 40)).toBeLessThan(heading?.plusMinus ?? 0);
    expect(heading?.plusMinus).toBeLessThan(6);
  });
  it('is as sure as a thermometer, and no surer, once it stands', () => {
    const { heading } = results(approach(1, 0, 20, 40, 20, every(10, 200)));
    expect(Number(heading?.value)).toBeCloseTo(40, 0);
    expect(heading?.plusMinus).toBeGreaterThanOrEqual(1);
    expect(heading?.plusMinus).toBeLessThan(2);
  });
  it('at top speed follows from the stages: rises of 36 (k / 10)^1.4 K, so 56 °C', () => {
    // Rises by hand: 36 x 0.3^1.4 = 6.67, 0.4^1.4: 9.98, 0.5^1.4: 13.64, 0.6^1.4: 17.61.
    const ends = [21.43, 23.78, 26.67, 29.98, 33.64, 37.61];
    const rows = ends.flatMap((end, i) => approach(i + 1, 40 * i, ends[i - 1] ?? 20, end, 10, every(5, 35)));
    const { headingTop } = results(rows);
    expect(Math.abs(Number(headingTop?.value) - 56)).toBeLessThan(headingTop?.plusMinus ?? 0);
    expect(headingTop?.plusMinus).toBeLessThan(12);
  });
});

describe('the next reading', () => {
  it('is due when the stage has had its 15 minutes, where nothing can happen before', () => {
    expect(step([[1, 0, 20]]).nextReading).toBe(15);
    expect(step(approach(1, 0, 20, 22, 10, [0, 5])).nextReading).toBe(10);
  });
  it('comes sooner than the limit can: a ring that climbs 1 K a minute at 49 °C is read within 3 min', () => {
    const calm = [1, 2, 3, 4, 5].flatMap((k) => approach(k, 40 * (k - 1), 20 + k, 21 + k, 5, every(5, 35)));
    const hot: Row[] = [...calm, [6, 201, 34], [6, 206, 39], [6, 211, 44], [6, 216, 49]];
    expect(Number(step(hot).nextReading)).toBeLessThanOrEqual(3);
  });
  it('at the last stage is due when the slope will have fallen to 2 K an hour', () => {
    // tau 30, 10 K to come: 20 K/h exp(-t / 30) is 2 K/h after 30 ln 10 = 69 min. At minute 60 it is 2.7 K/h, 9 min to go.
    const nine = Array.from({ length: 9 }, (_, i) => approach(i + 1, 20 * i, 24 + 2 * i, 26 + 2 * i, 4, every(5, 15)));
    const rows = [...nine.flat(), ...approach(10, 180, 42, 52, 30, every(5, 60))];
    const { decision, nextReading } = step(rows);
    expect(decision).toBe('hold');
    expect(Math.abs(Number(nextReading) - 9)).toBeLessThanOrEqual(6);
  });
  it('is asked for within 5 min after the first changes of speed, and within 2 once it was odd', () => {
    const first = approach(1, 0, 20, 22, 5, every(5, 20));
    expect(step(first)).toMatchObject({ decision: 'next', nextReading: 5 });
    const spike: Row[] = [...first, [2, 22, 26], [2, 24, 33], [2, 26, 34]];
    const settled = approach(2, 26, 34, 24, 8, every(2, 60)).slice(1);
    const after = [...spike, ...settled];
    expect(step(after)).toMatchObject({ decision: 'next', nextReading: 2 });
    // If the other bearing holds, it stays, and then there is no hurry.
    expect(Number(step(after).stayReading)).toBeGreaterThan(2);
  });
});

/** Stages 1 and 2 settle; at 3 it leaps by 22 K in 5 min, is sent back, cools, and settles at stage 2 again. */
const sentBack: Row[] = [
  ...approach(1, 0, 20, 22, 5, every(5, 20)),
  ...approach(2, 20, 22, 25, 5, [5, 10, 15, 20]),
  [3, 45, 47],
  [0, 60, 27],
  [0, 75, 24],
];

describe('readings that come late', () => {
  it('keep a rotor that was sent back before below, until they come as due three times', () => {
    const late = [...sentBack, ...approach(2, 75, 24, 25, 5, [12, 32, 52, 72, 92])];
    expect(saying(late).slice(sentBack.length)).not.toContain('next');
    expect(step(late).why).toMatch(/unread: it was sent back before\. Stay beside it: read when due three times/);
    const rows = [...sentBack, ...approach(2, 75, 24, 25, 5, [10])];
    // Whoever comes when the guide asks goes on.
    for (let n = 0; n < 8 && step(rows).decision !== 'next'; n++)
      rows.push([2, rows.at(-1)![1] + Number(step(rows).nextReading), 25]);
    expect(step(rows)).toMatchObject({ decision: 'next', stage: 3 });
  });
  it('see friction that feeds on itself at its second steeper slope, where it grew before', () => {
    // Rises of 1, 2.5, 6, 15 K at stages 2 to 5: with more than the cube of speed. Then 0.5, then 1 K a minute.
    const rows: Row[] = [
      ...approach(1, 0, 20, 20.5, 5, every(5, 20)),
      ...approach(2, 20, 20.5, 21, 5, [12, 24]),
      ...approach(3, 44, 21, 22.5, 5, [12, 24]),
      ...approach(4, 68, 22.5, 26, 5, [12, 24]),
      ...approach(5, 92, 26, 35, 8, [12, 24, 36]),
      [6, 141, 43],
      [6, 153, 58],
    ];
    expect(step(rows)).toMatchObject({ decision: 'back-off', standing: true });
    expect(saying(rows.slice(0, -1))).not.toContain('back-off');
  });
  it('count by the speed that is set: who stays at the old one has the time that it has', () => {
    const rows: Row[] = [...sentBack, ...approach(2, 75, 24, 25, 5, [10, 25, 30, 35, 40])];
    expect(step(rows)).toMatchObject({ decision: 'next', nextReading: 2, stayReading: 5 });
    expect(step([...rows, [2, 120, 25]]).late).toBe(0);
    expect(step([...rows, [3, 120, 26]]).late).toBe(3);
  });
});

describe('heat that does not wait', () => {
  it('three slopes, each steeper than the one before, send back at any speed', () => {
    const calm = [1, 2, 3, 4, 5, 6, 7].flatMap((k) =>
      approach(k, 30 * (k - 1), 20 + 2 * k, 22 + 2 * k, 5, every(5, 25)),
    );
    const away: Row[] = [
      [8, 220, 39.5],
      [8, 230, 44],
      [8, 240, 50.5],
    ];
    const said = saying([...calm, ...away]);
    expect(said.at(-1)).toBe('back-off');
    // The same heights the other way about, ever slower, are what a ring does that settles.
    const slower: Row[] = [
      [8, 220, 42.5],
      [8, 230, 44],
      [8, 240, 44.5],
    ];
    expect(saying([...calm, ...slower]).slice(calm.length)).not.toContain('back-off');
  });
  it('two readings 10 s apart, a kelvin from one to the other, say nothing of the end: read once more in a minute', () => {
    // A leap of 5 K in 6 s, then an hour of standing, then 24 and 25 °C by sensors that are good to 1 K.
    const leap: Row[] = [...[0, 0.5, 0.6].map((t, i): Row => [1, t, [24, 26, 31][i]!]), [0, 62.6, 24]];
    const limited = ' upTo=9 limitedAfter=3';
    const said = step([...leap, [1, 62.7, 25]], limited);
    expect(said).toMatchObject({
      decision: 'hold',
      stage: 1,
      standing: false,
      ends: false,
      nextReading: 1,
    });
    expect(said).toMatchObject({
      why: 'too short a time tells nothing: read it once more in a minute',
    });
    expect(said.outlook).toBe('nothing to tell yet');
    // A minute later it has settled, or it leaps and is stopped.
    expect(step([...leap, [1, 62.7, 25], [1, 63.8, 25]], limited)).toMatchObject({ decision: 'hold', ends: false });
    expect(step([...leap, [1, 62.7, 25], [1, 63.8, 46]], limited)).toMatchObject({ decision: 'stop', ends: true });
    // Sisters: the other bearing read in the same half minute, a stage that was just set, one that had long settled.
    const pairs: Row[][] = [
      [
        [1, 0.1, 24],
        [1, 0.2, 26],
      ],
      [
        [1, 0, 22],
        [1, 0.1, 24],
        [1, 0.2, 25],
      ],
      [...approach(1, 0, 22, 24, 5, every(5, 30)), [2, 30.2, 26]],
      [...approach(1, 0, 22, 24, 5, every(5, 30)), [1, 30.2, 26]],
    ];
    for (const rows of pairs) expect(['hold', 'next']).toContain(step(rows).decision);
  });
  it('at the limit, or 6 K and more within a minute, it stops however near the readings are', () => {
    expect(
      step([
        [1, 0, 24],
        [1, 0.2, 70],
      ]),
    ).toMatchObject({ decision: 'stop', standing: true });
    expect(
      step([
        [1, 0, 24],
        [1, 0.2, 36],
      ]),
    ).toMatchObject({ decision: 'stop', standing: true });
  });
  it('tells no outlook of less than a minute, nor one that is wider than 25 K', () => {
    const of = (...rows: Row[]) => step(rows).outlook;
    expect(of([1, 0, 24], [1, 0.4, 24], [1, 0.9, 24])).toBe('nothing to tell yet');
    expect(of([1, 0, 23], [1, 0.4, 23.5], [1, 1, 24])).toMatch(/^will reach \d\d ± \d °C here/);
    // It has 24 °C: that it will reach less is no outlook.
    expect(of([1, 0, 24], [1, 5, 24], [1, 10, 24])).toBe('nothing to tell yet');
    expect(of([1, 0, 24], [1, 0.5, 26], [1, 1.1, 31])).toBe('nothing to tell yet');
    // An hour of standing between two readings is none of running.
    expect(of([1, 0, 24], [1, 5, 24], [0, 60, 23], [1, 60.2, 23])).toBe('nothing to tell yet');
  });
  it('within 6 K of the limit and heading over it', () => {
    const calm = [1, 2, 3, 4, 5, 6, 7].flatMap((k) =>
      approach(k, 30 * (k - 1), 20 + 4 * k, 24 + 4 * k, 5, every(k < 6 ? 5 : 2, 29)),
    );
    const rows = [...calm, ...approach(8, 210, 52, 80, 25, [2, 4, 6, 8, 10, 11, 12, 13, 14, 15])];
    expect(step(rows)).toMatchObject({ decision: 'back-off', stage: 7, standing: true });
  });
});

describe('a run-in that is limited later', () => {
  const four = [1, 2, 3, 4].flatMap((k) => approach(k, 30 * (k - 1), 18 + 2 * k, 20 + 2 * k, 5, every(5, 25)));
  it('keeps the stages already done', () => {
    expect(step(four)).toMatchObject({ decision: 'next', stage: 5 });
    const limited = ` upTo=4 limitedAfter=${four.length}`;
    expect(step(four, limited)).toMatchObject({ decision: 'hold', stage: 4, standing: false, ends: false });
    const more = approach(4, 120, 28, 28, 5, [5, 15, 25]);
    expect(step([...four, ...more], limited)).toMatchObject({ decision: 'complete', stage: 4 });
  });
  it('goes down to its stage where it ran higher, and cools first where heat ended it', () => {
    expect(step(four, ` upTo=2 limitedAfter=${four.length}`)).toMatchObject({
      decision: 'back-off',
      stage: 2,
      standing: false,
    });
    // It leaps at stage 3 three times, twice cooled in between.
    const again = (from: number): Row[] => [...approach(2, from, 24, 25, 5, [10, 25, 30, 35, 40]), [3, from + 45, 47]];
    const cold = (from: number): Row[] => [
      [0, from, 27],
      [0, from + 15, 24],
    ];
    const ended = [...sentBack, ...again(75), ...cold(135), ...again(150)];
    expect(step(ended)).toMatchObject({ decision: 'stop', ends: true });
    const after = ` upTo=2 limitedAfter=${ended.length}`;
    expect(step(ended, after)).toMatchObject({ decision: 'back-off', stage: 2, standing: true, ends: false });
    const cooled = [...ended, ...cold(210)];
    expect(step(cooled, after)).toMatchObject({ decision: 'hold', stage: 2, standing: false });
    // Stage 2 it has run: nothing begins anew at stage 1.
    const done = [...cooled, ...approach(2, 225, 24, 25, 5, every(5, 45).slice(1))];
    expect(step(done, after)).toMatchObject({ decision: 'complete', stage: 2 });
  });
  it('lifts no noise', () => {
    const rough: Row[] = [...four, [4, 125, 28, 'rough']];
    expect(step(rough, ` upTo=2 limitedAfter=${rough.length}`)).toMatchObject({ decision: 'stop', ends: true });
  });
});
