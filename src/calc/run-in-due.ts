/** When the next reading of a run-in is due: early enough that a spike is seen in time. Temperatures degC, times min. */
import type { Curve } from './run-in-curve.js';
import type { Estimate } from './run-in-fit.js';
import { type Plan, sure } from './run-in-said.js';

/** Whoever comes as due may come so much later, min. */
export const handsNeed = 1;
/** A lump of grease heats the ring within so many minutes. */
export const leapTime = 4;

/** Share of the rise by which grease that falls back into the track may add to it: this guide's own caution. */
const freshShock = 0.6;

/** K */
const highSpike = 10;
/** Share of the rise, and min in which most of it comes: after a change of speed, where it spiked before, and long after. */
const first = [0.8, 5] as const;
const again = [1, 4] as const;
const highAgain = [1.3, 3.5] as const;
const later = [0.5, 20] as const;
/** K over the limit that a lump which nobody expects may reach. */
const bearable = 4;
/** After a change of speed, min: where it may be heading over the limit, and where it was sent back before. */
const soonest = 5;
const soonAfterHeat = 3;
/** Before so many stages are known nothing tells friction that runs away from friction that speed explains. */
export const knownStages = 2;

/** After a change of speed: the hotter the stage may get, and the odder it was before (`wary`), the sooner. */
export function dueAfterChange(
  { limit, room, rules }: Plan,
  temp: number,
  heading: number,
  wary: boolean,
  next: number,
): number {
  const shock = (freshShock * (heading - room)) / Math.max(0.1, limit - temp);
  if (shock > 0.8 || wary) return 2;
  return shock > 0.5 ? 3 : shock > 0.25 || next <= knownStages + 1 ? 5 : rules.leastStage;
}

/** What of its past makes a bearing be read sooner. */
interface Past {
  /** The highest spike so far, K; undefined where none counts. */
  readonly spike: number | undefined;
  readonly sentBack: boolean;
}

/** At a steady speed: before it could pass the limit even if the friction grew by half; else when something is decided. */
export function dueHere(
  { limit, room, rules }: Plan,
  curve: Curve,
  isLast: boolean,
  { spike, sentBack }: Past,
): number {
  const { since } = curve;
  // Grease falls back into the track within half an hour of a change of speed, seldom later.
  const fresh = since < 2 * rules.leastStage;
  const rise = Math.max(0, curve.heading().mean - room);
  const [share, quick] = !fresh ? later : spike === undefined ? first : spike < highSpike ? again : highAgain;
  const shock = Math.max(share * rise, fresh ? 1.5 * (spike ?? 0) : 0);
  const safe = [15, 10, 8, 5, 3, 2].find((minutes) => {
    const soon = curve.soon(minutes);
    const most = soon.mean + sure * soon.sd;
    // Even the largest lump must not pass the limit far before it is read.
    const lump = since > rules.leastStage ? 0 : highAgain[0] * rise * (1 - Math.exp(-minutes / highAgain[1]));
    return most + shock * (1 - Math.exp(-minutes / quick)) <= limit && most + lump <= limit + bearable;
  });
  const left = (isLast ? rules.leastLast : rules.leastStage) - since;
  const wanted = left > 0.5 ? Math.min(15, left) : isLast ? untilSettled(curve, rules.equilibrium / 60) : 5;
  const { mean, sd } = curve.heading();
  const unsure = !fresh ? wanted : sentBack ? soonAfterHeat : mean + sure * sd > limit ? soonest : wanted;
  return Math.max(1, Math.round(Math.min(safe ?? 1, wanted, unsure)));
}

/** Minutes until the slope has fallen to `most` K/min, 3 to 15. */
function untilSettled(curve: Curve, most: number): number {
  const rate = curve.rate();
  const ratio = (Math.abs(rate.mean) + 0.5 * rate.sd) / most;
  const slow = curve.timeConstant()?.mean ?? 60;
  return Math.min(15, Math.max(3, slow * Math.log(Math.max(1, ratio))));
}

/** Hottest on the way to the next reading, in so many minutes or what is left of them. */
export function coming(curve: Curve, minutes: number): Estimate {
  const half = curve.soon(minutes / 2);
  const whole = curve.soon(minutes);
  return half.mean > whole.mean ? half : whole;
}
