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

export interface Estimate {
  readonly mean: number;
  /** One standard deviation. */
  readonly sd: number;
}

/** One member of the bank: numbers of its own, as a run-in goes through each of them some ten thousand times. */
interface Filter {
  readonly slow: number;
  readonly fast: number;
  readonly share: number;
  weight: number;
  h: number;
  f: number;
  u: number;
  /** Covariance. */
  hh: number;
  hf: number;
  hu: number;
  ff: number;
  fu: number;
  uu: number;
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
  /** Worked out once between two changes. */
  private headed: Estimate | undefined;

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
            h: rise,
            f: 0,
            u: 0,
            hh: 0.5,
            hf: 0,
            hu: 0,
            ff: 0.5,
            fu: 0,
            uu: 0.01,
          });
    this.normalise();
    this.turn(speed);
  }

  /** The speed changed: share of the top speed, 0 to stand. */
  turn(speed: number): void {
    if (speed === this.speed) return;
    if (this.speed > 0) {
      this.lastU = this.heading();
      this.lastSpeed = this.speed;
    }
    const from = this.lastSpeed;
    for (const f of this.bank) {
      if (speed === 0) {
        f.u = 0;
        f.hu = f.fu = 0;
        f.uu = 0.04;
        continue;
      }
      const fresh = from === 0;
      const ratio = fresh ? 1 : (speed / from) ** usualPower;
      const before = this.speed > 0 ? f.u : this.lastU.mean;
      const jump = fresh ? 6 : 1 + 0.15 * Math.abs(before) * ratio + 0.3 * Math.abs(before * (ratio - 1));
      f.u = fresh ? 3 : before * ratio;
      if (this.speed > 0) {
        f.hu *= ratio;
        f.fu *= ratio;
        f.uu = f.uu * ratio * ratio + jump * jump;
      } else {
        f.hu = f.fu = 0;
        f.uu = this.lastU.sd ** 2 + jump * jump;
      }
    }
    this.speed = speed;
    this.calm = 0;
    this.headed = undefined;
  }

  /** Minutes go by at the set speed. */
  pass(minutes: number): void {
    for (let left = minutes; left > 1e-9; ) {
      const step = Math.min(longestStep, left);
      const unrest = this.speed > 0 ? Math.exp(-this.calm / unrestTime) : undefined;
      this.advance(step, unrest);
      this.calm += step;
      left -= step;
    }
    this.headed = undefined;
  }

  /** A reading, `gap` minutes after the one before. */
  read(rise: number, gap: number): void {
    const { bank } = this;
    let jumped = 0;
    const variance = scatter * scatter * (1 + 4 / Math.max(0.5, gap));
    for (let i = 0; i < bank.length; i++) {
      const f = bank[i]!;
      const miss = rise - f.h - f.f;
      let s = f.hh + 2 * f.hf + f.ff + variance;
      f.weight *= Math.exp(temper * (-0.5 * Math.min(9, (miss * miss) / s) - 0.5 * Math.log(s)));
      // A jump that the noise does not explain is a change of friction: open u until it does.
      if (this.speed > 0 && miss * miss > 6 * s) {
        jumped += f.weight;
        const gain = f.share * (1 - Math.exp(-Math.max(1, gap) / f.fast)) + (1 - f.share) * (gap / (f.slow + gap));
        const wanted = (miss / Math.max(0.05, gain)) ** 2;
        f.hh += ((1 - f.share) * (gap / (f.slow + gap))) ** 2 * wanted;
        f.ff += (f.share * (1 - Math.exp(-gap / f.fast))) ** 2 * wanted;
        f.hf += (1 - f.share) * (gap / (f.slow + gap)) * f.share * (1 - Math.exp(-gap / f.fast)) * wanted;
        f.hu += (1 - f.share) * (gap / (f.slow + gap)) * wanted;
        f.fu += f.share * (1 - Math.exp(-gap / f.fast)) * wanted;
        f.uu += wanted;
        s = f.hh + 2 * f.hf + f.ff + variance;
      }
      correct(f, miss, s);
    }
    if (jumped > 0.5) this.calm = 0;
    this.normalise();
  }

  /** Rise that the set speed is heading for. */
  heading(): Estimate {
    this.headed ??= this.mixed('u', 'uu');
    return this.headed;
  }

  /** Rise in `minutes`, at the speed that is set. */
  soon(minutes: number): Estimate {
    return this.along(minutes);
  }

  /** The housing's rise now. */
  housing(): number {
    let mean = 0;
    for (const f of this.bank) mean += f.weight * f.h;
    return mean;
  }

  /** If it heads for `rise` from now on: share of the housing's rise that is left in `minutes`, and what is added by then. */
  entry(rise: number, minutes: number): { readonly kept: number; readonly made: number } {
    let kept = 0;
    let made = 0;
    for (const f of this.bank) {
      const a = Math.exp(-minutes / f.slow);
      kept += f.weight * a;
      made += f.weight * rise * ((1 - f.share) * (1 - a) + f.share * (1 - Math.exp(-minutes / f.fast)));
    }
    return { kept, made };
  }

  /** Slope now, K/min. */
  rate(): Estimate {
    return this.along(undefined);
  }

  /** Slow time constant, min; sd on the same scale. */
  timeConstant(): Estimate {
    return this.mixed('slow', undefined);
  }

  /** A sum of h, f and u of each member: what they come to in so many minutes, or how fast they move now. */
  private along(minutes: number | undefined): Estimate {
    const { bank } = this;
    let mean = 0;
    let square = 0;
    let [h, f, slow, fast] = [0, 0, 0, 0];
    for (let i = 0; i < bank.length; i++) {
      const m = bank[i]!;
      const { share } = m;
      if (m.slow !== slow) {
        slow = m.slow;
        h = minutes === undefined ? -1 / slow : Math.exp(-minutes / slow);
      }
      if (m.fast !== fast) {
        fast = m.fast;
        f = minutes === undefined ? -1 / fast : Math.exp(-minutes / fast);
      }
      const u = minutes === undefined ? (1 - share) / slow + share / fast : (1 - share) * (1 - h) + share * (1 - f);
      const v = h * m.h + f * m.f + u * m.u;
      const variance =
        h * h * m.hh + 2 * h * f * m.hf + 2 * h * u * m.hu + f * f * m.ff + 2 * f * u * m.fu + u * u * m.uu;
      mean += m.weight * v;
      square += m.weight * (v * v + Math.max(0, variance));
    }
    return { mean, sd: Math.sqrt(Math.max(0, square - mean * mean)) };
  }

  private mixed(value: 'u' | 'slow', variance: 'uu' | undefined): Estimate {
    const { bank } = this;
    let mean = 0;
    let square = 0;
    for (let i = 0; i < bank.length; i++) {
      const f = bank[i]!;
      const v = f[value];
      mean += f.weight * v;
      square += f.weight * (v * v + (variance === undefined ? 0 : Math.max(0, f[variance])));
    }
    return { mean, sd: Math.sqrt(Math.max(0, square - mean * mean)) };
  }

  /** `unrest`: 1 after a change of friction, falling to 0; undefined while it stands. */
  private advance(minutes: number, unrest: number | undefined): void {
    const { bank } = this;
    let [a, b, slow, fast] = [0, 0, 0, 0];
    for (let i = 0; i < bank.length; i++) {
      const m = bank[i]!;
      if (m.slow !== slow) {
        slow = m.slow;
        a = Math.exp(-minutes / slow);
      }
      if (m.fast !== fast) {
        fast = m.fast;
        b = Math.exp(-minutes / fast);
      }
      const c = (1 - m.share) * (1 - a);
      const d = m.share * (1 - b);
      const { u, hf, hu, fu, uu } = m;
      m.h = a * m.h + c * u;
      m.f = b * m.f + d * u;
      m.hh = a * a * m.hh + 2 * a * c * hu + c * c * uu + 0.0004 * minutes;
      m.hf = a * b * hf + a * d * hu + c * b * fu + c * d * uu;
      m.hu = a * hu + c * uu;
      m.ff = b * b * m.ff + 2 * b * d * fu + d * d * uu + 0.0004 * minutes;
      m.fu = b * fu + d * uu;
      if (unrest === undefined) continue;
      const size = Math.abs(u);
      m.uu = uu + ((0.015 + 0.001 * size) ** 2 + unrest * (0.1 + 0.015 * size) ** 2) * minutes;
    }
  }

  private normalise(): void {
    const { bank } = this;
    let sum = 0;
    for (let i = 0; i < bank.length; i++) sum += bank[i]!.weight;
    for (let i = 0; i < bank.length; i++) bank[i]!.weight = Math.max(leastWeight, bank[i]!.weight / sum);
    this.headed = undefined;
  }
}

function correct(f: Filter, miss: number, s: number): void {
  const a = f.hh + f.hf;
  const b = f.hf + f.ff;
  const c = f.hu + f.fu;
  f.h += (a / s) * miss;
  f.f += (b / s) * miss;
  f.u += (c / s) * miss;
  f.hh -= (a * a) / s;
  f.hf -= (a * b) / s;
  f.hu -= (a * c) / s;
  f.ff -= (b * b) / s;
  f.fu -= (b * c) / s;
  f.uu -= (c * c) / s;
}
