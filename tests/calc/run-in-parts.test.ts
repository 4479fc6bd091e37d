/** The run-in's alarms, its last stage, rests and what may come unread, each at its limit. By hand; the limits are this guide's own caution. */
import { describe, expect, it } from 'vitest';
import { apartBy, climbs, faster, leapt, rapidRise } from '../../src/calc/run-in-alarm.js';
import { Curve } from '../../src/calc/run-in-curve.js';
import type { Estimate } from '../../src/calc/run-in-fit.js';
import { judge } from '../../src/calc/run-in-judge.js';
import { atLastStage } from '../../src/calc/run-in-last.js';
import { Opened, restBefore } from '../../src/calc/run-in-rest.js';
import type { Plan, Reading, Rules } from '../../src/calc/run-in-said.js';
import { Stood } from '../../src/calc/run-in-stood.js';
import { growth, type Unread } from '../../src/calc/run-in-unread.js';
import { unseenAt } from '../../src/calc/run-in-unseen.js';

const rules: Rules = {
  ...{ leastStage: 15, settleWindow: 10, settleSpan: 1, equilibrium: 2, leastLast: 30, coolMargin: 5, nearLimit: 5 },
  ...{ longestHiss: 30, apartWatch: 8, apartStop: 15, longestBlocked: 60, mostBackOffs: 2, longestGap: 15 },
  ...{ rapidRise: 15, rapidTime: 5, stageRise: 25 },
};
const plan: Plan = { stages: [1000, 2000, 3000, 4000], upTo: 4, limit: 70, room: 20, rules };
type Point = readonly [stage: number, minutes: number, temp: number];
const reading = ([stage, minutes, temp]: Point): Reading => ({ stage, minutes, temp, sound: 'smooth' });
/** The readings and the last of them. */
const log = (...points: Point[]): [Reading[], Reading] => [points.map(reading), reading(points.at(-1)!)];

describe('CP: a rapid rise', () => {
  it.each<[string | undefined, number | undefined, ...Point[]]>([
    ['it rose 15 K in 5.3 min', undefined, [1, 0, 20], [1, 5.3, 35]],
    [undefined, undefined, [1, 0, 20], [1, 5.4, 35]],
    [undefined, undefined, [1, 0, 20], [1, 5, 34.9]],
    [undefined, undefined, [0, 0, 20], [1, 3, 36]],
    ['it rose 16 K in 2 min', undefined, [1, 0, 25], [1, 2, 20], [1, 4, 36]],
    ['it is 25 K above where this stage began', 20, [1, 0, 40], [1, 4, 45]],
    [undefined, 20, [1, 0, 40], [1, 4, 44.9]],
  ])('%s: from %s, %j %j', (words, began, ...points) => {
    expect(rapidRise(...log(...points), began, rules)).toBe(words);
  });
  it.each<[boolean, ...Point[]]>([
    [true, [1, 0, 20], [1, 5, 25]],
    [false, [1, 0, 20], [1, 5, 24.9]],
    [true, [1, 0, 40], [1, 9, 20], [1, 10, 21]],
    [false, [1, 5, 25]],
  ])('climbs by 1 K/min: %s, %j %j', (yes, ...points) => {
    expect(climbs(...log(...points))).toBe(yes);
  });
  it.each<[string | undefined, ...Point[]]>([
    ['it leapt 6 K in 2 min', [1, 0, 20], [1, 2, 26]],
    [undefined, [1, 0, 20], [1, 1, 25.9]],
    [undefined, [1, 0, 20], [1, 2.1, 26]],
    ['it leapt 9 K in 3 min', [1, 0, 40], [1, 5, 20], [1, 8, 29]],
    [undefined, [0, 0, 20], [1, 2, 29]],
    [undefined, [1, 2, 29]],
  ])('%s: %j %j', (words, ...points) => {
    expect(leapt(...log(...points))).toBe(words);
  });
});

describe('CP: heat that feeds on itself', () => {
  const steep = 'it climbs faster and faster';
  type How = { readonly slow?: boolean; readonly grows?: boolean };
  const told = (points: readonly Point[], { slow = false, grows = false }: How = {}) =>
    faster(...log(...points), 70, slow, grows);
  /** Readings every so many minutes at one stage. */
  const every = (minutes: number, ...temps: number[]): Point[] => temps.map((t, i) => [2, i * minutes, t]);
  it.each<[string, string | undefined, readonly Point[], How?]>([
    // 0.3, 0.6, 0.9 K/min.
    ['three slopes', steep, every(8, 50, 52.4, 57.2, 64.4)],
    ['far below the limit there is time', undefined, every(8, 30.4, 32.8, 37.6, 44.8)],
    ['25 K below it there is none', steep, every(8, 30.6, 33, 37.8, 45)],
    ['nor at a low speed', steep, every(8, 30.4, 32.8, 37.6, 44.8), { slow: true }],
    ['0.3 K/min at the least', steep, every(10, 60, 61, 63, 66)],
    ['0.29 K/min', undefined, every(10, 60, 61, 63, 65.9)],
    // What the thermometer may be off: 1.2 K in 10 min.
    ['0.13 K/min more than at first', steep, every(10, 50, 53, 56.5, 60.8)],
    ['0.11 K/min more', undefined, every(10, 50, 53, 56.5, 60.6)],
    ['0.35, 0.3, 0.9 K/min', undefined, every(10, 40, 43.5, 46.5, 55.5)],
    ['0.1, 0.5, 0.4 K/min', undefined, every(10, 50, 51, 56, 60)],
    // 0.7 of the last slope is 0.63 K/min.
    ['0.7 K in the last minute', steep, [...every(8, 50, 52.4, 57.2), [2, 23, 63.7], [2, 24, 64.4]]],
    ['0.5 K in the last minute', undefined, [...every(8, 50, 52.4, 57.2), [2, 23, 63.9], [2, 24, 64.4]]],
    ['two slopes at a low speed, over 4 min', steep, every(4, 20, 22, 28), { slow: true }],
    ['over 3.9 min', undefined, every(3.9, 20, 22, 28), { slow: true }],
    ['no two slopes at another', undefined, every(8, 45, 46.6, 53)],
    ['two where friction grew', steep, every(8, 45, 46.6, 53), { grows: true }],
    ['over 7.9 min', undefined, every(7.9, 45, 46.6, 53), { grows: true }],
    ['over 0.6 K/min', steep, every(8, 45, 46.6, 51.5), { grows: true }],
    ['0.6 K/min', undefined, every(8, 45, 46.6, 51.4), { grows: true }],
    // 1.7 x 0.4 + 0.15 = 0.83.
    ['0.84 after 0.4 K/min', steep, every(8, 45, 48.2, 54.92), { grows: true }],
    ['0.82 after 0.4 K/min', undefined, every(8, 45, 48.2, 54.76), { grows: true }],
    ['after it fell', steep, every(8, 50, 48, 53), { grows: true }],
    [
      'with the last reading of the stage before',
      steep,
      [[1, 0, 45], ...every(8, 0, 46.6, 53).slice(1)],
      { grows: true },
    ],
    [
      'and none before that',
      undefined,
      [
        [1, 0, 50],
        [1, 8, 52.4],
        [2, 16, 57.2],
        [2, 24, 64.4],
      ],
    ],
    ['not with one while it stood', undefined, [[0, 0, 45], ...every(8, 0, 46.6, 53).slice(1)], { grows: true }],
    [
      'a change of speed a minute ago',
      steep,
      [
        [1, 12, 45],
        [2, 13, 45.2],
        [2, 21, 51.6],
      ],
      { grows: true },
    ],
    [
      'counted as a minute',
      steep,
      [
        [1, 12.5, 45],
        [2, 13, 45.2],
        [2, 21, 51.6],
      ],
      { grows: true },
    ],
    ['one slope', undefined, every(8, 50, 60), { slow: true, grows: true }],
  ])('%s', (_, words, points, how) => {
    expect(told(points, how)).toBe(words);
  });
});

it.each<[number, number, number | undefined, string | undefined, boolean?]>([
  [2, 40, undefined, undefined],
  [2, 40, 32, undefined],
  [2, 40.1, 32, '8.1', false],
  [2, 47, 32, '15', false],
  [2, 47.1, 32, '15', true],
  [3, 47.1, 32, '15', false],
  [2, 32, 47.1, undefined],
])('CP: at stage %d of 4, %s beside %s °C: %s K apart', (stage, temp, other, gap, drags) => {
  const found = apartBy({ ...reading([stage, 0, temp]), ...(other === undefined ? {} : { other }) }, plan);
  expect(found?.why).toBe(gap && `${gap} K above the other bearing on the same shaft`);
  expect(found?.warning.startsWith(`It is ${gap} K warmer than the other bearing`)).toBe(
    gap === undefined ? undefined : true,
  );
  expect(found?.drags).toBe(drags);
});

describe('P and CP: the last stage', () => {
  const last = (
    since: number,
    perHour: number,
    mean: number,
    more: { sd?: number; rateSd?: number; cold?: boolean } = {},
  ) => {
    const said = atLastStage(reading([2, 0, 48]), plan, {
      since,
      rate: { mean: perHour / 60, sd: more.rateSd ?? 0 },
      heading: { mean, sd: more.sd ?? 0 },
      cold: more.cold ?? false,
    });
    return typeof said === 'string' ? said : `${said.decision}: ${said.why}${said.settled ? '' : ' (moves)'}`;
  };
  const done = (words: string, most = 2) =>
    `complete: settled at 48 °C at 2000 rpm: it moves by ${most} K an hour at most and heads for ${words}`;
  it.each<[() => string, string]>([
    [() => last(29.5, 2, 50), done('50 ± 1 °C')],
    [() => last(29.5, -2, 50), done('50 ± 1 °C')],
    [() => last(29.4, 2, 50), 'hold: at the last stage for 29 of at least 30 min (moves)'],
    [() => last(30, 2.1, 50), 'hold: not settled: it moves by 2.1 ± 0 K an hour, 2 K is the most (moves)'],
    // Half of what is known of the drift counts: 1 + 30 x 1/30 = 2.
    [() => last(30, 1, 50, { rateSd: 1 / 30 }), done('50 ± 1 °C')],
    [
      () => last(30, 1.1, 50, { rateSd: 1 / 30 }),
      'hold: not settled: it moves by 1.1 ± 2 K an hour, 2 K is the most (moves)',
    ],
    // From 10 K below the limit 1 K an hour.
    [() => last(30, 1.2, 60), done('60 ± 1 °C')],
    [() => last(30, 1.2, 60.1), 'hold: not settled: it moves by 1.2 ± 0 K an hour, 1 K is the most (moves)'],
    // 5 K below the limit, and twice the scatter below it: 65 + 2 x 2.5.
    [() => last(30, 1, 65, { sd: 2.5 }), done('64 ± 3 °C', 1)],
    [() => last(30, 1, 65, { sd: 2.6 }), 'hold: it heads for 64 ± 3 °C, too near 70 °C: wait'],
    [() => last(30, 1, 65.1), 'hold: it heads for 65 ± 1 °C, too near 70 °C: wait'],
    // An hour where that is sure, three where it is not, six on a cold housing.
    [() => last(59.9, 1, 66), 'hold: it heads for 66 ± 1 °C, too near 70 °C: wait'],
    [() => last(60, 1, 66), 'it heads for 66 ± 1 °C'],
    [() => last(60, 3, 66), 'it heads for 66 ± 1 °C'],
    [() => last(179.9, 1, 66, { sd: 1 }), 'hold: it heads for 66 ± 1 °C, too near 70 °C: wait'],
    [() => last(180, 1, 66, { sd: 1 }), 'it heads for 66 ± 1 °C'],
    [() => last(359.9, 1, 66, { cold: true }), 'hold: it heads for 66 ± 1 °C, too near 70 °C: wait'],
    [() => last(360, 1, 66, { cold: true }), 'it heads for 66 ± 1 °C'],
  ])('%#: %s', (said, words) => {
    expect(said()).toBe(words);
  });
});

describe('CP: a stage that may pass the limit unread', () => {
  const seen = { spike: 0, spiky: false, late: false };
  const unseen = (
    mean: number,
    unread: Partial<typeof seen> = {},
    { sd = 0, runaway = 0, sentBack = false }: { sd?: number; runaway?: number; sentBack?: boolean } = {},
  ) => {
    const curve = { headingAt: () => ({ mean, sd }), runawayAt: () => runaway } as unknown as Curve;
    return unseenAt(3, plan, curve, { ...seen, ...unread } as Unread, sentBack);
  };
  const may = 'stage 3 may pass 70 °C unread';
  const late = { late: true };
  it('where readings come as due: only a spike, which may come a quarter higher and end 2 K over', () => {
    expect(unseen(60, { spike: 9.6 })).toBeUndefined();
    expect(unseen(60, { spike: 9.7 })).toBe(`${may}: it has spiked before`);
    expect(unseen(60, { spike: 9.6, spiky: true })).toBeUndefined();
    expect(unseen(69, {}, { sd: 9, runaway: 99, sentBack: true })).toBeUndefined();
  });
  it('where they come late: one half higher, or four tenths of the rise less 2 K', () => {
    expect(unseen(60, { ...late, spike: 6.6 })).toBeUndefined();
    expect(unseen(60, { ...late, spike: 6.7 })).toBe(`${may}: it has spiked before`);
    // 57 + 0.4 x 37 - 2 = 69.8; 57.2 + 0.4 x 37.2 - 2 = 70.08.
    expect(unseen(57, { ...late, spiky: true })).toBeUndefined();
    expect(unseen(57.2, { ...late, spiky: true })).toBe(`${may}: it has spiked before`);
  });
  it('where they come late: sent back, heading near the limit, friction that runs away, a lump', () => {
    expect(unseen(30, late, { sentBack: true })).toBe(`${may}: it was sent back before`);
    expect(unseen(60, late, { sd: 6 })).toBeUndefined();
    expect(unseen(60, late, { sd: 6.1 })).toBe('stage 3 may reach 57 ± 6 °C, and readings come late');
    expect(unseen(40, late, { runaway: 68 })).toBeUndefined();
    expect(unseen(40, late, { runaway: 68.1 })).toBe(`${may}: friction grows faster than speed`);
    // 60.1 + 0.37 x 40.1 = 74.94; 60.2 + 0.37 x 40.2 = 75.07.
    expect(unseen(60.1, late)).toBeUndefined();
    expect(unseen(60.2, late)).toBe(`${may} where a lump of grease comes, and readings come late`);
  });
});

describe('CP: cooled', () => {
  const cooled = (...points: Point[]): boolean[] => {
    const stood = new Stood();
    return points.map((p) => stood.hasCooled(reading(p), plan));
  };
  it('5 K over the room, or as far as it cools in half an hour', () => {
    expect(cooled([0, 0, 25], [1, 0, 25], [0, 0, 25.1], [1, 0, 25.1])).toEqual([true, true, false, false]);
    expect(cooled([0, 0, 40], [0, 29.9, 40], [0, 30, 39])).toEqual([false, false, true]);
    // It cooled by more than 1 K: half an hour begins anew.
    expect(cooled([0, 0, 40], [0, 30, 38.9], [0, 59.9, 38.9], [0, 60, 38.9])).toEqual([false, false, false, true]);
    expect(cooled([0, 0, 40], [1, 10, 40], [0, 20, 40], [0, 49.9, 40], [0, 50, 40])).toEqual([
      ...[false, false, false, false, true],
    ]);
  });
});

describe('A: the power of speed by which friction grew', () => {
  const stage = (speed: number, mean: number, sd = 0) => ({ speed, mean, sd });
  it.each<[ReturnType<typeof stage>[], number, number]>([
    [[], 0, 0],
    [[stage(1, 40)], 0, 0],
    // ln 4 / ln 2; less one deviation of hypot(1.5/10, 1.5/40) / ln 2 = 0.2231.
    [[stage(0.5, 10), stage(1, 40)], 0, 2],
    [[stage(0.5, 10), stage(1, 40)], 1, 1.7769],
    [[stage(0.5, 10, 2), stage(1, 40, 4)], 1, 1.6078],
    [[stage(0.5, 5), stage(1, 10)], 0, 1],
    [[stage(0.5, 5), stage(1, 9.9)], 0, 0],
    [[stage(0.5, 4.9), stage(1, 40)], 0, 0],
    // The steepest of the last three that were slower.
    [[stage(0.5, 5), stage(0.25, 20), stage(0.5, 20), stage(0.8, 39), stage(1, 40)], 0, 1],
    [[stage(2, 20), stage(0.5, 20), stage(1, 40)], 0, 1],
    [[stage(0.5, 45), stage(1, 40)], 0, 0],
  ])('%j less %d deviations: %d', (stages, sds, power) => {
    expect(growth(stages, sds)).toBeCloseTo(power, 3);
  });
});

describe('CP: a rest before a stage', () => {
  interface Ahead {
    readonly mean?: number;
    readonly sd?: number;
    readonly runaway?: number;
    readonly hot?: number;
    readonly from?: number;
    readonly housing?: number;
  }
  const rest = ({ mean = 60, sd = 6, runaway = 20, hot = 60, from = 30, housing = 50 }: Ahead, late = false) => {
    const asked: number[][] = [];
    const curve = {
      headingAt: (): Estimate => ({ mean, sd }),
      runawayAt: () => runaway,
      entry: (...given: number[]) => {
        asked.push(given);
        return { hot, from };
      },
      housing: () => housing,
    } as unknown as Curve;
    return [restBefore(3, plan, curve, late), ...asked];
  };
  it('so that a lump of 0.6 of the rise, 0.7 where readings come late, ends 2 K over the limit', () => {
    // 0.6 x 40 = 24, so the ring may be 48 °C hot; 0.7 x 40 = 28, so 44 °C.
    expect(rest({})).toEqual([30, [3, 15, 48]]);
    expect([rest({ hot: 48 })[0], rest({ hot: 48.1 })[0]]).toEqual([undefined, 30]);
    expect(rest({}, true)).toEqual([30, [3, 15, 44]]);
    expect([rest({ hot: 44 }, true)[0], rest({ hot: 44.1 }, true)[0]]).toEqual([undefined, 30]);
  });
  it('no nearer to the room than 5 K, and only where it gains 3 K', () => {
    expect(rest({ from: 24 })[0]).toBe(25);
    expect([rest({ housing: 33 })[0], rest({ housing: 32.9 })[0]]).toEqual([30, undefined]);
  });
  it('none where it is not known what comes, or friction runs away', () => {
    expect(rest({ sd: 6.1 })).toEqual([undefined]);
    expect(rest({ runaway: 20.1 })).toEqual([undefined]);
  });

  const stand = (opened: Opened, temp: number, stood = new Stood(), minutes = 0) =>
    opened.standing(reading([0, minutes, temp]), plan, stood);
  it('opens the stage once it has cooled, for good', () => {
    const opened = new Opened();
    expect(stand(opened, 20)).toBeUndefined();
    opened.open(2, 30.5);
    expect(stand(opened, 30.6)).toMatchObject({
      decision: 'next',
      stage: 2,
      standing: true,
      why: 'stand still, cool to 30 °C, then go to stage 2, 2000 rpm',
    });
    const go = { decision: 'next', stage: 2, standing: false, why: 'it stands still: go to stage 2, 2000 rpm' };
    expect(stand(opened, 30.5)).toMatchObject(go);
    expect(stand(opened, 33)).toMatchObject(go);
    opened.open(2, 24);
    const stood = new Stood();
    expect([stand(opened, 28, stood), stand(opened, 28, stood, 30)].map((s) => s?.standing)).toEqual([true, false]);
    opened.open(2, undefined);
    expect(stand(opened, 60)).toMatchObject(go);
    opened.shut();
    expect(stand(opened, 20)).toBeUndefined();
  });

  it('is looked at within 10 min, then when it will have cooled', () => {
    const opened = new Opened();
    const due = (soon: (minutes: number) => number, stage = 0) =>
      opened.due(reading([stage, 0, 40]), { soon: (m: number) => ({ mean: soon(m), sd: 0 }) } as unknown as Curve);
    opened.open(2, 30);
    expect(due(() => 0, 1)).toBe(10);
    expect([due((m) => 40 - m / 2), due(() => 29), due(() => 28.9)]).toEqual([15, 15, 3]);
    expect([39, 37, 36.9, 34, 33.9].map((t) => due((m) => t - m))).toEqual([10, 8, 5, 5, 3]);
    opened.open(2, undefined);
    expect([due(() => 39), due(() => 38.9)]).toEqual([15, 3]);
  });
});

describe('CP: a whole log', () => {
  const first: Point[] = [0, 5, 10, 15].map((minutes) => [1, minutes, 20]);
  const second: Point[] = [...first, ...[20, 25, 30, 35].map((minutes): Point => [2, minutes, 21])];
  const verdict = (points: readonly Point[], by: Plan = plan) => judge(points.map(reading), by);
  it('one reading that came late opens no stage, though it is older than 15 min', () => {
    expect(verdict(first)).toMatchObject({ decision: 'next', stage: 2, nextReading: 5 });
    expect(verdict([...first, [2, 50, 20.5]])).toMatchObject({
      decision: 'hold',
      stage: 2,
      late: 30,
      why: 'at the stage for 35 of at least 15 min',
    });
    expect(verdict([...first, [2, 20, 20.2], [2, 50, 20.5]])).toMatchObject({ decision: 'next', stage: 3, late: 20 });
  });
  it('goes back by one stage from where it ran hot, and by none from where it stood', () => {
    const hot = (stage: number) => verdict([...second, [stage, 40, 71]]);
    expect(hot(2)).toMatchObject({ decision: 'stop', stage: 1, standing: true, ends: false });
    expect(hot(0)).toMatchObject({ decision: 'stop', stage: 2, standing: true, ends: false });
    expect(hot(1)).toMatchObject({ decision: 'stop', stage: 1, standing: true, ends: true });
  });
  it('26 K over where it stood are no rise of this stage', () => {
    expect(
      verdict([
        [0, 0, 20],
        [1, 15, 46],
      ]),
    ).toMatchObject({ decision: 'hold', stage: 1 });
  });
  it('a stage on a cold housing is waited for twice as long', () => {
    // Ends at 30 + 36 (k / 10)^1.4, (k / 10)^1.4 by hand; each stage 40 min, time constant 10 min, from the cold 30.
    const shares = [0, 0.04, 0.105, 0.185, 0.277, 0.379, 0.489, 0.607, 0.732, 0.863];
    const ten: Plan = { ...plan, stages: shares.map((_, i) => (i + 1) * 1200), upTo: 10, room: 30 };
    const near = (start: number, end: number, t: number): number =>
      Number((end + (start - end) * Math.exp(-t / 10)).toFixed(1));
    const points: Point[] = shares
      .slice(1)
      .flatMap((share, i) =>
        Array.from(
          { length: 40 },
          (_, n): Point => [i + 1, 40 * i + n, near(30 + 36 * shares[i]!, 30 + 36 * share, n)],
        ),
      );
    expect(verdict(points, ten)).toMatchObject({ decision: 'next', stage: 10, standing: true });
    points.push([0, 371, 45], [0, 391, 35]);
    expect(verdict(points, ten)).toMatchObject({ decision: 'next', stage: 10, standing: false });
    const at = (minutes: number) => {
      const run = Array.from(
        { length: Math.floor(minutes / 5) + 1 },
        (_, n): Point => [10, 392 + 5 * n, near(36, 67, (5 * n) / 3)],
      );
      return verdict([...points, ...run], ten);
    };
    expect(at(200)).toMatchObject({ decision: 'hold', stage: 10, settled: true });
    expect(at(355)).toMatchObject({ decision: 'hold', stage: 10 });
    expect(at(365)).toMatchObject({ decision: 'stop', standing: true, ends: true });
  });
  it('is judged anew where one thing in it is another', () => {
    const calm = second.map(reading);
    const last = { ...calm.at(-1)! };
    const said = (more: Partial<Reading>) => {
      judge(calm, plan);
      const { decision, stage, warnings } = judge([...calm.slice(0, -1), { ...last, ...more }], plan);
      return [decision, stage, warnings.length];
    };
    expect(said({})).toEqual(['next', 3, 0]);
    expect(said({ sound: 'grinding' })).toEqual(['stop', 1, 0]);
    expect(said({ temp: 71 })).toEqual(['stop', 1, 0]);
    expect(said({ stage: 0 })).toEqual(['next', 3, 0]);
    expect(said({ other: 10 })).toEqual(['next', 3, 1]);
    expect(judge(calm, { ...plan, limit: 21 }).decision).toBe('stop');
  });
});

it('A: readings come as far apart as the second longest of the last six gaps; two at one time are none', () => {
  const gap = (...minutes: number[]) => {
    const curve = new Curve(20, [0.5, 1]);
    for (const at of minutes) curve.add(reading([1, at, 20]));
    return curve.usualGap;
  };
  expect([gap(), gap(0), gap(0, 3), gap(0, 3, 10)]).toEqual([5, 5, 3, 3]);
  // Gaps 3, 4, 5; then 5, 7, 3; then two readings at one time, over and over.
  expect([gap(0, 3, 7, 12, 12), gap(0, 5, 12, 15), gap(0, 5, 9, 9, 9, 9, 9, 9)]).toEqual([4, 5, 4]);
  expect(gap(0, 30, 60, 61, 62, 63, 64, 65, 67)).toBe(1);
});
