/**
 * What the temperature of one bearing is heading for, from its readings so far: a bank of recursive least-squares fits
 * (Kalman filters), one for each pair of thermal time constants, weighed by how well each foretold the readings.
 *
 * Model, in K above the room: T = h + f, the housing h slow and the ring over it f fast,
 *   dh/dt = ((1 - share) u - h) / slow,   df/dt = (share u - f) / fast,   u = rise that this speed is heading for.
 * u wanders while grease works itself in, and jumps with speed. Times min, temperatures K over the room.
 * Holds for slow 7 to 400 min, fast 2 to 5 min; the readings may be irregular. Errors are one standard deviation.
 * Source: the exponential approach is the solution of the lumped heat balance; the filter is R. E. Kalman, J. Basic Eng.
 * 82 (1960) 35-45. A library has no recursion of this kind, and to fit anew at each reading would cost its square.
 */
// @ts-nocheck


export interface Estimate {
  readonly mean: number;
  /** One standard deviation. */
  readonly sd: number;
}

interface Filter {
  readonly slow: number;
  readonly fast: number;
  readonly share: number;
  weight: number;
  /** h, f, u */
  x: [number, number, number];
  /** Covariance: hh, hf, hu, ff, fu, uu. */
  p: [number, number, number, number, number, number];
}

const slows = [7, 12, 20, 30, 45, 70, 105, 160, 250, 400];
const fasts = [2, 5];
const shares = [0.1, 0.3, 0.5, 0.7];
/** Prior: most rotors lie between 20 and 160 min. */
const slowPrior = [0.5, 0.7, 1, 1, 1, 1, 1, 1, 0.5, 0.25];
/** No fit is ever ruled out by more than this: readings wander together, so they prove less than they seem to. */
const leastWeight = 1e-5;
const temper = 0.6;
/** Longest step of the recursion, min: u wanders within it. */
const longestStep = 5;
/** Scatter of a reading, K, and its growth where readings follow each other faster than a thermometer forgets. */
const scatter = 0.3;
/** Grease works itself in within such a time, min; then u wanders little. */
const unrestTime = 15;
/** Between two speeds friction heat goes with the power 1 to 2: Palmgren 5/3, less by the oil that thins. */
export const usualPower = 1.4;

export class HeadingFit {
  private readonly bank: Filter[] = [];
  private speed = 0;
  /** Last u at a speed, kept while it stands. */
  private lastU: Estimate = { mean: 0, sd: 3 };
  private lastSpeed = 0;
  /** Minutes since friction changed: the speed, or a jump that only friction explains. */
  private calm = 0;

  /** `rise`: of the first reading over the room; `speed`: share of the top speed at it. */
  constructor(rise: number, speed: number) {
    for (const [i, slow] of slows.entries())
      for (const fast of fasts)
        for (const share of shares)
          this.bank.push({
            slow,
            fast,
            share,
            weight: slowPrior[i] ?? 1,
            x: [rise, 0, 0],
            p: [0.5, 0, 0, 0.5, 0, 0.01],
          });
    this.normalise();
    if (speed > 0) this.turn(speed);
  }

  /** The speed changed: share of the top speed, 0 to stand. */
  turn(speed: number): void {
    if (speed === this.speed) return;
    if (this.speed > 0) {
      this.lastU = this.heading();
      this.lastSpeed = this.speed;
    }
    const from = this.speed > 0 ? this.speed : this.lastSpeed;
    for (const f of this.bank) {
      if (speed === 0) {
        f.x[2] = 0;
        f.p[2] = f.p[4] = 0;
        f.p[5] = 0.04;
        continue;
      }
      const fresh = from === 0;
      const ratio = fresh ? 1 : (speed / from) ** usualPower;
      const before = this.speed > 0 ? f.x[2] : this.lastU.mean;
      const jump = fresh ? 6 : 1 + 0.15 * Math.abs(before) * ratio + 0.3 * Math.abs(before * (ratio - 1));
      f.x[2] = fresh ? 3 : before * ratio;
      if (this.speed > 0) {
        f.p[2] *= ratio;
        f.p[4] *= ratio;
        f.p[5] = f.p[5] * ratio * ratio + jump * jump;
      } else {
        f.p[2] = f.p[4] = 0;
        f.p[5] = this.lastU.sd ** 2 + jump * jump;
      }
    }
    this.speed = speed;
    this.calm = 0;
  }

  /** Minutes go by at the set speed. */
  pass(minutes: number): void {
    for (let left = minutes; left > 1e-9; ) {
      const step = Math.min(longestStep, left);
      const unrest = this.speed > 0 ? Math.exp(-this.calm / unrestTime) : undefined;
      for (const f of this.bank) advance(f, step, unrest);
      this.calm += step;
      left -= step;
    }
  }

  /** A reading, `gap` minutes after the one before. Returns how far off it was, in standard deviations. */
  read(rise: number, gap: number): number {
    let jumped = 0;
    const variance = scatter * scatter * (1 + 4 / Math.max(0.5, gap));
    let off = 0;
    for (const f of this.bank) {
      const miss = rise - f.x[0] - f.x[1];
      let s = f.p[0] + 2 * f.p[1] + f.p[3] + variance;
      off += f.weight * (miss / Math.sqrt(s));
      f.weight *= Math.exp(temper * (-0.5 * Math.min(9, (miss * miss) / s) - 0.5 * Math.log(s)));
      // A jump that the noise does not explain is a change of friction: open u until it does.
      if (this.speed > 0 && miss * miss > 6 * s) {
        jumped += f.weight;
        const gain = f.share * (1 - Math.exp(-Math.max(1, gap) / f.fast)) + (1 - f.share) * (gap / (f.slow + gap));
        const wanted = (miss / Math.max(0.05, gain)) ** 2;
        f.p[0] += ((1 - f.share) * (gap / (f.slow + gap))) ** 2 * wanted;
        f.p[3] += (f.share * (1 - Math.exp(-gap / f.fast))) ** 2 * wanted;
        f.p[1] += (1 - f.share) * (gap / (f.slow + gap)) * f.share * (1 - Math.exp(-gap / f.fast)) * wanted;
        f.p[2] += (1 - f.share) * (gap / (f.slow + gap)) * wanted;
        f.p[4] += f.share * (1 - Math.exp(-gap / f.fast)) * wanted;
        f.p[5] += wanted;
        s = f.p[0] + 2 * f.p[1] + f.p[3] + variance;
      }
      correct(f, miss, s);
    }
    if (jumped > 0.5) this.calm = 0;
    this.normalise();
    return off;
  }

  /** Rise that the set speed is heading for. */
  heading(): Estimate {
    return this.mixed(
      (f) => f.x[2],
      (f) => f.p[5],
    );
  }

  /** Rise in `minutes`, at the speed that is set. */
  soon(minutes: number): Estimate {
    return this.mixed(
      (f) => along(f, weightsAfter(f, minutes)),
      (f) => spread(f, weightsAfter(f, minutes)),
    );
  }

  /** Slope now, K/min. */
  rate(): Estimate {
    const slope = (f: Filter): Weights => [-1 / f.slow, -1 / f.fast, (1 - f.share) / f.slow + f.share / f.fast];
    return this.mixed(
      (f) => along(f, slope(f)),
      (f) => spread(f, slope(f)),
    );
  }

  /** Slow time constant, min; sd on the same scale. */
  timeConstant(): Estimate {
    return this.mixed(
      (f) => f.slow,
      () => 0,
    );
  }

  private mixed(value: (f: Filter) => number, variance: (f: Filter) => number): Estimate {
    let mean = 0;
    let square = 0;
    for (const f of this.bank) {
      const v = value(f);
      mean += f.weight * v;
      square += f.weight * (v * v + Math.max(0, variance(f)));
    }
    return { mean, sd: Math.sqrt(Math.max(0, square - mean * mean)) };
  }

  private normalise(): void {
    const sum = this.bank.reduce((all, f) => all + f.weight, 0);
    for (const f of this.bank) f.weight = Math.max(leastWeight, f.weight / sum);
  }
}

type Weights = readonly [h: number, f: number, u: number];

function weightsAfter(f: Filter, minutes: number): Weights {
  const a = Math.exp(-minutes / f.slow);
  const b = Math.exp(-minutes / f.fast);
  return [a, b, (1 - f.share) * (1 - a) + f.share * (1 - b)];
}
const along = (f: Filter, w: Weights): number => w[0] * f.x[0] + w[1] * f.x[1] + w[2] * f.x[2];
const spread = ({ p }: Filter, [h, f, u]: Weights): number =>
  h * h * p[0] + 2 * h * f * p[1] + 2 * h * u * p[2] + f * f * p[3] + 2 * f * u * p[4] + u * u * p[5];

/** `unrest`: 1 after a change of friction, falling to 0; undefined while it stands. */
function advance(f: Filter, minutes: number, unrest: number | undefined): void {
  const a = Math.exp(-minutes / f.slow);
  const b = Math.exp(-minutes / f.fast);
  const [c, d] = [(1 - f.share) * (1 - a), f.share * (1 - b)];
  const [h, g, u] = f.x;
  const [hh, hf, hu, ff, fu, uu] = f.p;
  f.x = [a * h + c * u, b * g + d * u, u];
  const size = Math.abs(u);
  const wander =
    unrest === undefined ? 0 : ((0.015 + 0.001 * size) ** 2 + unrest * (0.1 + 0.015 * size) ** 2) * minutes;
  f.p = [
    a * a * hh + 2 * a * c * hu + c * c * uu + 0.0004 * minutes,
    a * b * hf + a * d * hu + c * b * fu + c * d * uu,
    a * hu + c * uu,
    b * b * ff + 2 * b * d * fu + d * d * uu + 0.0004 * minutes,
    b * fu + d * uu,
    uu + wander,
  ];
}

function correct(f: Filter, miss: number, s: number): void {
  const [hh, hf, hu, ff, fu, uu] = f.p;
  const [a, b, c] = [hh + hf, hf + ff, hu + fu];
  f.x = [f.x[0] + (a / s) * miss, f.x[1] + (b / s) * miss, f.x[2] + (c / s) * miss];
  f.p = [hh - (a * a) / s, hf - (a * b) / s, hu - (a * c) / s, ff - (b * b) / s, fu - (b * c) / s, uu - (c * c) / s];
}
