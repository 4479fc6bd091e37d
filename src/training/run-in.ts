/**
 * What the thermometers of a practice rotor show in the run-in: the simulator's rotor, driven by the stages that were
 * logged at the times at which they were logged, with what was done to it before. Pure.
 */
import type { State } from '../engine/state.js';
import { type BearingSpec, frictionHeat } from '../simulator/bearing.js';
import { coldRotor, type RotorSpec, runFor, setStage } from '../simulator/rotor.js';
import type { RunIn, Typed } from './rotor-file.js';

/** Columns of the log that it answers. */
export const runInKeys: ReadonlySet<string> = new Set(['temp_a', 'temp_b', 'sound']);

const STAGES = 10;
/** A dose over what is due by less than this share finds its way out of the track. */
const BEARABLE = 0.15;
/** Multiple of churning for each whole dose too much. */
const PER_DOSE = 3;
/** Share of the rise between ring and housing, and how much faster the ring is than the housing. */
const LEAD = 0.3;
const FASTER = 4;

const number = (state: State, key: string, place: string): number | undefined => {
  const v = state.values.get(key, place);
  return v.known && typeof v.value === 'number' ? v.value : undefined;
};

function bearing(f: RunIn, top: number, room: number, stuck: number, lumps: readonly number[]): BearingSpec {
  const bare: BearingSpec = {
    dm: 38.5,
    staticRating: 7800,
    force: 100,
    forcePerKelvin: 0,
    grease: {
      oil: [
        { nu: 25, t: 40 },
        { nu: 5, t: 100 },
      ],
      f0: 1,
      excess: 0.15,
      lumps,
      lumpAfter: 1,
      stuck,
      // A lump stays until it is let stand.
      workOut: lumps.some((l) => l > 0) ? 120 : 6,
      drying: 0,
      driest: 0,
    },
    ringHeat: 1,
    housingHeat: 1,
    ringToHousing: 1,
    housingToRoom: 1,
    motor: 0,
  };
  // Conductances that bring a sound bearing to its rise at top speed.
  const lead = LEAD * f.rise;
  const heat = frictionHeat(bare, room + f.rise, room + f.rise - lead, 0, top);
  const ringToHousing = heat / lead;
  const housingToRoom = heat / (f.rise - lead);
  return {
    ...bare,
    ringToHousing,
    housingToRoom,
    ringHeat: ((60 * f.minutes) / FASTER) * ringToHousing,
    housingHeat: 60 * f.minutes * housingToRoom,
  };
}

/** @param stuck multiple of churning that never finds a way out, besides what an overfill adds */
export function simulatedReading(
  f: RunIn,
  state: State,
  place: string,
  key: string,
  row: number,
  stuck: number,
): Typed | undefined {
  const rows = state.ledger.steps.get(`run-in-log@${place}`)?.rows.slice(0, row + 1) ?? [];
  const now = rows.at(-1)?.get('log_stage');
  if (!now) return undefined;
  const room = number(state, 'room_run_in', 'job') ?? 21;
  const top = number(state, 'top_speed', 'job') ?? 14_000;
  const spikes = state.ledger.raised.filter((r) => r.branch === 'temperature-spike' && r.seq < now.first.seq);
  const stood = spikes.at(-1)?.seq ?? 0;
  const lumps = Array.from({ length: STAGES }, (_, i) => (i + 1 === f.lump_at && stood === 0 ? f.lump : 0));
  const one = (bearingAt: string): BearingSpec => {
    const due = number(state, 'dose_due', bearingAt);
    const set = number(state, 'dose_set', bearingAt);
    const over = due && set ? Math.max(0, set / due - 1 - BEARABLE) : 0;
    return bearing(f, top, room, stuck + PER_DOSE * over, lumps);
  };
  const spec: RotorSpec = { top, room, stages: STAGES, bearings: [one('a'), one('b')] };
  let s = coldRotor(spec);
  let before: number | undefined;
  for (const r of rows) {
    const stage = r.get('log_stage');
    // What stood until it was cool begins cold.
    if (!stage || stage.first.seq < stood) continue;
    const at = Date.parse(stage.first.at);
    const minutes = before === undefined ? 1 : Math.min(30, Math.max(0.5, (at - before) / 60_000));
    before = at;
    s = runFor(spec, setStage(s, Number(stage.value)), minutes);
  }
  const i = key === 'temp_b' ? 1 : 0;
  if (key !== 'sound') return `${s.bearings[i].ring.toFixed(1)} C`;
  const worst = Math.max(...s.bearings.map((b) => b.ring));
  const churns = Math.max(...s.bearings.map((b) => b.churn));
  return worst > 95 ? 'rough' : churns > 1 ? 'hiss' : 'smooth';
}
