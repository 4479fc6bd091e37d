/**
 * What a bearing may do before anybody looks again: the highest spike seen so far, friction that grows faster than speed
 * explains, and whether readings come late. Temperatures degC or K, times min.
 */
import type { StageHeading } from './run-in-ahead.js';
import type { Reading } from './run-in-said.js';

/** So long after it was due a reading counts as late. */
const lateAfter = 2;
/** So many readings in a row have to come in time before they count as coming in time. */
const inTime = 3;
/** The same before a stage that a lump could take over the limit. */
const inTimeLong = 10;
/** What counts as a spike, K. */
const leastSpike = 5;
/** Running halves what is to be feared of the last spike in so many minutes. */
const fading = 60;
/** Constant preload and oil: rolling goes with the power 5/3 of speed, a motor with 2; beyond it friction grows by itself. */
export const highestPower = 2;
/** A room read wrong, a sensor off: K. */
const offset = 1.5;

export class Unread {
  private lates: boolean[] = [];
  private last: Reading | undefined;
  private peak = Number.NEGATIVE_INFINITY;
  /** K that a stage stood over what it was expected to reach or fell to; it fades as the rotor runs on. */
  spike = 0;
  /** The highest so far, K. */
  most = 0;
  /** Readings at this stage since it began. */
  here = 0;

  /** `expected`: degC that the stage was heading for before it began; `late`: min after it was due. */
  add(reading: Reading, expected: number, late: number): void {
    const { last } = this;
    this.last = reading;
    if (reading.stage !== last?.stage) {
      this.here = 0;
      this.peak = reading.temp;
    }
    this.here++;
    if (reading.stage === 0) return;
    this.lates = [...this.lates.slice(1 - inTimeLong), late > lateAfter];
    this.peak = Math.max(this.peak, reading.temp);
    if (last?.stage === reading.stage) this.spike *= 0.5 ** ((reading.minutes - last.minutes) / fading);
    this.spike = Math.max(this.spike, this.peak - reading.temp, reading.temp - expected);
    this.most = Math.max(this.most, this.spike);
  }

  /** It has spiked at some stage. */
  get spiky(): boolean {
    return this.most >= leastSpike;
  }

  /** Readings come later than they are due. */
  get late(): boolean {
    return this.lates.slice(-inTime).includes(true);
  }
  get lateLately(): boolean {
    return this.lates.includes(true);
  }
}

/** Power of speed by which the rise grew up to the last of these stages, less `sds` standard deviations; 0 while unknown. */
export function growth(stages: readonly StageHeading[], sds = 0): number {
  const last = stages[stages.length - 1];
  if (!last || last.mean < 10) return 0;
  let power = 0;
  for (const s of stages.filter((s) => s.speed < last.speed).slice(-3)) {
    if (s.mean < 5) continue;
    const d = Math.log(last.speed / s.speed);
    const sd = Math.hypot(Math.hypot(s.sd, offset) / s.mean, Math.hypot(last.sd, offset) / last.mean) / d;
    power = Math.max(power, Math.log(last.mean / s.mean) / d - sds * sd);
  }
  return power;
}

/** Rise at `speed`, K, if friction goes on to grow as it grew from stage to stage; 0 where speed explains it. */
export function runaway(speed: number, stages: readonly StageHeading[]): number {
  const last = stages[stages.length - 1];
  const power = growth(stages, 0.5);
  if (!last || power <= highestPower) return 0;
  return last.mean * (speed / last.speed) ** (power + 2 * (power - highestPower));
}
