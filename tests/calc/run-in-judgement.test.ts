/**
 * What the run-in says at each of its limits, just below and just above: the readings by hand, and of what is coming what a
 * curve says that is told it by hand. The limits are this guide's own caution, but for those of the table run-in-rules.
 */
import { describe, expect, it } from 'vitest';
import type { Curve } from '../../src/calc/run-in-curve.js';
import { RunInJudgement } from '../../src/calc/run-in-judgement.js';
import type { Plan, Reading, Rules, Verdict } from '../../src/calc/run-in-said.js';

const rules: Rules = {
  ...{ leastStage: 15, settleWindow: 10, settleSpan: 1, equilibrium: 2, leastLast: 30, coolMargin: 5, nearLimit: 5 },
  ...{ longestHiss: 30, apartWatch: 8, apartStop: 15, longestBlocked: 60, mostBackOffs: 2, longestGap: 15 },
  ...{ rapidRise: 15, rapidTime: 5, stageRise: 25 },
};
const plan: Plan = {
  ...{ stages: [1000, 2000, 3000, 4000, 5000, 6000, 7000, 8000, 9000, 10_000], upTo: 10 },
  ...{ limit: 70, room: 20, rules },
};

type Guess = readonly [mean: number, sd: number];
/** What the curve says at a reading; `further` of the next stage, `top` of the last, `own` of this one before it was set. */
interface Told {
  readonly heading: Guess;
  readonly further: Guess;
  readonly top: Guess;
  readonly own: number;
  readonly rate: Guess;
  readonly since: number;
  readonly soon: (minutes: number) => Guess;
  readonly usualGap: number;
  readonly runaway: number;
  readonly grew: boolean;
  readonly housing: number;
  readonly entry: { readonly hot: number; readonly from: number };
}
const calm: Told = {
  ...{ heading: [56, 0], further: [58, 0], top: [60, 0], own: 100, rate: [0, 0], since: 20, soon: () => [55, 0] },
  ...{ usualGap: 5, runaway: 20, grew: false, housing: 50, entry: { hot: 30, from: 30 } },
};
type Point = readonly [stage: number, minutes: number, temp: number, more?: Partial<Reading>];
type Step = readonly [...Point] | readonly [Point, Partial<Told>];
const est = ([mean, sd]: Guess) => ({ mean, sd });
const isTold = (step: Step): step is readonly [Point, Partial<Told>] => Array.isArray(step[0]);

function judged(steps: readonly Step[], by: Partial<Plan> = {}): Verdict & { readonly says: string } {
  const all = { ...plan, ...by };
  let now = calm;
  let at = 0;
  const curve = {
    add: () => undefined,
    heading: () => est(now.heading),
    headingAt: (stage: number) =>
      stage === all.upTo ? est(now.top) : stage === at ? { mean: now.own, sd: 0 } : est(now.further),
    rate: () => est(now.rate),
    soon: (minutes: number) => est(now.soon(minutes)),
    runawayAt: () => now.runaway,
    entry: () => now.entry,
    housing: () => now.housing,
    timeConstant: () => ({ mean: 60, sd: 0 }),
    get since() {
      return now.since;
    },
    get usualGap() {
      return now.usualGap;
    },
    get grew() {
      return now.grew;
    },
  };
  const judgement = new RunInJudgement(all, curve as unknown as Curve);
  steps.forEach((step, i) => {
    const [[stage, minutes, temp, more], told] = isTold(step) ? step : [step, {}];
    now = { ...calm, ...told };
    at = stage;
    judgement.add({ stage, minutes, temp, sound: 'smooth', ...more }, i + 1);
  });
  const verdict = judgement.verdict();
  const marks = [verdict.standing && 'stand', verdict.ends && 'ends', verdict.settled && 'settled'].filter(Boolean);
  return {
    ...verdict,
    says: `${verdict.decision} ${verdict.stage}: ${verdict.why}${marks.length ? ` (${marks.join()})` : ''}`,
  };
}
/** Stages 1 to 3 that opened the next one each, a minute each, so that stage 4 may be set. */
const three = (temp: number): Step[] => [1, 2, 3].map((stage): Step => [stage, stage - 1, temp]);
/** A reading of stage 4 at minute 4, where all is calm but for what is told; those before it 55 °C unless told. */
const fourth = (temp: number, told: Partial<Told> = {}, before = 55, more: Partial<Reading> = {}): string =>
  judged([...three(before), [[4, 4, temp, more], told]]).says;

const stand = 'stand still, cool to 25 °C or below, then resume at stage 3, 3000 rpm (stand)';
const near = (words: string): string =>
  `hold 4: it heads for ${words} at this stage, too near 70 °C to go on; wait whether the grease works itself in (settled)`;
const opens = (words = '56 ± 1 °C', further = ' and 60 ± 1 °C at top speed'): string =>
  `next 5: it heads for ${words} here${further}: go to stage 5, 5000 rpm (settled)`;

describe('CP: what does not wait for the next reading', () => {
  it.each<[string, () => string]>([
    // Over the limit in the end, and within 1 K of it by then, or 2 K over it within one deviation.
    ['may pass', () => fourth(55, { heading: [70.1, 0], soon: () => [69, 0] })],
    [near('70 ± 1 °C'), () => fourth(55, { heading: [70, 0], soon: () => [69, 0] })],
    [near('70 ± 1 °C'), () => fourth(55, { heading: [70.1, 0], soon: () => [68.9, 0] })],
    ['may pass', () => fourth(55, { heading: [70.1, 0], soon: () => [66, 6] })],
    [near('70 ± 1 °C'), () => fourth(55, { heading: [70.1, 0], soon: () => [66, 5.9] })],
    // Over the limit in the end, and within 6 K of it now.
    ['within 6', () => fourth(64.1, { heading: [70.1, 0] })],
    [near('70 ± 1 °C'), () => fourth(64, { heading: [70.1, 0] })],
    [near('70 ± 1 °C'), () => fourth(64.1, { heading: [70, 0] })],
    // A leap of 6 K in 2 min, from 10 K below the limit on, surely 10 K over it in the end.
    ['leapt', () => fourth(61, { heading: [90.1, 10] })],
    [near('85 ± 10 °C'), () => fourth(61, { heading: [90, 10] })],
    [near('85 ± 10 °C'), () => fourth(60, { heading: [90.1, 10] }, 54)],
    [near('85 ± 10 °C'), () => fourth(60.9, { heading: [90.1, 10] })],
    // 15 K in 5 min; these stand 4 min apart.
    ['rose', () => fourth(55, {}, 40)],
    [opens(), () => fourth(54.9, {}, 40)],
  ])('%#: %s', (words, said) => {
    const says = said();
    const whole: Record<string, string> = {
      'may pass': `back-off 3: it heads for 70 ± 1 °C at this stage, and may pass 70 °C before the next reading: ${stand}`,
      'within 6': `back-off 3: it heads for 70 ± 1 °C at this stage, and is within 6 K of 70 °C: ${stand}`,
      leapt: `back-off 3: it leapt 6 K in 2 min, and it heads for 85 ± 10 °C at this stage: ${stand}`,
      rose: `back-off 3: it rose 15 K in 4 min: ${stand}`,
    };
    // Of the guesses with a deviation the words say another figure.
    expect(says).toBe((whole[words] ?? words).replace('70 ± 1', /\d+ ± \d+/.exec(says)?.[0] ?? ''));
  });
  it('8 K below the limit where it has spiked, surely heads over it and climbs by 1 K/min', () => {
    const again = (minutes: number, temp: number, heading: Guess, own = 50) =>
      judged([...three(55), [[4, 4, 55], { own }], [[4, minutes, temp], { heading }]]).says;
    const within = `back-off 3: it heads for 70 ± 1 °C at this stage, and is within 8 K of 70 °C: ${stand}`;
    expect(again(6, 62.1, [70.1, 0])).toBe(within);
    expect(again(6, 62, [70.1, 0])).toBe(near('70 ± 1 °C'));
    expect(again(6, 62.1, [70.1, 0], 57.2)).toBe(near('70 ± 1 °C'));
    expect(again(6, 62.1, [71.1, 1])).toBe(within.replace('70 ± 1', '71 ± 1'));
    expect(again(6, 62.1, [71, 1])).toBe(near('71 ± 1 °C'));
    expect(again(11.1, 62.1, [70.1, 0])).toBe(within);
    expect(again(11.2, 62.1, [70.1, 0])).toBe(near('70 ± 1 °C'));
  });
  it('waits a minute for one more reading where the last came less than a minute ago and may be off as much', () => {
    const told: Partial<Told> = { heading: [140, 50], soon: () => [80, 30] };
    const short = (gap: number, by: number, heading: Guess = [140, 50], ...more: number[]) =>
      judged([
        ...three(40).slice(0, 3),
        [4, 4, 40],
        [[4, 4 + gap, 40 + by], { ...told, heading }],
        ...more.map((after): Step => [[4, 4 + gap + after, 40 + by], { ...told, heading }]),
      ]);
    const waits = short(0.99, 5.9);
    expect(waits.says).toBe('hold 4: too short a time tells nothing: read it once more in a minute');
    expect([waits.nextReading, waits.stayReading]).toEqual([1, 1]);
    expect(short(1, 5.9).decision).toBe('back-off');
    expect(short(0.99, 6).decision).toBe('back-off');
    // The least that is told of it, 140 - 0.5 x 50 - 50, is 65 °C; at 70.1 °C it surely passes the limit.
    expect(short(0.5, 2, [145, 50]).decision).toBe('hold');
    expect(short(0.5, 2, [145.1, 50]).decision).toBe('back-off');
    // For a minute at most, however often it is read; a calm reading in between begins it anew.
    expect(short(0.5, 2, [140, 50], 0.5, 0.9).decision).toBe('hold');
    expect(short(0.5, 2, [140, 50], 0.5, 1).decision).toBe('back-off');
    const anew: Step[] = [
      [[4, 4.5, 42], told],
      [4, 5, 42],
      [[4, 5.6, 42], told],
    ];
    expect(judged([...three(40), [4, 4, 40], ...anew]).decision).toBe('hold');
    // 2 K each from reading to reading: what it rose in the minute counts.
    const steps = [0.2, 0.4, 0.6].map((gap, i): Step => [[4, 4 + gap, 42 + 2 * i], told]);
    expect(judged([...three(40), [4, 4, 40], ...steps.slice(0, 2)]).decision).toBe('hold');
    expect(judged([...three(40), [4, 4, 40], ...steps]).decision).toBe('back-off');
  });
  it('25 K over the last reading before this stage, at any later time of it', () => {
    const later = (temp: number) => judged([...three(40), [4, 4, 50], [4, 20, temp]]).says;
    expect(later(65)).toBe(`back-off 3: it is 25 K above where this stage began: ${stand}`);
    expect(later(64.9)).toBe(opens());
  });
  it('ever steeper: two slopes in the first three tenths of the speeds, or where it grew and readings came late', () => {
    const steep = (stage: number, minutes: readonly number[], temps: readonly number[], told: Partial<Told>) => {
      const before = Array.from({ length: stage - 1 }, (_, i): Step => [i + 1, i, temps[0]!]);
      const run = minutes.map((at, i): Step => [[stage, stage + at, temps[i]!], i < minutes.length - 1 ? {} : told]);
      return judged([...before, ...run]).decision;
    };
    // 0, then 0.5, then 1.5 K/min.
    const low = (stage: number, heading: number) => steep(stage, [0, 4, 8], [50, 50, 58], { heading: [heading, 0] });
    expect([low(3, 70.1), low(3, 70), low(4, 70.1)]).toEqual(['back-off', 'hold', 'hold']);
    const late = (minutes: number[], grew: boolean) =>
      steep(
        4,
        minutes,
        minutes.map((_, i) => (i < minutes.length - 1 ? 50 : 58)),
        { heading: [70.1, 0], grew },
      );
    // Due after 5 min each: 3 min late, or in time.
    expect([late([0, 8, 16], true), late([0, 8, 16], false)]).toEqual(['back-off', 'hold']);
    expect(late([0, 4, 8, 12, 16], true)).toBe('hold');
  });
  it('15 K above the other bearing at half speed, where the end heads within 5 K of the limit', () => {
    const apart = (other: number, top: number) => judged([...three(55), [[4, 4, 55, { other }], { top: [top, 0] }]]);
    expect(apart(39.9, 65.1).says).toBe(`back-off 3: 15 K above the other bearing on the same shaft: ${stand}`);
    expect(apart(39.9, 65)).toMatchObject({ decision: 'next', warnings: { length: 1 } });
    expect(apart(40, 65.1)).toMatchObject({ decision: 'next', warnings: { length: 1 } });
    expect(apart(47, 65.1)).toMatchObject({ decision: 'next', warnings: [] });
    // Of the last reading alone.
    expect(judged([...three(55), [4, 4, 55, { other: 40 }], [4, 9, 55]]).warnings).toEqual([]);
  });
});

describe('CP: noise', () => {
  it('a hiss of half an hour, counted from its first reading, anew once it was smooth', () => {
    const hiss = (...readings: [minutes: number, sound: Reading['sound']][]) =>
      judged([...three(55), ...readings.map(([minutes, sound]): Step => [4, minutes, 55, { sound }])]).says;
    const hold = 'hold 4: a hiss: hold until it turns smooth; if it stays half an hour, switch off and report it';
    expect(hiss([4, 'hiss'], [33.9, 'hiss'])).toBe(hold);
    expect(hiss([4, 'hiss'], [20, 'hiss'], [34, 'hiss'])).toBe(
      'stop 4: it has hissed for 30 min: switch off, and have it opened only once it is locked out and proven dead; then go on at stage 4, 4000 rpm (stand)',
    );
    expect(hiss([4, 'hiss'], [20, 'smooth'], [22, 'hiss'], [34, 'hiss'])).toBe(hold);
  });
  it('a bearing that stands neither ends a hiss nor makes it longer', () => {
    const stood = (minutes: number) =>
      judged([
        ...three(55),
        [4, 4, 55, { sound: 'hiss' }],
        [4, 24, 55, { sound: 'hiss' }],
        [0, 25, 50, { sound: 'smooth' }],
        [0, 60, 21, { sound: 'smooth' }],
        [4, 61, 40, { sound: 'hiss' }],
        [4, 61 + minutes, 55, { sound: 'hiss' }],
      ]).says;
    expect(stood(8.9)).toMatch(/^hold 4: a hiss/);
    expect(stood(9)).toMatch(/^stop 4: it has hissed for 30 min/);
  });
  it('rough or grinding ends it, whatever comes later, and nobody limits that away', () => {
    const words =
      'at reading 4: stop, find the cause, and begin a new run-in only once it turns smoothly by hand (stand,ends)';
    const rough: Step[] = [...three(55), [4, 4, 55, { sound: 'rough' }]];
    expect(judged(rough).says).toBe(`stop 1: rough ${words}`);
    expect(judged([...rough, [0, 60, 20], [1, 61, 20]]).says).toBe(`stop 1: rough ${words}`);
    expect(judged([...rough, [0, 60, 20]], { upTo: 2, limitedAfter: 5 }).says).toBe(`stop 1: rough ${words}`);
    expect(judged([...three(55), [4, 4, 55, { sound: 'grinding' }]]).says).toBe(`stop 1: grinding ${words}`);
  });
});

describe('CP: how long a stage takes', () => {
  it('15 min but for half a minute', () => {
    expect(fourth(55, { since: 14.5 })).toBe(opens());
    expect(fourth(55, { since: 14.4 })).toBe('hold 4: at the stage for 14.4 of at least 15 min');
    expect(fourth(55, { since: 14.47 })).toBe('hold 4: at the stage for 14.4 of at least 15 min');
  });
  it('and more than one reading where that came more than 5 min late', () => {
    // Due 2 min after it was set at minute 2: 0.6 x 38 K is more than 0.8 of the 15 K that are left.
    const came = (minutes: number) => judged([...three(55), [4, minutes, 55]]);
    expect(came(9)).toMatchObject({ late: 5, decision: 'next' });
    expect(came(9.1)).toMatchObject({ decision: 'hold', why: 'at the stage for 20 of at least 15 min' });
    expect(judged([...three(55), [4, 9.1, 55], [4, 10, 55]]).decision).toBe('next');
  });
  it('until it moves by 1 K in 10 min', () => {
    expect(fourth(55, { rate: [0.1, 9] })).toBe(opens());
    expect(fourth(55, { rate: [-0.1, 0] })).toBe(opens());
    const moves = 'hold 4: not settled: it moves by 1.1 K in 10 min, 1 K is the most';
    expect(fourth(55, { rate: [0.11, 0] })).toBe(moves);
    expect(fourth(55, { rate: [-0.11, 0] })).toBe(moves);
    // Also where it heads near the limit, however long that takes.
    expect(fourth(55, { rate: [0.11, 0], since: 999, heading: [68, 0] })).toBe(moves);
  });
});

const ended =
  'Stop and find the cause - too much grease, preload, a seal that rubs, a fan that does not blow - or end it as a limited run-in at a lower stage';

describe('CP: near the limit', () => {
  it.each<[string, () => string]>([
    // 5 K below it, and one deviation below it.
    [opens('65 ± 1 °C'), () => fourth(55, { heading: [65, 0] })],
    [near('65 ± 1 °C'), () => fourth(55, { heading: [65.1, 0] })],
    [opens('61 ± 6 °C'), () => fourth(55, { heading: [64, 6] })],
    [near('61 ± 6 °C'), () => fourth(55, { heading: [64, 6.1] })],
    // The next stage 1 K below it, and one deviation less 5 K below it.
    [opens(), () => fourth(55, { further: [69, 0] })],
    [far('69 ± 1 °C'), () => fourth(55, { further: [69.1, 0] })],
    [opens(), () => fourth(55, { further: [66, 9] })],
    [far('61 ± 9 °C'), () => fourth(55, { further: [66, 9.1] })],
  ])('%#: %s', (words, says) => {
    expect(says()).toBe(words);
  });
  it('two deviations where this stage was heading within 5 K of it since its second reading', () => {
    const again = (spike: number, further: Guess, first = 56) =>
      judged([
        ...three(55),
        [[4, 4, 55], { heading: [first, 0] }],
        [[4, 5, 55], { heading: [spike, 0] }],
        [[4, 6, 55], {}],
        [[4, 7, 55], { further }],
      ]).says;
    expect(again(65, [66, 9])).toBe(opens());
    expect(again(65.1, [66, 2])).toBe(opens());
    expect(again(65.1, [66, 2.1])).toBe(far('65 ± 2 °C'));
    expect(again(65, [66, 9], 69)).toBe(opens());
    // Another stage begins anew.
    const five: Step[] = [...three(55), [4, 4, 55], [[4, 5, 55], { heading: [66, 0] }], [4, 6, 55]];
    expect(judged([...five, [[5, 8, 55], { further: [66, 9] }]]).says).toMatch(/^next 6/);
    expect(judged([...five, [5, 8, 55], [[5, 9, 55], { further: [66, 9] }]]).says).toMatch(/^next 6/);
  });
  it('is waited for an hour where that is sure, three where it is not', () => {
    const end = (words: string) => `stop 4: ${words}. ${ended} (stand,ends)`;
    const here = (since: number, heading: Guess) => fourth(55, { since, heading });
    // 66.1 - 1 is over 65; 66 - 1 is not.
    expect(here(59.9, [66.1, 1])).toBe(near('66 ± 1 °C'));
    expect(here(60, [66.1, 1])).toBe(end('it heads for 66 ± 1 °C at this stage'));
    expect(here(179.9, [66, 1])).toBe(near('66 ± 1 °C'));
    expect(here(180, [66, 1])).toBe(end('it heads for 66 ± 1 °C at this stage'));
    const next = (since: number, further: Guess) => fourth(55, { since, further });
    expect(next(59.9, [71.1, 1])).toBe(far('71 ± 1 °C'));
    expect(next(60, [71.1, 1])).toBe(end('at stage 5 it would reach 71 ± 1 °C'));
    expect(next(179.9, [71, 1])).toBe(far('71 ± 1 °C'));
    expect(next(180, [71, 1])).toBe(end('at stage 5 it would reach 71 ± 1 °C'));
  });
  it('ends after half an hour where the last stage would surely pass it', () => {
    const top = (since: number, guess: Guess, rate = 0) =>
      fourth(55, { since, top: guess, rate: [rate, 0] }).replace(` ${ended}`, '');
    const over = (words: string) => `stop 4: at top speed it would reach ${words}. (stand,ends)`;
    expect(top(29.9, [70.1, 0])).toBe(opens('56 ± 1 °C', ' and 70 ± 1 °C at top speed'));
    expect(top(30, [70.1, 0])).toBe(over('70 ± 1 °C'));
    expect(top(30, [70, 0])).toBe(opens('56 ± 1 °C', ' and 70 ± 1 °C at top speed'));
    expect(top(30, [72.1, 1])).toBe(over('72 ± 1 °C'));
    expect(top(30, [72, 1])).toBe(opens('56 ± 1 °C', ' and 72 ± 1 °C at top speed'));
    // While it moves, after an hour.
    expect(top(59.9, [70.1, 0], 0.11)).toMatch(/^hold 4: not settled/);
    expect(top(60, [70.1, 0], 0.11)).toBe(over('70 ± 1 °C'));
  });
  it('of the first stage, which begins from rest, no longer than of any other', () => {
    const first = judged([
      [1, 0, 55],
      [[1, 30, 55], { since: 30, top: [70.1, 0] }],
    ]);
    expect(first).toMatchObject({ decision: 'stop', ends: true });
  });
  it('all three hours on a housing that cooled before the stage', () => {
    const cold = (told: Partial<Told>) =>
      judged([
        [1, 0, 55],
        [2, 1, 55],
        [[3, 2, 55], { entry: { hot: 60, from: 40 } }],
        [0, 20, 40],
        [[4, 22, 55], told],
      ]).says.replace(` ${ended}`, '');
    const over = 'stop 4: at top speed it would reach 70 ± 1 °C. (stand,ends)';
    expect(cold({ since: 179.9, top: [70.1, 0] })).toMatch(/^next 5/);
    expect(cold({ since: 180, top: [70.1, 0] })).toBe(over);
    expect(cold({ since: 179.9, heading: [66.1, 1] })).toMatch(/^hold 4/);
    expect(cold({ since: 180, heading: [66.1, 1] })).toMatch(/^stop 4: it heads for 66/);
  });
});
function far(words: string): string {
  return `hold 4: stage 5 would reach ${words}, too near 70 °C; wait whether the grease works itself in (settled)`;
}

describe('CP: what may come unread', () => {
  // Due after 2 min at stage 4, then every 5: the reading 3 min late counts as late.
  const late = (since: number, more: Partial<Told> = {}) =>
    judged([...three(55), [4, 7, 55], [[4, 8, 55], { since, further: [65, 0], ...more }]]).says;
  it('holds while readings come late, and ends after three hours of it', () => {
    expect(late(20)).toBe(
      'hold 4: stage 5 may pass 70 °C unread where a lump of grease comes, and readings come late. Stay beside it: read when due three times, then it opens (settled)',
    );
    expect(late(20, { further: [50, 0] })).toBe(opens());
    expect(late(179.9)).toMatch(/^hold 4/);
    expect(late(180)).toBe(
      `stop 4: stage 5 may pass 70 °C unread where a lump of grease comes, and readings come late. ${ended} (stand,ends)`,
    );
    // What is told first: that it moves, that it heads near the limit.
    expect(late(20, { rate: [0.2, 0] })).toMatch(/^hold 4: not settled/);
    expect(late(20, { heading: [66, 0] })).toBe(near('66 ± 1 °C'));
    expect(late(20, { further: [69.1, 0] })).toBe(far('69 ± 1 °C'));
  });
});

describe('CP: the way from stage to stage', () => {
  it('begins at the first, with nothing known', () => {
    expect(judged([])).toMatchObject({
      ...{ says: 'hold 1: begin at stage 1, 1000 rpm, and take the first reading', ahead: [], warnings: [] },
      ...{ heading: undefined, headingTop: undefined, expected: undefined, nextReading: 1, stayReading: 1, late: 0 },
    });
  });
  it('tells of no heading while it stands', () => {
    expect(judged([[0, 0, 20]])).toMatchObject({ heading: undefined, headingTop: undefined, nextReading: 15 });
    expect(judged([[1, 0, 20]])).toMatchObject({ heading: { mean: 56 }, headingTop: { mean: 60 } });
    expect(judged([[0, 0, 20]]).says).toBe('hold 1: it stands still: go on at stage 1, 1000 rpm');
  });
  it('tells the end at top speed where that is known within 25 K, or at the last stage of a limited run-in', () => {
    expect(fourth(55, { top: [40, 12.5] })).toBe(opens('56 ± 1 °C', ' and 34 ± 13 °C at top speed'));
    expect(fourth(55, { top: [40, 12.6] })).toBe(opens('56 ± 1 °C', ''));
    expect(judged(three(55), { upTo: 6 }).why).toBe(
      'it heads for 56 ± 1 °C here and 60 ± 1 °C at stage 6: go to stage 4, 4000 rpm',
    );
    expect(judged(three(55), { upTo: 9 }).why).toContain('at stage 9:');
  });
  it('sends back whoever goes on too early, and tells of each such reading', () => {
    const early = judged([...three(55), [5, 4, 55], [6, 5, 55], [4, 6, 55]]);
    expect(early).toMatchObject({ decision: 'next', stage: 5, ahead: [4, 5] });
    expect(judged([...three(55), [5, 4, 55]]).says).toBe(
      'back-off 4: stage 5 is not open yet: go back to stage 4, 4000 rpm, until it has settled there',
    );
    // A stage that opened and was not run is open still; one that a hold followed is not.
    expect(judged([...three(55), [[3, 4, 55], { rate: [0.2, 0] }], [4, 5, 55]])).toMatchObject({
      ahead: [5],
      stage: 3,
    });
    expect(judged([...three(55), [0, 4, 55], [4, 5, 55]]).ahead).toEqual([]);
    // A stage too early shuts what had opened.
    expect(judged([...three(55), [6, 3, 55], [0, 4, 55]]).says).toBe(
      'hold 4: it stands still: go on at stage 4, 4000 rpm',
    );
  });
  it('opens stages above that it goes through again', () => {
    expect(judged([...three(55), [4, 4, 55], [2, 5, 55]])).toMatchObject({ decision: 'next', stage: 3 });
    expect(judged([...three(55), [4, 4, 55], [[2, 5, 55], { rate: [1, 0] }], [4, 6, 55]]).ahead).toEqual([]);
  });
  it('is complete at the last stage', () => {
    const done: Partial<Told> = { since: 30, top: [55, 0], heading: [55, 0] };
    expect(judged([...three(55), [[4, 4, 55], done]], { upTo: 4 })).toMatchObject({ decision: 'complete', stage: 4 });
    expect(judged([...three(55), [[4, 4, 55], done]], { upTo: 5 })).toMatchObject({ decision: 'next', stage: 5 });
    const hot: Partial<Told> = { since: 60, top: [66, 0], heading: [66, 0] };
    expect(judged([...three(55), [[4, 4, 55], hot]], { upTo: 4 }).says).toBe(
      `stop 4: it heads for 66 ± 1 °C. ${ended} (stand,ends)`,
    );
  });
});

describe('CP: heat that sends back', () => {
  const hot = (stage: number, minutes: number): Step => [stage, minutes, 71];
  it('at the limit itself, at once', () => {
    expect(fourth(70, { heading: [0, 0] }, 69)).toBe(
      'stop 3: 70 °C is at or over 70 °C: stop, cool to 25 °C or below, then resume at stage 3, 3000 rpm (stand)',
    );
    expect(fourth(69.9, { heading: [0, 0] }, 69)).toMatch(/^next 5/);
  });
  it('to the stage below the one that it ran at, or the one that was open where it ran too early', () => {
    const back = (...steps: Step[]) => judged([...three(66), ...steps]);
    expect(back(hot(4, 4))).toMatchObject({ decision: 'stop', stage: 3, ends: false });
    expect(back(hot(2, 4))).toMatchObject({ decision: 'stop', stage: 1, ends: false });
    expect(back(hot(1, 4))).toMatchObject({ decision: 'stop', stage: 1, ends: true });
    expect(back(hot(7, 4))).toMatchObject({ decision: 'stop', stage: 3, ends: false, ahead: [4] });
    expect(back(hot(0, 4))).toMatchObject({ decision: 'stop', stage: 3, ends: false });
    expect(back(hot(4, 4)).nextReading).toBe(15);
  });
  it('until it has cooled; what is hot meanwhile counts no second time', () => {
    const again = (n: number): Step[] =>
      Array.from({ length: n }, (_, i): Step[] => [
        [4, 60 * i, 66],
        hot(4, 60 * i + 1),
        hot(4, 60 * i + 2),
        [0, 60 * i + 30, 25],
        [3, 60 * i + 32, 66],
      ]).flat();
    expect(judged([...three(66), ...again(1).slice(0, 3)])).toMatchObject({ decision: 'stop', stage: 3, ends: false });
    expect(judged([...three(66), ...again(1).slice(0, 2), [0, 20, 25.1]]).says).toBe(
      `back-off 3: 71 °C is at or over 70 °C: ${stand}`,
    );
    expect(judged([...three(66), ...again(1).slice(0, 4)]).says).toBe(
      'hold 3: it stands still: go on at stage 3, 3000 rpm',
    );
    // Twice at a stage; the third time it ends.
    expect(judged([...three(66), ...again(2)])).toMatchObject({ ends: false });
    const thrice = judged([...three(66), ...again(2), [4, 130, 66], hot(4, 131)]);
    expect(thrice.says).toBe(`stop 3: 71 °C is at or over 70 °C: stop, cool to 25 °C or below. ${ended} (stand,ends)`);
    // Each stage for itself.
    expect(judged([...three(66), ...again(2), hot(3, 131)])).toMatchObject({ stage: 2, ends: false });
  });
  it('and shuts the stage that had opened', () => {
    const shut: Step[] = [...three(66), [0, 4, 71], [0, 60, 25]];
    expect(judged(shut).says).toBe('hold 3: it stands still: go on at stage 3, 3000 rpm');
  });
});

describe('CP: a rest before a stage', () => {
  const rest: Step[] = [...three(55).slice(0, 2), [[3, 2, 55], { entry: { hot: 60, from: 40.7 } }]];
  it('says so, and opens it once it has cooled', () => {
    expect(judged(rest).says).toBe(
      'next 4: it heads for 56 ± 1 °C here and 60 ± 1 °C at top speed: stand still, cool to 40 °C so that a lump of grease has room, then go to stage 4, 4000 rpm (stand,settled)',
    );
    expect(judged(rest).coolTo).toBe(40);
    expect(judged([...rest, [0, 12, 40.7]]).coolTo).toBeUndefined();
    expect(judged([...three(24), [4, 4, 71]]).coolTo).toBe(25);
    // If it stays all the same: 0.8 x 36 x (1 - e^(-3/5)) = 13.0 on 55 °C, and 18.2 in 5 min.
    expect(judged(rest)).toMatchObject({ nextReading: 10, stayReading: 3 });
    expect(judged([...rest, [0, 12, 50]])).toMatchObject({ decision: 'next', stage: 4, standing: true });
    expect(judged([...rest, [0, 12, 40.7]])).toMatchObject({ decision: 'next', stage: 4, standing: false });
    expect(judged([...rest, [0, 12, 40.7], [4, 14, 42]])).toMatchObject({ ahead: [], decision: 'next', stage: 5 });
  });
  it('counts as a cold start at the stage that it was before, and at no other', () => {
    const end: Partial<Told> = { since: 60, heading: [66.1, 1] };
    expect(judged([...rest, [0, 12, 40], [[4, 14, 55], end]]).decision).toBe('hold');
    expect(judged([...rest, [0, 12, 40], [[3, 14, 55], end]]).decision).toBe('stop');
    expect(judged([...rest, [0, 12, 40], [3, 13, 55], [[4, 14, 55], end]]).decision).toBe('stop');
    expect(judged([...three(55), [0, 12, 40], [[4, 14, 55], end]]).decision).toBe('stop');
    // All the while that it stays there.
    expect(judged([...rest, [0, 12, 40], [4, 14, 55], [[4, 16, 55], end]]).decision).toBe('hold');
  });
});

describe('CP: when the next reading is due', () => {
  it('2 min where it climbs by 1 K/min up to the third stage', () => {
    const climb = (stage: number, by: number) =>
      judged([
        ...Array.from({ length: stage - 1 }, (_, i): Step => [i + 1, i, 40]),
        [stage, stage, 40],
        [[stage, stage + 4, 40 + by], { since: 5, heading: [30, 0], soon: () => [20, 0] }],
      ]).nextReading;
    expect([climb(3, 4), climb(3, 3.9), climb(4, 4)]).toEqual([2, 10, 10]);
  });
  it('after a change of speed: sooner where it spiked, was sent back, or friction runs away', () => {
    // 0.6 x 38 K are 0.5 of the 45.6 K that are left at 24.4 °C: 5 min, 2 where it was odd.
    const next = (own: number, runaway: number) => judged([...three(24), [[4, 4, 24], { own, runaway }]]).nextReading;
    expect([next(19.1, 20), next(19, 20), next(19.1, 20.1)]).toEqual([5, 2, 2]);
    const back = judged([...three(24), [4, 4, 71], [0, 60, 20], [3, 62, 24]]);
    expect(back).toMatchObject({ decision: 'next', stage: 4, nextReading: 2 });
    // 2 where it is set, 3 at the stage that it was sent back to.
    expect(back.stayReading).toBe(3);
  });
  it('what a stage was heading for before it was set is not asked anew while it runs', () => {
    expect(judged([...three(24), [[4, 4, 24], { own: 24 }], [[4, 9, 24], { own: 5 }]]).nextReading).toBe(5);
  });
  it('counts as late after that, by the speed that is set, never while it stands', () => {
    const slow: Step[] = [
      ...three(24).slice(0, 2),
      [[3, 2, 24], { since: 30, further: [25, 0], heading: [25, 0], soon: () => [25, 0] }],
    ];
    expect(judged(slow)).toMatchObject({ nextReading: 15, stayReading: 5 });
    const late = (stage: number, minutes: number) => judged([...slow, [stage, minutes, 24]]).late;
    expect([late(3, 10), late(4, 10), late(4, 18), late(0, 40)]).toEqual([3, 0, 1, 0]);
    expect(judged([...slow, [0, 40, 24], [4, 60, 24]]).late).toBe(15);
  });
  it('what comes before the next reading is as far ahead as that comes: a minute after it is due, or as they came', () => {
    // Due in 5 min: 6. It may pass the limit from this minute on.
    const from = (gap: number, told: Partial<Told> = {}, before: Step[] = three(55)) =>
      judged([
        ...before,
        [
          [4, (before.at(-1)![1] as number) + 2, 55],
          { since: 40, heading: [71, 0], soon: (m) => [m >= gap ? 69 : 55, 0], usualGap: 9, ...told },
        ],
      ]).why.includes('may pass');
    expect([from(6), from(6.1)]).toEqual([true, false]);
    expect([from(4, { usualGap: 4 }), from(4.1, { usualGap: 4 })]).toEqual([true, false]);
    expect([from(2, { usualGap: 1 }), from(2.1, { usualGap: 1 })]).toEqual([true, false]);
    // Late three readings ago at the most: as they came, 15 min at the most.
    const came: Step[] = [...three(55), [4, 7, 55]];
    expect([from(9, {}, came), from(9.1, {}, came)]).toEqual([true, false]);
    expect([from(15, { usualGap: 30 }, came), from(15.1, { usualGap: 30 }, came)]).toEqual([true, false]);
    // Sent back before: 4 min at the least.
    const back: Step[] = [...three(55), [4, 4, 71], [0, 60, 20], [3, 62, 50]];
    expect([from(4, { usualGap: 2 }, back), from(4.1, { usualGap: 2 }, back)]).toEqual([true, false]);
  });
});

describe('CP: limited to a lower stage', () => {
  const four: Step[] = [...three(55), [4, 4, 55]];
  it('goes down, or goes on where it is below', () => {
    const limited = (upTo: number, steps = four) => judged(steps, { upTo, limitedAfter: steps.length });
    expect(limited(3).says).toBe('back-off 3: limited to stage 3: go on at stage 3, 3000 rpm');
    expect(limited(4).says).toBe('hold 4: limited to stage 4: go on at stage 4, 4000 rpm');
    expect(limited(6).says).toBe('hold 4: limited to stage 6: go on at stage 4, 4000 rpm');
  });
  it('cools first where it was to cool, and what ended it is lifted', () => {
    const hot: Step[] = [...three(66), [4, 4, 71]];
    expect(judged(hot, { upTo: 2, limitedAfter: 4 }).says).toBe(
      'back-off 2: limited to stage 2: stand still, cool to 25 °C or below, then resume at stage 2, 2000 rpm (stand)',
    );
    const ends: Step[] = [...three(55), [[4, 4, 55], { since: 180, heading: [66, 0] }]];
    expect(judged(ends)).toMatchObject({ ends: true });
    expect(judged(ends, { upTo: 2, limitedAfter: 4 })).toMatchObject({ stage: 2, standing: true, ends: false });
    expect(judged([...ends, [0, 20, 30]], { upTo: 2, limitedAfter: 4 }).says).toBe(
      'back-off 2: it heads for 66 ± 1 °C at this stage: stand still, cool to 25 °C or below, then resume at stage 2, 2000 rpm (stand)',
    );
    expect(judged([...ends, [0, 20, 25]], { upTo: 2, limitedAfter: 4 }).says).toBe(
      'hold 2: it stands still: go on at stage 2, 2000 rpm',
    );
  });
  it('is judged as a whole one up to the reading at which it was limited', () => {
    const to = (limitedAfter: number) => judged(four, { upTo: 3, limitedAfter });
    expect([to(5).says.slice(0, 6), to(0).says.slice(0, 6)]).toEqual(['next 5', 'back-o']);
  });
});
