/** Both simulators as machines that a crew can drive. */

import { type Random, randomOf } from '../../../src/simulator/random.js';
import { coldRotor, type RotorSpec, runFor, setStage, thermometer } from '../../../src/simulator/rotor.js';
import { drawRotor } from '../../simulator/draw.js';
import { drawSecond } from '../../simulator/second.js';
import { drawThird } from '../../simulator/third.js';
import type { Habit, Machine } from './crew.js';

export function palmgren(spec: RotorSpec): Machine {
  return {
    stages: spec.stages,
    top: spec.top,
    room: spec.room,
    start: () => {
      let state = coldRotor(spec);
      return {
        setStage: (stage) => {
          state = setStage(state, stage);
        },
        run: (minutes) => {
          state = runFor(spec, state, minutes);
        },
        temps: () => [state.bearings[0].ring, state.bearings[1].ring],
      };
    },
  };
}

export interface Case {
  readonly seed: number;
  readonly fault: string;
  readonly machine: Machine;
  readonly habit: Habit;
  /** Slow time constant, min. */
  readonly slow: number;
}

export const simulators = ['first', 'second', 'third'] as const;
export type Simulator = (typeof simulators)[number];

export function caseOf(simulator: Simulator, seed: number): Case {
  const random = randomOf(seed + 1_000_000 * simulators.indexOf(simulator));
  const habit = habitOf(random);
  if (simulator === 'first') {
    const drawn = drawRotor(random);
    return { seed, habit, fault: drawn.fault, machine: palmgren(drawn.rotor), slow: drawn.slow };
  }
  return { seed, habit, ...(simulator === 'second' ? drawSecond(random) : drawThird(random)) };
}

function habitOf(random: Random): Habit {
  const every = random.between(1, 15);
  return {
    every,
    asDue: random.chance(0.5),
    misses: random.between(0, 0.08),
    wander: random.between(0.05, 0.25),
    scatter: random.between(0.02, 0.15),
    step: random.chance(0.5) ? 0.1 : 0.5,
  };
}

export const showsOf = (
  habit: Habit,
  random: Random,
): [(t: number, m: number) => number, (t: number, m: number) => number] => [
  thermometer(random, habit.wander, habit.scatter, habit.step).read,
  thermometer(random, habit.wander, habit.scatter, habit.step).read,
];
