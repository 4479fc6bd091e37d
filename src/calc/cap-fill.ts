/**
 * Grease in the caps of an open bearing, mL and g: a share of the free room of each cap beside the bearing.
 * Room: a hollow cylinder pi/4 (D^2 - d^2) b, or as measured. Share: 30 to 50 % at ordinary speed, less the faster: 30 % above
 * n dm 90 000, 15 to 30 % above 500 000, none above 1 000 000. A cap is never filled up: the bearing throws its surplus there.
 * Old grease left in a cap mixes back in, so it is cleaned out first. Common practice, no source.
 */
import { defineCalculator } from './define.js';
import { commonPractice, figure, length, ndm, quantityInput, result } from './spec.js';
import { constant } from './table.js';
import { CalcRefusal } from './types.js';
import { propagate } from './uncertainty.js';

export const capFill = defineCalculator({
  name: 'cap-fill',
  title: 'Grease in the caps beside an open bearing',
  inputs: {
    outside: length('Inside diameter of the cap', [5, 2000], true),
    shaft: length('Shaft or spacer through it', [1, 1500], true),
    depth: length('Free depth beside the bearing', [0.5, 500], true),
    room: quantityInput('Free room of the cap, measured', 'volume', 'mL', [0.1, 50_000], true),
    ndm: ndm(),
    density: quantityInput('Density of the grease', 'density', 'g/mL', [0.7, 2.2], true),
  },
  results: {
    room: result('Free room of the cap', 'volume', 'mL'),
    shareLow: result('Share, from', 'share', '%'),
    shareHigh: result('Share, to', 'share', '%'),
    low: result('Grease in this cap, from', 'volume', 'mL'),
    high: result('Grease in this cap, to', 'volume', 'mL'),
    mass: result('By weight, the smaller', 'mass', 'g'),
  },
  formula: 'room = pi/4 (D^2 - d^2) b; grease = room x share',
  source: commonPractice('30 to 50 % of the room of the caps at ordinary speed, less the faster'),
  run: (given, tables) => {
    const sides = ['outside', 'shaft', 'depth'];
    const measured = given.maybe('room');
    const some = sides.filter((key) => given.has(key));
    if (measured && some.length > 0)
      throw new CalcRefusal('room', 'Give the room of the cap one way: measured, or by its three dimensions.');
    const missing = sides.find((key) => !given.has(key));
    if (!measured && missing)
      throw new CalcRefusal(
        missing,
        'The room of the cap is missing: measure it, or give its inside diameter, the shaft and the free depth, such as 80, 40 and 12 mm.',
      );
    const room = measured
      ? propagate({ room: measured }, (x) => x.room)
      : propagate(
          { outside: given.number('outside'), shaft: given.number('shaft'), depth: given.number('depth') },
          (x) => ((Math.PI / 4) * (x.outside ** 2 - x.shaft ** 2) * x.depth) / 1000,
        );
    if (room.value <= 0)
      throw new CalcRefusal('shaft', 'The shaft must be thinner than the cap is wide: measure again.');
    const factor = given.number('ndm');
    const fast = factor.value + (factor.plusMinus ?? 0);
    const [low, high] = fast > 1_000_000 ? [0, 0] : fast > 500_000 ? [15, 30] : fast >= 90_000 ? [30, 40] : [30, 50];
    const density = given.maybe('density') ?? constant(tables, 'densities', 'grease');
    const at = (share: number) => propagate({ room }, (x) => (x.room * share) / 100);
    return {
      results: {
        room,
        shareLow: { value: low },
        shareHigh: { value: high },
        low: at(low),
        high: at(high),
        mass: propagate({ room, density }, (x) => ((x.room * low) / 100) * x.density),
      },
      warnings: [
        'Clean the old grease out of the cap first: it mixes back in.',
        'This is beside the bearing, not in it: the dose of the bearing comes from its own free volume.',
        ...(fast > 1_000_000 ? ['At this speed nothing goes into the caps: it would be drawn in and churn.'] : []),
        ...(given.has('density')
          ? []
          : ['A density of 0.9 g/mL was taken; a fluorinated (PFPE) grease has about 1.9.']),
      ],
      worked: [
        `room = ${figure(room.value)} mL`,
        `${figure(room.value)} mL x ${low} to ${high} % = ${figure((room.value * low) / 100)} to ${figure((room.value * high) / 100)} mL`,
      ],
    };
  },
});
