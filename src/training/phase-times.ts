/** How long each phase took, from the times of the entries. Pure. */
import type { State } from '../engine/state/state.js';
import { isFilled } from './filled.js';

export interface PhaseTime {
  readonly phase: string;
  readonly title: string;
  /** Minutes at work; breaks are left out. */
  readonly minutes: number;
  readonly entries: number;
}
export interface Times {
  readonly phases: readonly PhaseTime[];
  /** Minutes of breaks: gaps longer than BREAK. */
  readonly away: number;
}

/** Minutes without an entry that count as a break. */
const BREAK = 120;

/**
 * Time from the entry before is the time that an entry took, and belongs to the phase of its step. What was filled in
 * before a late start took nobody any.
 */
export function phaseTimes(state: State): Times {
  const minutes = new Map<string, number>();
  const entries = new Map<string, number>();
  let away = 0;
  let phase = state.model.procedure.phases[0]?.id ?? '';
  let before: number | undefined;
  for (const e of state.entries) {
    const now = Date.parse(e.at);
    const step = 'step' in e ? e.step : e.kind === 'raise' ? branchStep(state, e.branch) : undefined;
    phase = (step !== undefined && state.model.steps.get(step)?.phase) || phase;
    // A clock that was put back adds nothing.
    const gap = before === undefined || Number.isNaN(now) ? 0 : Math.max(0, (now - before) / 60_000);
    if (isFilled(e)) {
      before = now;
      continue;
    }
    if (gap > BREAK) away += gap;
    else minutes.set(phase, (minutes.get(phase) ?? 0) + gap);
    entries.set(phase, (entries.get(phase) ?? 0) + 1);
    if (!Number.isNaN(now)) before = now;
  }
  return {
    away,
    phases: state.model.procedure.phases.flatMap(({ id, title }) => {
      const n = entries.get(id);
      return n ? [{ phase: id, title, minutes: minutes.get(id) ?? 0, entries: n }] : [];
    }),
  };
}

const branchStep = (state: State, branch: string): string | undefined =>
  state.model.procedure.steps.find((s) => s.branch === branch)?.id;
