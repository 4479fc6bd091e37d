import { describe, expect, it } from 'vitest';
import { calc, refusal } from './support.js';

type Row = [stage: number, minutes: number, temp: number, sound?: string];
const stages = Array.from({ length: 10 }, (_, i) => (i + 1) * 1200).join(',');

const lists = (rows: Row[]): string =>
  rows.length === 0
    ? ''
    : `atStage=${rows.map((r) => r[0]).join(',')} minutes=${rows.map((r) => r[1]).join(',')} temps=${rows.map((r) => r[2]).join(',')} sounds=${rows.map((r) => r[3] ?? 'smooth').join(',')}`;

function step(rows: Row[], more = '') {
  const { results } = calc(`run-in-step stages=${stages} ambient=22${rows.length ? ' ' : ''}${lists(rows)}${more}`);
  return Object.fromEntries(Object.entries(results).map(([key, r]) => [key, r.value as unknown]));
}
const settledAt = (stage: number, from: number, temp: number): Row[] => [
  [stage, from, temp - 2],
  [stage, from + 5, temp],
  [stage, from + 10, temp],
  [stage, from + 15, temp],
];

describe('run-in step', () => {
  it('begins at the first stage', () => {
    expect(step([])).toMatchObject({ decision: 'hold', stage: 1, speed: 1200 });
  });
  it('holds for 15 min at the least, then while it still climbs', () => {
    expect(step([[1, 0, 22]])).toMatchObject({ decision: 'hold', stage: 1, settled: false });
    const steady: Row[] = [
      [1, 0, 25],
      [1, 5, 25],
      [1, 10, 25],
    ];
    expect(step(steady)).toMatchObject({ decision: 'hold', nextReading: 5 });
    const climbs: Row[] = [
      [1, 0, 22],
      [1, 5, 25],
      [1, 10, 28],
      [1, 15, 31],
    ];
    expect(step(climbs)).toMatchObject({ decision: 'hold', settled: false });
  });
  it.each([1, 2, 5, 10, 15])('goes on for whoever reads every %d min', (every) => {
    const rows: Row[] = [];
    for (let t = 0; t <= 45; t += every) rows.push([1, t, 25]);
    expect(step(rows)).toMatchObject({ decision: 'next', stage: 2 });
  });
  it('goes on once settled', () => {
    expect(step(settledAt(1, 0, 26))).toMatchObject({ decision: 'next', stage: 2, speed: 2400, settled: true });
  });
  it('P: stops at 70 C, cools, resumes at the last speed before', () => {
    const hot: Row[] = [...settledAt(1, 0, 26), ...settledAt(2, 20, 30), [3, 40, 32], [3, 60, 70]];
    expect(step(hot)).toMatchObject({ decision: 'stop', speed: 0, standing: true, ends: false });
    expect(step([...hot, [0, 70, 50]])).toMatchObject({ decision: 'back-off', stage: 2, standing: true });
    expect(step([...hot, [0, 120, 26]])).toMatchObject({ decision: 'hold', stage: 2, standing: false });
  });
  it('P: a rapid rise backs off to the last speed before the spike, after cooling to room', () => {
    const spike: Row[] = [...settledAt(1, 0, 26), ...settledAt(2, 20, 30), [3, 38, 52]];
    expect(step(spike)).toMatchObject({ decision: 'back-off', stage: 2, speed: 2400, standing: true });
    expect(step([...spike, [0, 45, 38]])).toMatchObject({ decision: 'back-off', stage: 2 });
    const cooled: Row[] = [...spike, [0, 90, 25]];
    expect(step(cooled)).toMatchObject({ decision: 'hold', stage: 2 });
    expect(step([...cooled, ...settledAt(2, 95, 30), [2, 115, 30]])).toMatchObject({ decision: 'next', stage: 3 });
    expect(step([...cooled, [3, 95, 26]])).toMatchObject({ decision: 'back-off', stage: 2 });
  });
  it('stands until it has cooled to a room that is warmer than was typed', () => {
    const spike: Row[] = [...settledAt(1, 0, 31), ...settledAt(2, 20, 34), [3, 38, 57]];
    const stands = (temps: number[]): Row[] => temps.map((t, i): Row => [0, 100 + 15 * i, t]);
    expect(step([...spike, ...stands([34, 31, 30])])).toMatchObject({ decision: 'back-off' });
    expect(step([...spike, ...stands([34, 31, 30, 30, 30])])).toMatchObject({ decision: 'hold', stage: 2 });
  });
  it('a jump over a stage, or on before it settled, is sent back', () => {
    expect(step([...settledAt(1, 0, 26), [3, 20, 27]])).toMatchObject({ decision: 'back-off', stage: 2 });
    expect(
      step([
        [1, 0, 24],
        [2, 3, 25],
      ]),
    ).toMatchObject({ decision: 'back-off', stage: 1 });
  });
  it.each(['rough', 'grinding'])(
    'P: JTEKT, stop on noise or roughness: %s stops, and no later reading lifts it',
    (sound) => {
      expect(
        step([
          [1, 0, 22],
          [1, 5, 25, sound],
        ]),
      ).toMatchObject({ decision: 'stop', speed: 0 });
      expect(step([[1, 0, 22], [1, 5, 25, sound], ...settledAt(1, 10, 26)])).toMatchObject({ decision: 'stop' });
    },
  );
  it('a reading while it stands still counts as no stage', () => {
    const stands: Row[] = [...settledAt(1, 0, 26), [2, 20, 27], [2, 22, 49], [0, 24, 45], [0, 60, 24]];
    expect(step(stands.slice(0, 7))).toMatchObject({ decision: 'back-off', stage: 1, standing: true, aheadCount: 0 });
    expect(step(stands)).toMatchObject({ decision: 'hold', stage: 1, standing: false, aheadCount: 0 });
    expect(step([...stands, [0, 65, 24], [0, 75, 24], [0, 80, 24]])).toMatchObject({ decision: 'hold', stage: 1 });
  });
  it('a hiss holds', () => {
    expect(step([...settledAt(1, 0, 26), [1, 20, 26, 'hiss']])).toMatchObject({ decision: 'hold', stage: 1 });
  });
  it('a hiss that goes on for half an hour stops it, until it turns smooth', () => {
    const hissing = Array.from({ length: 7 }, (_, i): Row => [1, 20 + 5 * i, 26, 'hiss']);
    expect(step([...settledAt(1, 0, 26), ...hissing.slice(0, 6)])).toMatchObject({ decision: 'hold' });
    expect(step([...settledAt(1, 0, 26), ...hissing])).toMatchObject({ decision: 'stop', speed: 0 });
    expect(step([...settledAt(1, 0, 26), ...hissing, [1, 55, 26, 'smooth']])).toMatchObject({ decision: 'next' });
  });
  it('does not go on within 5 K of the limit, and says so for good in the end', () => {
    const near = (minutes: number): Row[] => {
      const rows: Row[] = [[1, 0, 60]];
      for (let t = 10; t <= minutes; t += 10) rows.push([1, t, 66.5]);
      return rows;
    };
    expect(step(near(30)).decision).not.toBe('next');
    expect(step(near(240))).toMatchObject({ decision: 'stop', ends: true });
    expect(step(near(240)).why).toMatch(/limited run-in/);
  });
  it('P: takes no limit above 70 C unless it is documented, and none above 110 C', () => {
    expect(refusal(`run-in-step stages=${stages} ambient=22 limit=80`)).toMatch(/^limit: .*70 °C.*documented/);
    expect(step([], ' limit=95 documented=yes')).toMatchObject({ decision: 'hold', stage: 1 });
    expect(refusal(`run-in-step stages=${stages} ambient=22 limit=120 documented=yes`)).toMatch(/^limit: .*110/);
  });
  it('refuses lists that do not match, time that runs back, stages that are not there', () => {
    expect(
      refusal(`run-in-step stages=${stages} ambient=22 atStage=1,1 minutes=0,5 temps=22 sounds=smooth,smooth`),
    ).toMatch(/^temps: /);
    expect(
      refusal(`run-in-step stages=${stages} ambient=22 atStage=1,1 minutes=5,0 temps=22,22 sounds=smooth,smooth`),
    ).toMatch(/^minutes: /);
    expect(refusal(`run-in-step stages=${stages} ambient=22 atStage=11 minutes=5 temps=22 sounds=smooth`)).toMatch(
      /^atStage: /,
    );
  });
  it('refuses temperatures of the other bearing that do not match', () => {
    expect(
      refusal(
        `run-in-step stages=${stages} ambient=22 atStage=1,1 minutes=0,5 temps=22,22 sounds=smooth,smooth other=22`,
      ),
    ).toMatch(/^other: /);
  });
});

/** Readings of a ring that follows `dT/dt = (end - T) / tau`, the closed form of one heat balance. */
function approach(stage: number, from: number, start: number, end: number, tau: number, times: number[]): Row[] {
  return times.map((t): Row => [stage, from + t, Number((end + (start - end) * Math.exp(-t / tau)).toFixed(1))]);
}
const every = (gap: number, minutes: number): number[] =>
  Array.from({ length: Math.floor(minutes / gap) + 1 }, (_, i) => i * gap);
/** Nine stages that settle, each 2 K above the last; the last ends at 42 degC after 180 min. */
const nine = Array.from({ length: 9 }, (_, i) =>
  approach(i + 1, 20 * i, 24 + 2 * i, 26 + 2 * i, 4, every(5, 15)),
).flat();

describe('the end of the run-in', () => {
  it('P: IEC 60034-1, not more than 2 K per hour: a ring that climbs 5 K an hour is not settled', () => {
    // tau 60, 13 K to come, 4.8 K/h at minute 60: 13 / e. Moving by 1 K in 10 min, it is far from its end.
    const climbs = approach(10, 180, 42, 55, 60, every(5, 60));
    expect(step([...nine, ...climbs])).toMatchObject({ decision: 'hold', stage: 10 });
  });
  it('is complete once it moves by 2 K an hour at most, and says where it is heading', () => {
    const done = step([...nine, ...approach(10, 180, 42, 48, 20, every(10, 120))]);
    expect(done).toMatchObject({ decision: 'complete', stage: 10, speed: 12000, settled: true });
    expect(Math.abs(Number(done.heading) - 48)).toBeLessThan(2);
  });
  it('keeps the margin to the limit at the last stage too', () => {
    expect(step([...nine, ...approach(10, 180, 42, 69.7, 20, every(5, 180))]).decision).not.toBe('complete');
  });
  it('of a limited run-in lies at the stage that was chosen', () => {
    const half = [...nine.slice(0, 16), ...approach(5, 80, 32, 36, 10, every(10, 120))];
    expect(step(half, ' upTo=5')).toMatchObject({ decision: 'complete', stage: 5, speed: 6000 });
    expect(step(half)).toMatchObject({ decision: 'next', stage: 6 });
  });
});

describe('what is coming', () => {
  it('is foretold: a ring of tau 45 that ends at 60 degC, by an hour at its last stage', () => {
    // Stage k heads for 22 + 38 (k / 10)^1.4 degC; 20 min each; the balance of heat is solved in closed form.
    const ends = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10].map((k) => 22 + 38 * (k / 10) ** 1.4);
    const rows: Row[] = [];
    let start = 22;
    ends.forEach((end, i) => {
      rows.push(...approach(i + 1, 20 * i, start, end, 45, i === 9 ? every(5, 60) : [1, 6, 11, 16]));
      start = end + (start - end) * Math.exp(-20 / 45);
    });
    const { results } = calc(`run-in-step stages=${stages} ambient=22 ${lists(rows)}`);
    const { value, plusMinus } = results.heading as unknown as { value: number; plusMinus: number };
    expect(Math.abs(value - 60)).toBeLessThan(plusMinus);
    expect(plusMinus).toBeLessThan(14);
    // It is known half-way up as well, less well: the end at top speed from stage 6.
    const early = calc(`run-in-step stages=${stages} ambient=22 ${lists(rows.filter((r) => r[0] <= 6))}`).results;
    const top = early.headingTop as unknown as { value: number; plusMinus: number };
    expect(Math.abs(top.value - 60)).toBeLessThan(top.plusMinus);
  });
  it('a fifth of top speed and 41 K above the other bearing is sent back, not on', () => {
    const before: Row[] = [
      [1, 0, 22],
      [1, 5, 22.8],
      [1, 10, 23.2],
      [1, 15, 23.5],
    ];
    const temps = [24, 33.5, 43, 52.5, 62, 64.9, 64.9, 64.9];
    const away = temps.map((t, i): Row => [2, 20 + 5 * i, t]);
    const said = temps.map((_, i) => {
      const rows = [...before, ...away.slice(0, i + 1)];
      return step(rows, ` other=${rows.map((r) => (r[0] === 1 ? r[2] : 24.1)).join(',')}`);
    });
    expect(said.map((s) => s.decision)).not.toContain('next');
    expect(said[2]).toMatchObject({ decision: 'back-off', stage: 1, standing: true });
    expect(said[2]?.why).toMatch(/19 K above the other bearing/);
  });
  it('asks for the next reading sooner the hotter it is heading', () => {
    const calm = step([...nine, [10, 181, 42.5]]).nextReading;
    const hot = step([...nine, [10, 181, 42.5], [10, 184, 50], [10, 187, 54]]).nextReading;
    expect(Number(hot)).toBeLessThan(Number(calm));
  });
  it('says so where a reading came late', () => {
    const { warnings } = calc(
      `run-in-step stages=${stages} ambient=22 ${lists([
        [1, 0, 22],
        [1, 40, 25],
      ])}`,
    );
    expect(warnings.join(' ')).toMatch(/25 min after it was due/);
  });
});

it('says of a log that grew what it says of the same log at once, whatever was judged in between', () => {
  const grown = settledAt(1, 0, 26).concat(settledAt(2, 20, 31), [[3, 40, 33, 'hiss']], settledAt(3, 45, 36));
  const said = grown.map((_, i) => step(grown.slice(0, i + 1)));
  // Four others, so that none of this log is remembered.
  for (const temp of [27, 28, 29, 30]) step(settledAt(1, 0, temp));
  const atOnce = grown.map((_, i) => {
    for (const temp of [27, 28, 29, 30]) step(settledAt(1, 0, temp));
    return step(grown.slice(0, i + 1));
  });
  expect(said).toEqual(atOnce);
  // A reading that is corrected since changes the judgement.
  const corrected = grown.map((r, i): Row => (i === 2 ? [1, 10, 60] : r));
  expect(step(corrected)).not.toEqual(said.at(-1));
});
