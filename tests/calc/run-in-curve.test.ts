/** A run-in's curve is its fit, told what went by between the readings; the fit itself stands in run-in-fit.test.ts. */
import { describe, expect, it } from 'vitest';
import { riseAt } from '../../src/calc/run-in-ahead.js';
import { Curve } from '../../src/calc/run-in-curve.js';
import { type Estimate, HeadingFit } from '../../src/calc/run-in-fit.js';

const room = 20;
const over = ({ mean, sd }: Estimate): Estimate => ({ mean: room + mean, sd });

describe('A: what a curve tells its fit', () => {
  const fit = new HeadingFit(5, 0.25);
  const curve = new Curve(room, [0.25, 0.5, 1]);
  const add = (stage: number, minutes: number, temp: number) => curve.add({ stage, minutes, temp });
  const same = () => {
    expect(curve.heading()).toEqual(over(fit.heading()));
    expect(curve.soon(7)).toEqual(over(fit.soon(7)));
    expect(curve.housing()).toBe(room + fit.housing());
    expect(curve.rate()).toEqual(fit.rate());
    expect(curve.timeConstant()).toEqual(fit.timeConstant());
  };
  it('each reading with the time since the one before; a change of speed a minute after the reading that told it', () => {
    // Nothing is known before the first.
    expect([curve.heading(), curve.soon(5), curve.housing(), curve.rate(), curve.since]).toEqual([
      ...[{ mean: 20, sd: 5 }, { mean: 20, sd: 5 }, 20, { mean: 0, sd: 1 }, 0],
    ]);
    expect([curve.timeConstant(), curve.entry(1, 5, 70)]).toEqual([undefined, { hot: 20, from: 20 }]);
    add(1, 10, 25);
    same();
    for (const [minutes, temp, gap] of [
      [15, 28, 5],
      [20, 29, 5],
      // Two at one time count as a quarter of a minute apart.
      [20, 29.2, 0],
    ] as const) {
      add(1, minutes, temp);
      fit.pass(gap);
      fit.read(temp - room, Math.max(0.25, gap));
      same();
    }
    expect(curve.since).toBe(10);
    const toFaster = riseAt(1, [{ ...fit.heading(), speed: 0.25 }]);
    expect(curve.headingAt(3)).toEqual(over(toFaster));

    add(2, 24, 33);
    fit.pass(1);
    const one = { ...fit.heading(), speed: 0.25 };
    fit.turn(0.5);
    fit.pass(3);
    fit.read(13, 4);
    same();
    // It was told at minute 20.
    expect(curve.since).toBe(4);
    expect(curve.headingAt(3)).toEqual(over(riseAt(1, [one, { ...fit.heading(), speed: 0.5 }])));
    expect(curve.headingAt(2)).toEqual(curve.heading());

    add(0, 30, 34);
    fit.pass(1);
    const two = { ...fit.heading(), speed: 0.5 };
    fit.turn(0);
    fit.pass(5);
    fit.read(14, 6);
    same();
    expect(curve.headingAt(3)).toEqual(over(riseAt(1, [one, two])));

    // Set again a lower one, half-way where less than two minutes went by.
    add(1, 31, 33);
    fit.pass(0.5);
    fit.turn(0.25);
    fit.pass(0.5);
    fit.read(13, 1);
    same();
    expect(curve.headingAt(3)).toEqual(over(riseAt(1, [two, { ...fit.heading(), speed: 0.25 }])));
    add(3, 40, 36);
    fit.pass(1);
    const again = { ...fit.heading(), speed: 0.25 };
    fit.turn(1);
    fit.pass(8);
    fit.read(16, 9);
    same();
    expect(curve.headingAt(1)).toEqual(over(riseAt(0.25, [again, two, { ...fit.heading(), speed: 1 }])));
    // Entered now from this housing; and from where, if it is to reach 70 degC by then.
    const here = fit.entry(riseAt(1, [again, two, { ...fit.heading(), speed: 1 }]).mean, 15);
    expect(curve.entry(3, 15, 70)).toEqual({
      hot: room + here.kept * fit.housing() + here.made,
      from: room + (70 - room - here.made) / here.kept,
    });
  });
});

describe('A: friction that grew from stage to stage with more than the square of speed', () => {
  /** Each stage stands at its end for ten hours. */
  const settled = (...rises: number[]) => {
    const curve = new Curve(room, [0.25, 0.5, 0.75, 1]);
    rises.forEach((rise, i) => {
      for (let n = 0; n < 60; n++) curve.add({ stage: i + 1, minutes: 600 * i + 10 * n, temp: room + rise });
    });
    return curve;
  };
  it('counts up to the stage before this one', () => {
    // ln(40 / 8) / ln 2 = 2.3; ln(30 / 8) / ln 2 = 1.9.
    expect([settled(8, 40, 50).grew, settled(8, 30, 40).grew]).toEqual([true, false]);
    expect([settled(8, 40).grew, settled(8).grew, new Curve(room, [1]).grew]).toEqual([false, false, false]);
  });
  it('runs on so, or is the room', () => {
    // Beyond 2, less half of what it is off, and that twice: (1 / 0.5)^(2.2 + 2 x 0.2) at the least.
    expect(settled(8, 40).runawayAt(4)).toBeGreaterThan(room + 40 * 2 ** 2.4);
    expect(settled(8, 30).runawayAt(4)).toBe(room);
  });
});
