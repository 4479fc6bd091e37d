/**
 * The run-in's bank of filters against the textbook's Kalman filter (R. E. Kalman, J. Basic Eng. 82 (1960) 35-45) with whole
 * matrices: x' = F x, P' = F P F^T + Q; gain P H^T / s, P - gain gain^T s. The constants are those that the guide names.
 */
import { describe, expect, it } from 'vitest';
import { HeadingFit } from '../../src/calc/run-in-fit.js';

type Matrix = number[][];
const times = (a: Matrix, b: Matrix): Matrix =>
  a.map((row) => (b[0] ?? []).map((_, j) => row.reduce((sum, each, k) => sum + each * (b[k]?.[j] ?? 0), 0)));
const turned = (a: Matrix): Matrix => (a[0] ?? []).map((_, j) => a.map((row) => row[j] ?? 0));
const plus = (a: Matrix, b: Matrix): Matrix => a.map((row, i) => row.map((each, j) => each + (b[i]?.[j] ?? 0)));
const scaled = (a: Matrix, by: number): Matrix => a.map((row) => row.map((each) => each * by));
const diagonal = (...d: number[]): Matrix => d.map((each, i) => d.map((_, j) => (i === j ? each : 0)));
const one = (m: Matrix): number => m[0]?.[0] ?? Number.NaN;

interface Filter {
  slow: number;
  fast: number;
  share: number;
  weight: number;
  x: Matrix;
  P: Matrix;
}

class Textbook {
  bank: Filter[] = [];
  speed = 0;
  lastSpeed = 0;
  lastU = { mean: 0, sd: 3 };
  calm = 0;

  constructor(rise: number, speed: number) {
    const prior: Record<number, number> = { 7: 0.5, 12: 0.7, 250: 0.5, 400: 0.25 };
    for (const slow of [7, 12, 20, 30, 45, 70, 105, 160, 250, 400])
      for (const fast of [2, 5])
        for (const share of [0.1, 0.3, 0.5, 0.7])
          this.bank.push({
            slow,
            fast,
            share,
            weight: prior[slow] ?? 1,
            x: [[rise], [0], [0]],
            P: diagonal(0.5, 0.5, 0.01),
          });
    this.level();
    if (speed > 0) this.turn(speed);
  }
  level(): void {
    const sum = this.bank.map((f) => f.weight).reduce((a, b) => a + b);
    for (const f of this.bank) f.weight = Math.max(1e-5, f.weight / sum);
  }
  flow({ slow, fast, share }: Filter, minutes: number): Matrix {
    const [a, b] = [Math.exp(-minutes / slow), Math.exp(-minutes / fast)];
    return [
      [a, 0, (1 - share) * (1 - a)],
      [0, b, share * (1 - b)],
      [0, 0, 1],
    ];
  }
  pass(minutes: number): void {
    for (let left = minutes; left > 1e-9; left -= 5) {
      const step = Math.min(5, left);
      for (const f of this.bank) {
        const size = Math.abs(f.x[2]?.[0] ?? 0);
        const unrest = Math.exp(-this.calm / 15);
        const wander = this.speed > 0 ? (0.015 + 0.001 * size) ** 2 + unrest * (0.1 + 0.015 * size) ** 2 : 0;
        const F = this.flow(f, step);
        f.x = times(F, f.x);
        f.P = plus(times(times(F, f.P), turned(F)), diagonal(0.0004 * step, 0.0004 * step, wander * step));
      }
      this.calm += step;
    }
  }
  turn(speed: number): void {
    const moving = this.speed > 0;
    const before = this.heading();
    if (moving) {
      this.lastU = before;
      this.lastSpeed = this.speed;
    }
    const from = this.lastSpeed;
    for (const f of this.bank) {
      const u = moving ? (f.x[2]?.[0] ?? 0) : this.lastU.mean;
      const ratio = from === 0 ? 1 : (speed / from) ** 1.4;
      const D = diagonal(1, 1, speed === 0 || !moving ? 0 : ratio);
      f.P = times(times(D, f.P), D);
      const jump = from === 0 ? 6 : 1 + 0.15 * Math.abs(u) * ratio + 0.3 * Math.abs(u * (ratio - 1));
      const more = speed === 0 ? 0.04 : jump ** 2 + (moving ? 0 : this.lastU.sd ** 2);
      f.P = plus(f.P, diagonal(0, 0, more));
      f.x[2] = [speed === 0 ? 0 : from === 0 ? 3 : u * ratio];
    }
    this.speed = speed;
    this.calm = 0;
  }
  read(rise: number, gap: number): void {
    const H: Matrix = [[1, 1, 0]];
    const noise = 0.09 * (1 + 4 / Math.max(0.5, gap));
    let jumped = 0;
    for (const f of this.bank) {
      const miss = rise - one(times(H, f.x));
      let s = one(times(times(H, f.P), turned(H))) + noise;
      f.weight *= Math.exp(0.6 * (-0.5 * Math.min(9, miss ** 2 / s) - 0.5 * Math.log(s)));
      if (this.speed > 0 && miss ** 2 > 6 * s) {
        jumped += f.weight;
        const [slowly, quickly] = [(1 - f.share) * (gap / (f.slow + gap)), f.share * (1 - Math.exp(-gap / f.fast))];
        const gain = f.share * (1 - Math.exp(-Math.max(1, gap) / f.fast)) + slowly;
        const g: Matrix = [[slowly], [quickly], [1]];
        f.P = plus(f.P, scaled(times(g, turned(g)), (miss / Math.max(0.05, gain)) ** 2));
        s = one(times(times(H, f.P), turned(H))) + noise;
      }
      const K = scaled(times(f.P, turned(H)), 1 / s);
      f.x = plus(f.x, scaled(K, miss));
      f.P = plus(f.P, scaled(times(K, turned(K)), -s));
    }
    if (jumped > 0.5) this.calm = 0;
    this.level();
  }
  mixed(row: (f: Filter) => Matrix): { mean: number; sd: number } {
    const all = this.bank.map((f) => ({
      w: f.weight,
      v: one(times(row(f), f.x)),
      q: Math.max(0, one(times(times(row(f), f.P), turned(row(f))))),
    }));
    const mean = all.reduce((sum, { w, v }) => sum + w * v, 0);
    const square = all.reduce((sum, { w, v, q }) => sum + w * (v * v + q), 0);
    return { mean, sd: Math.sqrt(Math.max(0, square - mean ** 2)) };
  }
  heading = () => this.mixed(() => [[0, 0, 1]]);
  soon = (minutes: number) => this.mixed((f) => times([[1, 1, 0]], this.flow(f, minutes)));
  rate = () => this.mixed((f) => [[-1 / f.slow, -1 / f.fast, (1 - f.share) / f.slow + f.share / f.fast]]);
  housing = () => this.bank.reduce((sum, f) => sum + f.weight * (f.x[0]?.[0] ?? 0), 0);
  /** What is left of the housing's rise, and of h + f what a constant u adds to none. */
  entry(rise: number, minutes: number): { kept: number; made: number } {
    const of = (what: (F: Matrix) => number) =>
      this.bank.reduce((sum, f) => sum + f.weight * what(this.flow(f, minutes)), 0);
    return { kept: of((F) => F[0]?.[0] ?? 0), made: of((F) => one(times(times([[1, 1, 0]], F), [[0], [0], [rise]]))) };
  }
  slow(): { mean: number; sd: number } {
    const mean = this.bank.reduce((sum, f) => sum + f.weight * f.slow, 0);
    const square = this.bank.reduce((sum, f) => sum + f.weight * f.slow ** 2, 0);
    return { mean, sd: Math.sqrt(Math.max(0, square - mean ** 2)) };
  }
}

type Step = ['read', rise: number, gap: number] | ['pass', minutes: number] | ['turn', speed: number];
const walks: Record<string, { rise: number; speed: number; steps: Step[] }> = {
  'climbs, turns faster, spikes, settles': {
    rise: 1,
    speed: 0.1,
    steps: [
      ...[3, 5, 6.5, 7.2, 7.6].flatMap((rise): Step[] => [
        ['pass', 7],
        ['read', rise, 7],
      ]),
      ['pass', 1],
      ['turn', 0.3],
      ['pass', 4],
      ['read', 11, 5],
      ['pass', 0.25],
      ['read', 11.2, 0.25],
      ['pass', 10],
      ['read', 31, 10],
      ['pass', 0.5],
      ['read', 38, 0.5],
      ['pass', 12],
      ['read', 25, 12],
    ],
  },
  'stands, starts, stands, goes on': {
    rise: 2,
    speed: 0,
    steps: [
      ['pass', 3],
      ['read', 1.5, 3],
      ['turn', 0.2],
      ['pass', 12],
      ['read', 6, 12],
      ['turn', 0.2],
      ['pass', 5],
      ['read', 7, 5],
      ['turn', 0],
      ['pass', 20],
      ['read', 30, 20],
      ['pass', 9],
      ['read', 2, 9],
      ['turn', 0.1],
      ['pass', 15],
      ['read', 4, 15],
      ['turn', 1],
      ['pass', 33],
      ['read', 52, 33],
    ],
  },
};

describe('the fit of the run-in, against the textbook', () => {
  it.each(Object.entries(walks))('%s', (_, { rise, speed, steps }) => {
    const [ours, theirs] = [new HeadingFit(rise, speed), new Textbook(rise, speed)];
    const close = (a: number, b: number, what: string): void =>
      expect(Math.abs(a - b), `${what}: ${a}, textbook ${b}`).toBeLessThan(1e-6 * Math.max(1, Math.abs(b)));
    const same = (): void => {
      const pairs = {
        heading: [ours.heading(), theirs.heading()],
        soon: [ours.soon(7), theirs.soon(7)],
        rate: [ours.rate(), theirs.rate()],
        slow: [ours.timeConstant(), theirs.slow()],
      } as const;
      for (const [what, [a, b]] of Object.entries(pairs)) {
        close(a.mean, b.mean, what);
        close(a.sd, b.sd, `sd of ${what}`);
      }
      close(ours.housing(), theirs.housing(), 'housing');
      const [entry, other] = [ours.entry(40, 15), theirs.entry(40, 15)];
      close(entry.kept, other.kept, 'kept of the housing');
      close(entry.made, other.made, 'made by then');
    };
    same();
    for (const [what, first, gap = 0] of steps) {
      if (what === 'read') {
        ours.read(first, gap);
        theirs.read(first, gap);
      } else if (what === 'turn') {
        ours.turn(first);
        if (first !== theirs.speed) theirs.turn(first);
      } else {
        ours.pass(first);
        theirs.pass(first);
      }
      same();
    }
  });
});
