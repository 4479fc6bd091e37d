/** Rises of one bearing, and over the other one, that do not wait for the next reading. Temperatures degC, times min. */
import { showDuration } from '../units/show.js';
import type { Plan, Reading, Rules } from './run-in-said.js';
import { figure } from './spec.js';

export const isLoud = (r: Reading): boolean => r.sound === 'rough' || r.sound === 'grinding';

/** What a person may be late at the typing, min. */
const atOnce = 0.3;

/** So many kelvin within minutes, or above where the stage began (`began`, degC); said in words. */
export function rapidRise(
  recent: readonly Reading[],
  r: Reading,
  began: number | undefined,
  rules: Rules,
): string | undefined {
  const soon = recent.filter((p) => p.stage > 0 && r.minutes - p.minutes <= rules.rapidTime + atOnce);
  const from = soon.reduce((low, p) => (p.temp < low.temp ? p : low), r);
  if (r.temp - from.temp >= rules.rapidRise)
    return `it rose ${figure(r.temp - from.temp, 2)} K in ${showDuration(r.minutes - from.minutes)}`;
  if (began !== undefined && r.temp - began >= rules.stageRise)
    return `it is ${figure(r.temp - began, 2)} K above where this stage began`;
  return undefined;
}

/** K/min, over at least `leapLeast` K: a lump of grease that may not be over at the next reading. */
const leapSlope = 3;
const leapLeast = 6;

/** It climbs by 1 K/min and more since the reading before. */
export function climbs(recent: readonly Reading[], r: Reading): boolean {
  const before = recent[recent.length - 2];
  return before !== undefined && r.temp - before.temp >= r.minutes - before.minutes;
}

/** A leap since the reading before, said in words. */
export function leapt(recent: readonly Reading[], r: Reading): string | undefined {
  const before = recent[recent.length - 2];
  if (!before || before.stage === 0) return undefined;
  const [rise, minutes] = [r.temp - before.temp, r.minutes - before.minutes];
  return rise >= leapLeast && rise >= leapSlope * minutes
    ? `it leapt ${figure(rise, 2)} K in ${showDuration(minutes)}`
    : undefined;
}

/** Shortest time over which a slope is taken, min: a lump of grease is past its steepest by then; at a low speed it heats little. */
const span = 8;
const spanSlow = 4;
/** K/min */
const leastSlope = 0.3;
/** The same where two slopes have to do, K/min. */
const leastOfTwo = 0.6;
/** What a thermometer may be off between two readings, K. */
const scatter = 0.6;
/** So far below the limit there is time to wait whether a lump of grease works itself in, K. */
const farFrom = 25;
/** So many times as steep counts by itself where it must. */
const steeper = 1.7;

/**
 * Slopes at one speed, from the reading before it on, each steeper than the one before: heat that feeds on itself. Heat that
 * only speed makes rises ever slower, and a lump of grease is steep but once. Three slopes say so; two, the second so much
 * steeper, at a low speed (`slow`) or where readings come late and friction grew faster than speed before (`grows`).
 */
export function faster(
  recent: readonly Reading[],
  r: Reading,
  limit: number,
  slow: boolean,
  grows: boolean,
): string | undefined {
  if (!slow && r.temp < limit - farFrom) return undefined;
  const least = slow ? spanSlow : span;
  const points = [r];
  for (let i = recent.length - 1; i >= 0 && points.length < 4; i--) {
    const p = recent[i]!;
    const before = p.stage !== r.stage;
    if (before && p.stage === 0) break;
    if (before || points[0]!.minutes - p.minutes >= least) points.unshift(p);
    if (before) break;
  }
  const slopes = points
    .slice(1)
    .map((p, i) => (p.temp - points[i]!.temp) / Math.max(1, p.minutes - points[i]!.minutes));
  const [last = 0, second = 0, first] = [...slopes].reverse();
  const before = recent[recent.length - 2];
  if (slopes.length < 2 || last < leastSlope || !before) return undefined;
  // It still climbs as steeply.
  if (r.temp - before.temp < 0.7 * last * (r.minutes - before.minutes)) return undefined;
  const noise = (2 * scatter) / Math.max(least, (r.minutes - points[0]!.minutes) / slopes.length);
  const thrice = first !== undefined && last > second && second > first && last - first > noise;
  const twice = (slow || grows) && last > leastOfTwo && last > steeper * Math.max(0, second) + noise;
  return thrice || twice ? 'it climbs faster and faster' : undefined;
}

/** Both bearings share shaft, speed and grease: one that is much hotter at half speed or below drags. */
export function apartBy(
  r: Reading,
  { rules, stages }: Plan,
): { readonly warning: string; readonly why: string; readonly drags: boolean } | undefined {
  if (r.other === undefined || r.temp - r.other <= rules.apartWatch) return undefined;
  const gap = figure(r.temp - r.other, 2);
  return {
    warning: `It is ${gap} K warmer than the other bearing on the same shaft: look for too much grease, preload or a rubbing seal in this one.`,
    why: `${gap} K above the other bearing on the same shaft`,
    drags: r.temp - r.other > rules.apartStop && 2 * r.stage <= stages.length,
  };
}
