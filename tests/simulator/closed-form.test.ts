/** The rotor simulator against closed forms, and against hand-worked figures of Palmgren's equations. */
import { describe, expect, it } from 'vitest';
import { atRest, type BearingSpec, type BearingState, stepBearing } from '../../src/simulator/bearing.js';
import { heatOf, loadFreeTorque, loadTorque } from '../../src/simulator/friction.js';
import { randomOf } from '../../src/simulator/random.js';
import { coldRotor, runFor, setStage, thermometer } from '../../src/simulator/rotor.js';
import { endTemperature, timeConstants } from './balance.js';
import { drawRotor } from './draw.js';

const constantHeat: BearingSpec = {
  dm: 40,
  staticRating: 10_000,
  force: 200,
  forcePerKelvin: 0,
  // An oil that does not thin: the same viscosity at both temperatures.
  grease: {
    oil: [
      { nu: 30, t: 40 },
      { nu: 30, t: 100 },
    ],
    f0: 1,
    excess: 0,
    lumps: [],
    lumpAfter: 0,
    stuck: 0,
    workOut: 10,
    drying: 0,
    driest: 0,
  },
  ringHeat: 200,
  housingHeat: 4000,
  ringToHousing: 1.5,
  housingToRoom: 1,
  motor: 0,
};

function run(b: BearingSpec, from: BearingState, rpm: number, minutes: number): BearingState {
  let s = from;
  for (let t = 0; t < minutes - 1e-9; t += 0.25) s = stepBearing(b, s, rpm, 10_000, 20, 0.25);
  return s;
}

describe('Palmgren, worked by hand', () => {
  it('load-free torque: nu 30, 10 000 rpm, dm 40, f0 1: (3e5)^(2/3) = 4481.4, x 64 000 x 1e-7 = 28.68 N mm', () => {
    expect(loadFreeTorque(1, 30, 10_000, 40)).toBeCloseTo(28.68, 2);
  });
  it('below nu n = 2000 it is 160e-7 f0 dm^3: dm 40, f0 2 gives 2.048 N mm', () => {
    expect(loadFreeTorque(2, 10, 100, 40)).toBeCloseTo(2.048, 6);
  });
  it('load torque: F 200, C0 10 000, dm 40: (0.02)^0.55 = 0.11630, x 0.0009 x 200 x 40 = 0.8374 N mm', () => {
    expect(loadTorque(200, 10_000, 40)).toBeCloseTo(0.8374, 3);
  });
  it('29.52 N mm at 10 000 rpm is 30.9 W (pi/30 x 1e-3 x 10 000 x 29.52 = 30.91)', () => {
    expect(heatOf(29.52, 10_000)).toBeCloseTo(30.91, 1);
  });
});

describe('two nodes with a steady heat', () => {
  // H = 30.91 W; housing 20 + 30.91 / 1, ring + 30.91 / 1.5.
  it('end where H / G says: housing 50.91, ring 71.51 degC', () => {
    const end = run(constantHeat, atRest(20), 10_000, 3000);
    expect(end.housing).toBeCloseTo(50.91, 1);
    expect(end.ring).toBeCloseTo(71.51, 1);
    expect(endTemperature(constantHeat, 10_000, 10_000, 20)).toBeCloseTo(71.51, 1);
  });
  // a = 1.5/200, c = 1.5/4000, d = 1/4000 1/s: trace 0.008125, a d = 1.875e-6, root 0.0076497;
  // 2/(0.008125 -+ 0.0076497) = 4208 and 126.8 s = 70.1 and 2.113 min.
  it('have the eigenvalues of the matrix: 70.1 and 2.11 min', () => {
    const [slow, fast] = timeConstants(constantHeat);
    expect(slow).toBeCloseTo(70.1, 1);
    expect(fast).toBeCloseTo(2.113, 2);
  });
  it('approach the end by the slow time constant: after each 70.1 min 1/e is left', () => {
    const early = run(constantHeat, atRest(20), 10_000, 30);
    const later = run(constantHeat, early, 10_000, 70);
    const left = (71.51 - later.ring) / (71.51 - early.ring);
    expect(left).toBeCloseTo(Math.exp(-70 / 70.1), 2);
  });
  it('keep heat: what went in is what is stored and what went out', () => {
    let s = atRest(20);
    let out = 0;
    for (let t = 0; t < 60; t += 0.05) {
      out += 60 * 0.05 * (s.housing - 20);
      s = stepBearing(constantHeat, s, 10_000, 10_000, 20, 0.05);
    }
    const stored = 200 * (s.ring - 20) + 4000 * (s.housing - 20);
    expect((stored + out) / (30.91 * 3600)).toBeCloseTo(1, 2);
  });
});

describe('grease and preload', () => {
  it('works out: churning falls to 1/e after its time constant at top speed, and stays at rest', () => {
    const b = { ...constantHeat, grease: { ...constantHeat.grease, excess: 1 } };
    const s = { ...atRest(20), churn: 1 };
    expect(run(b, s, 10_000, 10).churn).toBeCloseTo(Math.exp(-1), 6);
    expect(run(b, s, 0, 10).churn).toBe(1);
  });
  it('preload that grows with heat ends hotter, and above a gain of one runs away', () => {
    const end = (forcePerKelvin: number): number =>
      endTemperature({ ...constantHeat, forcePerKelvin }, 10_000, 10_000, 20);
    expect(end(10)).toBeGreaterThan(end(0) + 1);
    expect(end(400)).toBeGreaterThan(200);
  });
});

describe('drawn rotors', () => {
  it('are the same for the same seed', () => {
    expect(drawRotor(randomOf(7))).toEqual(drawRotor(randomOf(7)));
    expect(drawRotor(randomOf(7))).not.toEqual(drawRotor(randomOf(8)));
  });
  it('without a fault end between 10 and 70 degC, and a run of a day ends where the balance of heat says', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const { rotor } = drawRotor(randomOf(seed), 'none');
      const end = endTemperature(rotor.bearings[0], rotor.top, rotor.top, rotor.room);
      expect(end).toBeGreaterThan(rotor.room + 5);
      expect(end).toBeLessThan(64);
      const day = runFor(rotor, setStage(coldRotor(rotor), 10), 1440);
      expect(Math.abs(day.bearings[0].ring - end)).toBeLessThan(0.2);
    }
  });
  it('are read by a thermometer that wanders by about what it is told', () => {
    const t = thermometer(randomOf(3), 0.2, 0.1, 0.1);
    const shown = Array.from({ length: 4000 }, (_, i) => t.read(40, i * 5) - 40);
    const sd = Math.sqrt(shown.reduce((sum, x) => sum + x * x, 0) / shown.length);
    expect(sd).toBeGreaterThan(0.19);
    expect(sd).toBeLessThan(0.27);
  });
});
