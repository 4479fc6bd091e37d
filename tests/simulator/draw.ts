/**
 * Rotors drawn by chance, the same for the same seed. The network is worked back from what is drawn: the end temperature
 * at top speed, the slow and the fast time constant, and the share of the rise that lies between ring and housing.
 */
import { type BearingSpec, frictionHeat, type Grease } from '../../src/simulator/bearing.js';
import type { Random } from '../../src/simulator/random.js';
import type { RotorSpec } from '../../src/simulator/rotor.js';

/** What is wrong with it, or nothing. */
const faults = ['none', 'spike', 'stuck', 'preload', 'dry', 'badly-cooled'] as const;
export type Fault = (typeof faults)[number];

export interface Drawn {
  readonly rotor: RotorSpec;
  readonly fault: Fault;
  /** The bearing that has it, where it is one of the two. */
  readonly where: 0 | 1;
  /** Slow time constant of the housing, min. */
  readonly slow: number;
}

interface Shared {
  readonly top: number;
  readonly room: number;
  readonly slow: number;
  readonly dm: number;
  readonly oil: Grease['oil'];
  readonly f0: number;
  readonly motor: number;
  readonly ringShare: number;
}

const count = 10;
const none = Array.from({ length: count }, () => 0);

function bearing(
  random: Random,
  s: Shared,
  rise: number,
  grease: Partial<Grease>,
  forcePerKelvin: number,
): BearingSpec {
  const dm = s.dm * random.between(0.85, 1.15);
  const staticRating = 6.2 * dm * dm * random.between(0.9, 1.1);
  const smooth: Grease = {
    oil: s.oil,
    f0: s.f0 * random.between(0.9, 1.1),
    excess: random.between(0, 0.4),
    lumps: none.map(() => random.between(0, 0.12)),
    lumpAfter: random.between(0, 3),
    stuck: 0,
    workOut: random.ratio(4, 20),
    drying: 0,
    driest: 0,
  };
  const force = staticRating * random.between(0.005, 0.03);
  const bare: BearingSpec = {
    dm,
    staticRating,
    force,
    forcePerKelvin,
    grease: smooth,
    ringHeat: 1,
    housingHeat: 1,
    ringToHousing: 1,
    housingToRoom: 1,
    motor: 0,
  };
  // Conductances that bring the smooth bearing to its rise at top speed.
  const lead = s.ringShare * rise;
  const heat = frictionHeat({ ...bare, forcePerKelvin: 0 }, s.room + rise, s.room + rise - lead, 0, s.top);
  const motor = s.motor * heat;
  const ringToHousing = heat / lead;
  const housingToRoom = (heat + motor) / (rise - lead);
  return {
    ...bare,
    grease: { ...smooth, ...grease },
    ringToHousing,
    housingToRoom,
    motor,
    ringHeat: 60 * random.ratio(1.5, 7) * ringToHousing,
    housingHeat: 60 * s.slow * random.between(0.9, 1.1) * housingToRoom,
  };
}

/** How often each fault is drawn. */
const often: Readonly<Record<Fault, number>> = {
  none: 0.34,
  spike: 0.26,
  stuck: 0.14,
  preload: 0.12,
  dry: 0.06,
  'badly-cooled': 0.08,
};

function drawFault(random: Random): Fault {
  let left = random.between(0, 1);
  for (const fault of faults) {
    left -= often[fault];
    if (left < 0) return fault;
  }
  return 'none';
}

/** Time constants 20 to 150 min, rooms 10 to 35 degC; a fault in one of the two bearings or, in one of four, in both. */
export function drawRotor(random: Random, fault: Fault = drawFault(random)): Drawn {
  const dm = random.ratio(28, 75);
  const nu40 = random.ratio(15, 100);
  const s: Shared = {
    top: random.ratio(250_000, 900_000) / dm,
    room: random.between(10, 35),
    slow: random.ratio(20, 150),
    dm,
    oil: [
      { nu: nu40, t: 40 },
      { nu: Math.max(2.2, 0.55 * nu40 ** 0.66), t: 100 },
    ],
    f0: random.between(0.7, 2),
    motor: random.chance(0.5) ? random.between(0, 0.8) : 0,
    ringShare: random.between(0.15, 0.5),
  };
  const usual = random.between(10, Math.min(38, 63 - s.room));
  const where = random.chance(0.5) ? 1 : 0;
  const both = random.chance(0.25);
  const one = (i: 0 | 1): BearingSpec => {
    const rise = usual * random.between(0.75, 1);
    if (i !== where && !both) return bearing(random, s, rise, {}, 0);
    switch (fault) {
      case 'spike': {
        const lumps = none.map(() => (random.chance(0.3) ? random.between(0.5, 4.5) : random.between(0, 0.15)));
        return bearing(
          random,
          s,
          rise,
          { lumps, excess: random.between(0, 2), workOut: random.ratio(4, 15), lumpAfter: random.between(0, 12) },
          0,
        );
      }
      case 'stuck':
        return bearing(random, s, rise, { stuck: random.between(0.4, 4), excess: random.between(0.5, 2) }, 0);
      case 'preload':
        return bearing(random, s, rise, {}, random.ratio(10, 120) * (dm / 40));
      case 'dry':
        return bearing(random, s, rise, { drying: random.ratio(0.2, 2), driest: random.between(0.5, 3) }, 0);
      case 'badly-cooled':
        return bearing(random, s, random.between(40, 90), {}, 0);
      default:
        return bearing(random, s, rise, {}, 0);
    }
  };
  return { rotor: { top: s.top, room: s.room, stages: count, bearings: [one(0), one(1)] }, fault, where, slow: s.slow };
}
