/** When the next reading of a run-in is due: early enough that a spike is seen in time. Temperatures degC, times min. */
import type { Curve } from './run-in-curve.js';
import type { Estimate } from './run-in-fit.js';
import { type Plan, sure } from './run-in-said.js';

/** Share of the rise by which grease that falls back into the track may add to it: this guide's own caution. */
const freshShock = 0.6;
const laterShock = 0.5;
/** The same where it has done so before. */
const spikyShock = 0.9;

/** After a change of speed: the hotter the stage may get, the sooner. */
export function dueAfterChange({ limit, room, rules }: Plan, temp: number, heading: number): number {
  const shock = (freshShock * (heading - room)) / Math.max(0.1, limit - temp);
  return shock > 0.8 ? 2 : shock > 0.5 ? 3 : shock > 0.25 ? 5 : rules.leastStage;
}

/** At a steady speed: before it could pass the limit even if the friction grew by half; else when something is decided. */
export function dueHere({ limit, room, rules }: Plan, curve: Curve, isLast: boolean, spiky: boolean): number {
  const { since } = curve;
  // Grease falls back into the track within half an hour of a change of speed, seldom later.
  const fresh = since < 2 * rules.leastStage;
  const shock = (fresh ? (spiky ? spikyShock : freshShock) : laterShock) * Math.max(0, curve.heading().mean - room);
  const safe = [15, 10, 8, 5, 3, 2].find((minutes) => {
    const soon = curve.soon(minutes);
    return soon.mean + sure * soon.sd + shock * (1 - Math.exp(-minutes / (fresh ? 8 : 20))) <= limit;
  });
  const left = (isLast ? rules.leastLast : rules.leastStage) - since;
  const wanted = left > 0.5 ? Math.min(15, left) : isLast ? untilSettled(curve, rules.equilibrium / 60) : 5;
  return Math.max(1, Math.round(Math.min(safe ?? 1, wanted)));
}

/** Minutes until the slope has fallen to `most` K/min, 3 to 15. */
function untilSettled(curve: Curve, most: number): number {
  const rate = curve.rate();
  const ratio = (Math.abs(rate.mean) + 0.5 * rate.sd) / most;
  const slow = curve.timeConstant()?.mean ?? 60;
  return Math.min(15, Math.max(3, slow * Math.log(Math.max(1, ratio))));
}

/** Hottest on the way to the next reading, if it comes as the ones before it did: 2 to `longest` min. */
export function coming(curve: Curve, longest: number): Estimate {
  const gap = Math.max(2, Math.min(longest, curve.usualGap));
  const half = curve.soon(gap / 2);
  const whole = curve.soon(gap);
  return half.mean > whole.mean ? half : whole;
}
