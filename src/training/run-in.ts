/**
 * What the thermometers of a practice rotor show in the run-in: the simulator's rotor, driven by the stages that were
 * logged at the times at which they were logged, with what was done to it before. Pure.
 */
import type { State } from '../engine/state/state.js';
import { type BearingSpec, frictionHeat } from '../simulator/bearing.js';
import { coldRotor, type RotorSpec, type RotorState, runFor, setStage } from '../simulator/rotor.js';
import type { RunIn, Typed } from './rotor-file.js';

type Log = NonNullable<RunIn['log']>;
/** A dose over what is due by less than this share finds its way out of the track. */
const BEARABLE = 0.15;
/** Multiple of churning for each whole dose too much. */
const PER_DOSE = 3;
/** Share of the rise between ring and housing, and how much faster the ring is than the housing. */
const LEAD = 0.3;
const FASTER = 4;
/** One for all bearings: the simulator keeps a table of each. */
const OIL = [
  { nu: 25, t: 40 },
  { nu: 5, t: 100 },
] as const;

function bearing(f: RunIn, top: number, room: number, stuck: number, lumps: readonly number[]): BearingSpec {
  const bare: BearingSpec = {
    dm: 38.5,
    staticRating: 7800,
    force: 100,
    forcePerKelvin: 0,
    grease: {
      oil: OIL,
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

/** How it stands with a bearing: what an expression of the rotor's file says, seen from its place. */
export type ReadNumber = (expression: string, place: string) => number | undefined;

const answers = (log: Log, key: string): boolean => key in log.rings || key === log.sound;

interface Way {
  readonly stage: number;
  readonly minutes: number;
}
/** What was run last for a file: a log is read row by row, each question of a row after the same run. */
const lastRuns = new WeakMap<RunIn, { readonly of: string; readonly ways: Way[]; readonly states: RotorState[] }>();

/** The rotor after it ran so; what was run before is not run once more. */
function after(f: RunIn, spec: RotorSpec, ways: readonly Way[]): RotorState {
  const of = JSON.stringify(spec);
  const last = lastRuns.get(f);
  const run = last?.of === of ? last : { of, ways: [], states: [] };
  lastRuns.set(f, run);
  const other = ways.findIndex(({ stage, minutes }, i) => {
    const done = run.ways[i];
    return done?.stage !== stage || done.minutes !== minutes;
  });
  const alike = other < 0 ? ways.length : other;
  if (other >= 0) {
    run.ways.length = alike;
    run.states.length = alike;
  }
  let s = run.states[alike - 1] ?? coldRotor(spec);
  for (const { stage, minutes } of ways.slice(alike)) {
    s = runFor(spec, setStage(s, stage), minutes);
    run.ways.push({ stage, minutes });
    run.states.push(s);
  }
  return s;
}

/** Nothing where the simulator does not answer this question, or the row has no stage yet. */
export function simulatedReading(
  f: RunIn,
  state: State,
  step: string,
  place: string,
  key: string,
  row: number,
  reads: ReadNumber,
): Typed | undefined {
  const { log } = f;
  if (!log || log.step !== step || !answers(log, key)) return undefined;
  const rows = state.ledger.steps.get(`${step}@${place}`)?.rows.slice(0, row + 1) ?? [];
  const now = rows.at(-1)?.get(log.stage);
  if (!now) return undefined;
  const room = reads(log.room, place);
  const top = reads(log.top, place);
  if (room === undefined || top === undefined) return undefined;
  const stands = state.ledger.raised.filter((r) => log.stood?.includes(r.branch) && r.seq < now.first.seq);
  const stood = stands.at(-1)?.seq ?? 0;
  const lumps = Array.from({ length: log.stages }, (_, i) => (i + 1 === f.lump_at && stood === 0 ? f.lump : 0));
  const stuck = (f.worse ?? []).reduce((n, w) => n + (reads(w.when, w.at) ? w.stuck : 0), 0);
  const one = (at: string): BearingSpec => {
    const due = reads(log.due, at);
    const put = reads(log.put_in, at);
    const over = due && put ? Math.max(0, put / due - 1 - BEARABLE) : 0;
    return bearing(f, top, room, stuck + PER_DOSE * over, lumps);
  };
  const [first = place, second = first] = Object.values(log.rings);
  const spec: RotorSpec = { top, room, stages: log.stages, bearings: [one(first), one(second)] };
  const ways: Way[] = [];
  let before: number | undefined;
  for (const r of rows) {
    const stage = r.get(log.stage);
    // What stood until it was cool begins cold.
    if (!stage || stage.first.seq < stood) continue;
    const at = Date.parse(stage.first.at);
    const minutes = before === undefined ? 1 : Math.min(30, Math.max(0.5, (at - before) / 60_000));
    before = at;
    ways.push({ stage: Number(stage.value), minutes });
  }
  const s = after(f, spec, ways);
  const i = Object.keys(log.rings).indexOf(key) === 1 ? 1 : 0;
  if (key !== log.sound) return `${s.bearings[i].ring.toFixed(1)} C`;
  const worst = Math.max(...s.bearings.map((b) => b.ring));
  const churns = Math.max(...s.bearings.map((b) => b.churn));
  return worst > 95 ? 'rough' : churns > 1 ? 'hiss' : 'smooth';
}
