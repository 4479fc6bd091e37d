import { describe, expect, it } from 'vitest';
import { calc, refusal } from './support.js';

type Row = [stage: number, minutes: number, temp: number, sound?: string];
const stages = Array.from({ length: 10 }, (_, i) => (i + 1) * 1200).join(',');

function step(rows: Row[], more = '') {
  const lists =
    rows.length === 0
      ? ''
      : ` atStage=${rows.map((r) => r[0]).join(',')} minutes=${rows.map((r) => r[1]).join(',')} temps=${rows.map((r) => r[2]).join(',')} sounds=${rows.map((r) => r[3] ?? 'smooth').join(',')}`;
  const { results } = calc(`run-in-step stages=${stages} ambient=22${lists}${more}`);
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
  it('holds until the temperature has settled, after 15 min at the least', () => {
    expect(step([[1, 0, 22]])).toMatchObject({ decision: 'hold', stage: 1, settled: false });
    expect(
      step([
        [1, 0, 25],
        [1, 5, 25],
        [1, 10, 25],
      ]),
    ).toMatchObject({ decision: 'hold' });
    expect(
      step([
        [1, 0, 22],
        [1, 5, 25],
        [1, 10, 28],
        [1, 15, 31],
      ]),
    ).toMatchObject({ decision: 'hold', settled: false });
    expect(
      step([
        [1, 0, 25],
        [1, 15, 25],
      ]),
    ).toMatchObject({ decision: 'hold' });
  });
  it('goes on once settled', () => {
    expect(step(settledAt(1, 0, 26))).toMatchObject({ decision: 'next', stage: 2, speed: 2400, settled: true });
  });
  it('P: stops at 70 C, cools, resumes at the last speed before', () => {
    const hot: Row[] = [...settledAt(1, 0, 26), ...settledAt(2, 20, 30), [3, 40, 32], [3, 60, 70]];
    expect(step(hot)).toMatchObject({ decision: 'stop', speed: 0, standing: true });
    expect(step([...hot, [3, 70, 50]])).toMatchObject({ decision: 'back-off', stage: 2, standing: true });
    expect(step([...hot, [2, 120, 26]])).toMatchObject({ decision: 'hold', stage: 2 });
  });
  it('P: a rapid rise backs off to the last speed before the spike, after cooling to room', () => {
    const spike: Row[] = [...settledAt(1, 0, 26), ...settledAt(2, 20, 30), [3, 37, 40]];
    expect(step(spike)).toMatchObject({ decision: 'back-off', stage: 2, speed: 2400, standing: true });
    expect(step([...spike, [3, 45, 38]])).toMatchObject({ decision: 'back-off', stage: 2 });
    const cooled: Row[] = [...spike, [2, 90, 25]];
    expect(step(cooled)).toMatchObject({ decision: 'hold', stage: 2 });
    expect(step([...cooled, ...settledAt(2, 95, 30)])).toMatchObject({ decision: 'next', stage: 3 });
    expect(step([...cooled, [3, 95, 26]])).toMatchObject({ decision: 'back-off', stage: 2 });
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
    const stands: Row[] = [...settledAt(1, 0, 26), [2, 20, 27], [2, 21, 31], [0, 24, 40], [0, 60, 24]];
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
  it('does not go on within 5 K of the limit', () => {
    expect(
      step([
        [1, 0, 60],
        [1, 10, 66],
        [1, 20, 66],
        [1, 25, 66],
        [1, 30, 66],
      ]),
    ).toMatchObject({ decision: 'hold', settled: true });
  });
  it('is complete once the top speed has settled', () => {
    const rows = Array.from({ length: 10 }, (_, i) => settledAt(i + 1, i * 20, 26 + i)).flat();
    expect(step(rows)).toMatchObject({ decision: 'complete', stage: 10, speed: 12000 });
    expect(step(rows.slice(0, -1))).toMatchObject({ decision: 'hold', stage: 10 });
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
});
