/** A technician who follows the guide to the letter on a simulated rotor, and one who knows the rotor. */
import type { Random } from '../../../src/simulator/random.js';

/** A rotor of either simulator. */
export interface Machine {
  readonly stages: number;
  /** rpm */
  readonly top: number;
  /** degC */
  readonly room: number;
  /** A fresh, cold rotor. */
  readonly start: () => Running;
}
export interface Running {
  setStage(stage: number): void;
  run(minutes: number): void;
  /** True temperatures of the two rings, degC. */
  temps(): readonly [number, number];
}

export interface Advice {
  readonly decision: 'hold' | 'next' | 'back-off' | 'stop' | 'complete';
  readonly stage: number;
  readonly standing: boolean;
  /** No further: the job ends here. */
  readonly ends: boolean;
  readonly nextReading?: number;
  /** The same if its speed stays as it is. */
  readonly stayReading?: number;
}
export interface Row {
  readonly stage: number;
  readonly minutes: number;
  readonly temps: readonly [number, number];
}
export type Guide = (rows: readonly Row[]) => Advice;

export interface Habit {
  /** Minutes between two readings. */
  readonly every: number;
  /** Comes when the guide says it is due, but never later than `every`; without it by the own clock alone. */
  readonly asDue: boolean;
  /** Share of readings that are left out. */
  readonly misses: number;
  /** Standard deviation of the wander, scatter and step of the thermometers, K. */
  readonly wander: number;
  readonly scatter: number;
  readonly step: number;
}

export interface Ended {
  readonly how: 'accepted' | 'rejected' | 'never';
  readonly minutes: number;
  readonly hottest: number;
  /** Times that the guide said stop or back off. */
  readonly sentBack: number;
  readonly readings: number;
  /** Highest temperature that comes if it runs on for a day at top speed, degC; where it was accepted. */
  readonly later: number;
  /** Faster of the two true slopes over ten minutes from acceptance, K/h. */
  readonly rateThen: number;
  readonly rows: readonly Row[];
  readonly last: Advice;
}

/** Nobody runs in for longer than this, min. */
const giveUp = 1500;

export function follow(
  machine: Machine,
  guide: Guide,
  habit: Habit,
  random: Random,
  shows: readonly [(t: number, m: number) => number, (t: number, m: number) => number],
): Ended {
  const running = machine.start();
  const rows: Row[] = [];
  let [minutes, stage, hottest, sentBack] = [0, 1, machine.room, 0];
  let advice: Advice = { decision: 'hold', stage: 1, standing: false, ends: false };
  const run = (time: number): void => {
    for (let left = time; left > 1e-9; left -= 0.5) {
      running.run(Math.min(0.5, left));
      hottest = Math.max(hottest, ...running.temps());
    }
    minutes += time;
  };
  const end = (how: Ended['how'], later = 0): Ended => ({
    rateThen: 0,
    how,
    minutes,
    hottest,
    sentBack,
    readings: rows.length,
    later,
    rows,
    last: advice,
  });
  running.setStage(stage);
  let previous = advice;
  while (minutes < giveUp) {
    const [a, b] = running.temps();
    const row: Row = {
      stage,
      minutes: Number(minutes.toFixed(1)),
      temps: [shows[0](a, minutes), shows[1](b, minutes)],
    };
    rows.push(row);
    previous = advice;
    advice = guide(rows);
    const back = advice.decision === 'stop' || advice.decision === 'back-off';
    if (back && previous.decision !== 'stop' && previous.decision !== 'back-off') sentBack++;
    if (advice.ends) return end('rejected');
    if (advice.decision === 'complete') {
      const accepted = end('accepted');
      let later = 0;
      const then = running.temps();
      let rateThen = 0;
      for (let t = 0; t < 1440; t += 10) {
        running.run(10);
        const temps = running.temps();
        later = Math.max(later, ...temps);
        if (t === 0) rateThen = 6 * Math.max(Math.abs(temps[0] - then[0]), Math.abs(temps[1] - then[1]));
      }
      return { ...accepted, later, rateThen };
    }
    // Hands need a moment.
    const wanted = advice.standing ? 0 : advice.stage;
    let gap = habit.every * random.between(0.8, 1.25) * (random.chance(habit.misses) ? 2 : 1);
    if (habit.asDue && advice.nextReading !== undefined)
      gap = Math.max(0.5, Math.min(advice.nextReading + random.between(-0.3, 1.5), 20));
    if (wanted !== stage) {
      const delay = Math.min(gap / 2, random.between(0.3, 1.5));
      run(delay);
      gap -= delay;
      stage = wanted;
      running.setStage(stage);
    }
    run(Math.max(0.2, gap));
  }
  return end('never');
}

export interface Best {
  /** Minutes; undefined where no run-in without a stop is safe. */
  readonly minutes: number | undefined;
  readonly hottest: number;
  /** Highest temperature over a day at top speed after it. */
  readonly end: number;
  /** Largest fall from a peak on the way: how high a spike stood that settled, K. */
  readonly spike: number;
}

/**
 * The fastest safe run-in by the same plan for somebody who sees the true temperature at every moment and knows what
 * comes: 15 min at each stage, the next one as soon as neither it nor what follows passes the limit, and at the last stage
 * until it has moved by no more than 1 K in half an hour (2 K per hour).
 */
export function best(machine: Machine, limit: number): Best {
  const safe = (hold: number): Best => {
    const running = machine.start();
    let [minutes, hottest, spike] = [0, machine.room, 0];
    const peaks = [...running.temps()];
    const run = (time: number): void => {
      for (let t = 0; t < time; t++) {
        running.run(1);
        const temps = running.temps();
        hottest = Math.max(hottest, ...temps);
        for (const [i, temp] of temps.entries()) {
          peaks[i] = Math.max(peaks[i] ?? temp, temp);
          spike = Math.max(spike, (peaks[i] ?? temp) - temp);
        }
      }
      minutes += time;
    };
    for (let stage = 1; stage < machine.stages; stage++) {
      running.setStage(stage);
      run(hold);
    }
    running.setStage(machine.stages);
    const seen: (readonly [number, number])[] = [running.temps()];
    for (let t = 1; t <= 1440; t++) {
      run(1);
      seen.push(running.temps());
      const before = seen[t - 30];
      const now = running.temps();
      if (before && Math.abs(now[0] - before[0]) <= 1 && Math.abs(now[1] - before[1]) <= 1) break;
    }
    const took = minutes;
    const peak = hottest;
    run(1440);
    const last = Math.max(...running.temps());
    return { minutes: peak < limit ? took : undefined, hottest: peak, end: last, spike };
  };
  const fast = safe(15);
  if (fast.minutes !== undefined || fast.end > limit) return fast;
  for (const hold of [30, 60]) {
    const slower = safe(hold);
    if (slower.minutes !== undefined) return slower;
  }
  return fast;
}
