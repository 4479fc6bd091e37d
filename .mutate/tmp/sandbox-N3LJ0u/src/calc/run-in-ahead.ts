/**
 * Rise at a higher speed from the rises that lower speeds were heading for: u = A s^p, weighed least squares of ln u on
 * ln s with p known beforehand to about 1.4 +- 0.35 (Palmgren's load-free friction gives 5/3, thinning oil takes from
 * it). Rises in K over the room, s as share of the top speed.
 */
// @ts-nocheck

import { type Estimate, usualPower } from './run-in-fit.js';

export interface StageHeading extends Estimate {
  readonly speed: number;
}

const powerSd = 0.35;
/** A room that was read wrong, a draught, a sensor off by this much: K. */
const offset = 1.5;

/** From the stages so far, the latest last; each speed once. */
export function riseAt(speed: number, stages: readonly StageHeading[]): Estimate {
  const last = stages[stages.length - 1];
  if (!last) return { mean: 0, sd: Number.POSITIVE_INFINITY };
  const log = Math.log(speed / last.speed);
  if (Math.abs(log) < 1e-9) return { mean: last.mean, sd: last.sd };
  // Power from pairs with the latest stage, each as good as its rises.
  let weight = 1 / (powerSd * powerSd);
  let sum = usualPower * weight;
  for (const s of stages.slice(0, -1)) {
    const d = Math.log(last.speed / s.speed);
    if (d < 0.15 || s.mean < 1 || last.mean < 1) continue;
    const sd = Math.hypot(Math.hypot(s.sd, offset) / s.mean, Math.hypot(last.sd, offset) / last.mean) / d;
    // Pairs share the latest stage, so they count by half.
    const w = 0.5 / Math.max(0.15, sd) ** 2;
    weight += w;
    sum += (w * Math.log(last.mean / s.mean)) / d;
  }
  const power = Math.min(2.6, Math.max(0.6, sum / weight));
  const sdPower = Math.max(0.1, 1 / Math.sqrt(weight));
  const gain = Math.exp(power * log);
  const mean = Math.max(0, last.mean) * gain;
  return { mean, sd: Math.hypot(last.sd * gain, offset * (gain - 1), mean * log * sdPower, 0.03 * mean) };
}
