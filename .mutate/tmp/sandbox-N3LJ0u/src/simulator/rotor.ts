/** A simulated rotor: two bearings on one shaft, in one room, and what a thermometer on each ring shows. */
// @ts-nocheck

import { atRest, type BearingSpec, type BearingState, stepBearing } from './bearing.js';
import type { Random } from './random.js';

export interface RotorSpec {
  /** rpm */
  readonly top: number;
  /** degC */
  readonly room: number;
  /** Equal steps up to the top speed. */
  readonly stages: number;
  readonly bearings: readonly [BearingSpec, BearingSpec];
}

export interface RotorState {
  readonly minutes: number;
  /** 0 while it stands. */
  readonly stage: number;
  /** Minutes since the last change of speed. */
  readonly since: number;
  /** Share of each stage's lump that is still to come, for each bearing. */
  readonly toCome: readonly [readonly number[], readonly number[]];
  readonly bearings: readonly [BearingState, BearingState];
}

/** min */
const longestStep = 0.5;

export function coldRotor(spec: RotorSpec): RotorState {
  const all = Array.from({ length: spec.stages }, () => 1);
  const start = (b: BearingSpec): BearingState => ({ ...atRest(spec.room), churn: b.grease.excess });
  return {
    minutes: 0,
    stage: 0,
    since: 0,
    toCome: [all, all],
    bearings: [start(spec.bearings[0]), start(spec.bearings[1])],
  };
}

export const setStage = (state: RotorState, stage: number): RotorState =>
  stage === state.stage ? state : { ...state, stage, since: 0 };

/** The same rotor some minutes later, at the speed that is set. */
export function runFor(spec: RotorSpec, state: RotorState, minutes: number): RotorState {
  let s = state;
  for (let left = minutes; left > 1e-9; ) {
    const step = Math.min(longestStep, left);
    s = oneStep(spec, s, step);
    left -= step;
  }
  return s;
}

function oneStep(spec: RotorSpec, s: RotorState, minutes: number): RotorState {
  const rpm = (spec.top * s.stage) / spec.stages;
  const one = (i: 0 | 1): readonly [BearingState, readonly number[]] => {
    const bearing = spec.bearings[i];
    let toCome = s.toCome[i];
    let state = s.bearings[i];
    const share = toCome[s.stage - 1] ?? 0;
    if (s.stage > 0 && share > 0 && s.since >= bearing.grease.lumpAfter) {
      state = { ...state, churn: state.churn + share * (bearing.grease.lumps[s.stage - 1] ?? 0) };
      toCome = toCome.map((old, k) => (k === s.stage - 1 ? 0 : old));
    }
    return [stepBearing(bearing, state, rpm, spec.top, spec.room, minutes), toCome];
  };
  const [a, toComeA] = one(0);
  const [b, toComeB] = one(1);
  return {
    minutes: s.minutes + minutes,
    stage: s.stage,
    since: s.since + minutes,
    toCome: [toComeA, toComeB],
    bearings: [a, b],
  };
}

/** A thermometer: wanders slowly, and shows so many decimals. */
export interface Thermometer {
  /** What it shows for a ring of this temperature at this minute. */
  readonly read: (temp: number, minutes: number) => number;
}

/**
 * Wanders by `wander` K (standard deviation) with a memory of some ten minutes, scatters by `scatter` K each time, and
 * shows steps of `step` K.
 */
export function thermometer(random: Random, wander: number, scatter: number, step: number): Thermometer {
  let drift = wander * random.normal();
  let at = 0;
  return {
    read: (temp, minutes) => {
      const kept = Math.exp(-Math.max(0, minutes - at) / 10);
      drift = drift * kept + wander * Math.sqrt(1 - kept * kept) * random.normal();
      at = minutes;
      const shown = temp + drift + scatter * random.normal();
      return Number((Math.round(shown / step) * step).toFixed(3));
    },
  };
}
