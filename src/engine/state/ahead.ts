/** How far a job is and what is still to come: by phase and bearing, in steps, in minutes of work and of waiting. Pure. */

import { related, slot } from '../journal/ledger.js';
import type { StepView } from '../steps/board.js';
import type { State } from './state.js';

export interface PhaseCell {
  /** 'job' or a position. */
  readonly place: string;
  readonly done: number;
  readonly total: number;
  /** What stands first there: `none` where nothing of this phase applies. */
  readonly status: 'none' | 'done' | 'waiting' | 'stopped' | 'open' | 'later';
  /** The step that is next there, or that waits. */
  readonly next: StepView | undefined;
}
export interface PhaseRow {
  readonly id: string;
  readonly title: string;
  /** The whole job first, then each position in order. */
  readonly cells: readonly PhaseCell[];
}
export interface Ahead {
  readonly done: number;
  readonly total: number;
  /** Minutes at the bench and the laptop still to come; undefined until two steps were done. An estimate. */
  readonly work: number | undefined;
  /** Minutes of waiting still to come, where they are known. */
  readonly waits: number;
  /** Waits to come whose length is not known yet. */
  readonly openWaits: number;
  /** Logs still to be kept, such as a run-in: as long as they take. */
  readonly logs: readonly StepView[];
  /** Signatures still to come. */
  readonly holds: number;
}

const applies = (v: StepView): boolean => v.status !== 'not-needed';
const over = (v: StepView): boolean => v.status === 'done' || v.status === 'waiting';
const workable = (v: StepView): boolean => v.status === 'open' || v.status === 'stopped' || v.status === 'reopened';

function cell(place: string, views: readonly StepView[]): PhaseCell {
  const own = views.filter((v) => (place === 'job' ? v.place === 'job' : v.place !== 'job' && related(v.place, place)));
  const done = own.filter(over).length;
  const base = { place, done, total: own.length };
  if (own.length === 0) return { ...base, status: 'none', next: undefined };
  const waiting = own.find((v) => v.status === 'waiting');
  const open = own.find(workable);
  if (open) return { ...base, status: open.status === 'stopped' ? 'stopped' : 'open', next: open };
  if (waiting) return { ...base, status: 'waiting', next: waiting };
  const later = own.find((v) => !over(v));
  return later ? { ...base, status: 'later', next: later } : { ...base, status: 'done', next: undefined };
}

/** Each phase that has anything to do in this job, in order. */
export function phaseRows(state: State): readonly PhaseRow[] {
  const positions = state.model.places.filter((p) => p.parent === 'job' && state.values.takesPart(p.id));
  const views = state.views.filter(applies);
  return state.model.procedure.phases.flatMap(({ id, title }) => {
    const own = views.filter((v) => v.step.phase === id);
    return own.length ? [{ id, title, cells: ['job', ...positions.map((p) => p.id)].map((p) => cell(p, own)) }] : [];
  });
}

/** A pause longer than this, in minutes, was no work on the step. */
const LONGEST = 15;

/** Minutes between the entries of each step and those before them, by step. */
function pastMinutes(state: State): ReadonlyMap<string, number> {
  const out = new Map<string, number>();
  for (let i = 1; i < state.entries.length; i++) {
    const e = state.entries[i]!;
    if (!('step' in e) || state.model.steps.get(e.step)?.repeat) continue;
    const name = slot(e.step, e.place);
    const minutes = (Date.parse(e.at) - Date.parse(state.entries[i - 1]!.at)) / 60_000;
    if (minutes >= 0 && minutes <= LONGEST) out.set(name, (out.get(name) ?? 0) + minutes);
  }
  return out;
}

const median = (list: readonly number[]): number | undefined =>
  list.length ? [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)] : undefined;

/** By state, since it stands in the head of each frame. */
const known = new WeakMap<State, Ahead>();

export function ahead(state: State): Ahead {
  const a = known.get(state) ?? lookAhead(state);
  known.set(state, a);
  return a;
}

function lookAhead(state: State): Ahead {
  const views = state.views.filter(applies);
  const rest = views.filter((v) => !over(v));
  const past = pastMinutes(state);
  const usual = past.size >= 2 ? median([...past.values()]) : undefined;
  const byStep = new Map<string, number[]>();
  for (const [name, minutes] of past) {
    const id = name.slice(0, name.indexOf('@'));
    byStep.set(id, [...(byStep.get(id) ?? []), minutes]);
  }
  const like = (v: StepView): number => median(byStep.get(v.step.id) ?? []) ?? usual ?? 0;
  let waits = 0;
  let openWaits = 0;
  for (const v of rest) {
    if (!v.step.wait) continue;
    const minutes = state.values.evaluate(v.step.wait.minutes, v.place);
    const length = minutes.known ? Number(minutes.value) : Number.NaN;
    if (Number.isFinite(length)) waits += length;
    else openWaits += 1;
  }
  const running = state.waiting.map((v) => v.wait!.left / 60_000).filter(Number.isFinite);
  return {
    done: views.length - rest.length,
    total: views.length,
    work: usual === undefined ? undefined : rest.filter((v) => !v.step.repeat).reduce((n, v) => n + like(v), 0),
    waits: waits + (running.length ? Math.max(...running) : 0),
    openWaits,
    logs: rest.filter((v) => v.step.repeat),
    holds: rest.filter((v) => v.step.hold).length,
  };
}
