/** What a run-in expects of speeds that it has not reached, from formulas in words. */
import { describe, expect, it } from 'vitest';
import { riseAt } from '../../src/calc/run-in-ahead.js';
import { runaway } from '../../src/calc/run-in-unread.js';

describe('A: what a higher speed is heading for', () => {
  const at = (speed: number, ...stages: [speed: number, mean: number, sd: number][]) =>
    riseAt(
      speed,
      stages.map(([of, mean, sd]) => ({ speed: of, mean, sd })),
    );
  const near = (found: { mean: number; sd: number }, mean: number, sd: number): void => {
    expect(found.mean).toBeCloseTo(mean, 3);
    expect(found.sd).toBeCloseTo(sd, 3);
  };
  it('is not known before anything turned, and the same at the same speed', () => {
    expect(at(0.5)).toEqual({ mean: 0, sd: Number.POSITIVE_INFINITY });
    expect(at(0.5, [0.5, 12, 2])).toEqual({ mean: 12, sd: 2 });
  });
  // Worked out apart from the program from the formula in words: ln u on ln s, power 1.4 +- 0.35 before anything is known, the
  // rest of a pair by its own scatter and 1.5 K of offset. Pairs nearer than 0.15 in ln s, or below 1 K, say nothing.
  const rows: [speed: number, stages: [number, number, number][], mean: number, sd: number][] = [
    [0.4, [[0.2, 10, 1]], 26.3902, 7.3909],
    [0.1, [[0.2, 10, 1]], 3.7893, 1.3673],
    [
      0.3,
      [
        [0.1, 4, 0.5],
        [0.2, 10, 1],
      ],
      17.566,
      3.1666,
    ],
    [
      0.5,
      [
        [0.1, 4, 0.5],
        [0.2, 10, 1],
        [0.3, 21, 1],
      ],
      45.0165,
      6.8825,
    ],
    [
      0.4,
      [
        [0.1, 0.99, 0.5],
        [0.2, 10, 1],
      ],
      26.3902,
      7.3909,
    ],
    [
      0.4,
      [
        [0.1, 1, 0.5],
        [0.2, 10, 1],
      ],
      26.7971,
      7.4802,
    ],
    [
      0.4,
      [
        [0.1, 4, 0.5],
        [0.2, 0.99, 1],
      ],
      2.6126,
      3.6629,
    ],
    [
      0.4,
      [
        [0.1, 4, 0.5],
        [0.2, 1, 1],
      ],
      2.5863,
      3.5703,
    ],
    [
      0.4,
      [
        [0.18, 9, 0.5],
        [0.2, 10, 1],
      ],
      26.3902,
      7.3909,
    ],
    [
      0.4,
      [
        [0.17, 9, 0.5],
        [0.2, 10, 1],
      ],
      26.05,
      7.2207,
    ],
    [
      0.4,
      [
        [0.1, 40, 0.2],
        [0.2, 41, 0.2],
      ],
      62.1444,
      8.0765,
    ],
    [
      0.4,
      [
        [0.02, 40, 0.2],
        [0.2, 38, 0.2],
      ],
      57.5972,
      7.4921,
    ],
    [
      0.8,
      [
        [0.05, 2, 0.0],
        [0.1, 60, 0.1],
        [0.2, 400, 0.1],
      ],
      12020.018,
      2963.7194,
    ],
    [0.8, [[0.2, -3, 1]], 0.0, 11.3378],
    [
      1,
      [
        [0.1, 90, 0.1],
        [0.2, 240, 0.1],
        [0.4, 630, 0.1],
        [0.5, 860, 0.1],
      ],
      2264.8843,
      193.8003,
    ],
  ];
  it.each(rows)('%s after %j: %s +- %s', (speed, stages, mean, sd) => near(at(speed, ...stages), mean, sd));
});

describe('A: friction that grows by itself', () => {
  const at = (speed: number, ...stages: [speed: number, mean: number, sd: number][]): number =>
    runaway(
      speed,
      stages.map(([of, mean, sd]) => ({ speed: of, mean, sd })),
    );
  // Power of the rise above an earlier stage, less half its scatter; beyond 2 it goes on to grow by twice what is beyond.
  const rows: [speed: number, stages: [number, number, number][], rise: number][] = [
    [
      0.4,
      [
        [0.1, 5, 0.5],
        [0.2, 30, 0.5],
      ],
      250.3857,
    ],
    [
      0.4,
      [
        [0.1, 4.9, 0.5],
        [0.2, 30, 0.5],
      ],
      0.0,
    ],
    [
      0.4,
      [
        [0.1, 1, 0.5],
        [0.2, 9.9, 0.5],
      ],
      0.0,
    ],
    [
      0.4,
      [
        [0.1, 5, 0.1],
        [0.2, 10, 0.1],
      ],
      0.0,
    ],
    [
      0.6,
      [
        [0.1, 5, 0.1],
        [0.2, 28, 0.1],
        [0.3, 80, 0.1],
      ],
      941.6378,
    ],
    [
      0.6,
      [
        [0.1, 5, 0.1],
        [0.2, 6, 0.1],
        [0.3, 7, 0.1],
        [0.4, 8, 0.1],
        [0.5, 90, 0.1],
      ],
      12991.6427,
    ],
    [
      0.6,
      [
        [0.5, 200, 0.1],
        [0.1, 5, 0.1],
        [0.2, 30, 0.1],
      ],
      899.3629,
    ],
    [
      0.9,
      [
        [0.2, 50, 2],
        [0.4, 260, 2],
      ],
      3023.074,
    ],
    [
      0.9,
      [
        [0.2, 50, 2],
        [0.4, 200, 2],
      ],
      0.0,
    ],
    [0.9, [[0.2, 50, 2]], 0.0],
  ];
  it.each(rows)('%s after %j: %s', (speed, stages, rise) => expect(at(speed, ...stages)).toBeCloseTo(rise, 3));
  it('nothing before anything turned', () => expect(at(0.5)).toBe(0));
});
