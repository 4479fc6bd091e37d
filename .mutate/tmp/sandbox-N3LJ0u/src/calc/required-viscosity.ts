/**
 * Viscosity that the bearing wants at running temperature, mm2/s (reference viscosity nu1).
 * nu1 = 45000 n^-0.83 Dpw^-0.5 below 1000 rpm, 4500 n^-0.5 Dpw^-0.5 from 1000 rpm on; n in rpm, Dpw in mm
 * (about the mean of bore and outside diameter). The two branches do not meet at 1000 rpm; near it the calculator says so.
 * Source: ISO 281:2007 clause 9.3, from memory.
 */
// @ts-nocheck

import { defineCalculator } from './define.js';
import { figure, length, result, speed, usual } from './spec.js';
import type { InputSpec, Measured } from './types.js';
import { type Propagated, propagate } from './uncertainty.js';

export const requiredInputs: Readonly<Record<string, InputSpec>> = {
  speed: speed('Speed', [2, 100_000]),
  pitch: length('Pitch diameter', [5, 2000]),
};

const branchAt = 1000;
const slow = (n: number, pitch: number): number => 45_000 * n ** -0.83 * pitch ** -0.5;
const fast = (n: number, pitch: number): number => 4500 * n ** -0.5 * pitch ** -0.5;

export function requiredViscosity(
  n: Measured,
  pitch: Measured,
): { nu1: Propagated; warnings: string[]; worked: string[] } {
  // The branch is chosen once, so that a half width never jumps across the gap.
  const branch = n.value < branchAt ? slow : fast;
  const nu1 = propagate({ speed: n, pitch }, (x) => branch(x.speed, x.pitch));
  const near = Math.abs(n.value - branchAt) <= Math.max(0.05 * branchAt, n.plusMinus ?? 0);
  const [a, b] = [slow(branchAt, pitch.value), fast(branchAt, pitch.value)];
  return {
    nu1,
    warnings: near
      ? [
          `The formula has a step at 1000 rpm (${figure(a)} below, ${figure(b)} mm2/s from there on): plan with the higher figure.`,
        ]
      : [],
    worked: [
      n.value < branchAt
        ? `nu1 = 45000 x ${figure(n.value)}^-0.83 x ${figure(pitch.value)}^-0.5 = ${figure(nu1.value)} mm2/s`
        : `nu1 = 4500 x ${figure(n.value)}^-0.5 x ${figure(pitch.value)}^-0.5 = ${figure(nu1.value)} mm2/s`,
    ],
  };
}

export const requiredViscosityCalculator = defineCalculator({
  name: 'required-viscosity',
  title: 'Viscosity that the bearing wants at running temperature',
  inputs: requiredInputs,
  results: { nu1: result('Required viscosity', 'viscosity', 'mm2/s') },
  formula: 'nu1 = 45000 n^-0.83 Dpw^-0.5 below 1000 rpm; 4500 n^-0.5 Dpw^-0.5 from 1000 rpm on',
  source: usual('ISO 281:2007 clause 9.3, from memory'),
  run: (given) => {
    const { nu1, warnings, worked } = requiredViscosity(given.number('speed'), given.number('pitch'));
    return { results: { nu1 }, warnings, worked };
  },
});
