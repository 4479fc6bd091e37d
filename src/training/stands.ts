/** Where a job stands, and whether anybody has begun it. Pure. */
import type { EntryKind } from '../engine/journal/entry.js';
import { gateSentence } from '../engine/state/refusals.js';
import type { State } from '../engine/state/state.js';
import { fillIn } from '../engine/values/texts.js';
import { isFilled } from './filled.js';

export interface Stands {
  readonly at: string;
  /** Order of its phase in the work, from 0. */
  readonly phase: number;
  readonly by?: 'stop' | 'hold';
  /** What the stop says. */
  readonly says?: string;
}

const notWork: ReadonlySet<EntryKind> = new Set(['job', 'operator', 'procedure', 'handover']);

/** False too where only the bench did what comes before a late start. */
export const isBegun = (state: State): boolean => state.entries.some((e) => !isFilled(e) && !notWork.has(e.kind));

/** Order of the phase of a step in the work, from 0. */
export const phaseOf = ({ model }: State, step: string): number =>
  model.procedure.phases.findIndex((p) => p.id === model.steps.get(step)?.phase);

/** Order of the phase in which it stands: what lies in earlier ones is behind, all of it when finished. */
export function reached(state: State): number {
  if (state.finished) return state.model.procedure.phases.length;
  const due = [...state.available(), ...state.waiting].map((v) => phaseOf(state, v.step.id));
  return due.length ? Math.min(...due) : 0;
}

/** The step that is due; undefined where nothing can be done now. */
export function standsAt(state: State): Stands | undefined {
  const [view] = state.finished ? [] : state.available();
  if (!view) return undefined;
  const where = view.place === 'job' ? '' : `${state.values.placeLabel(view.place)}: `;
  const at = `${where}${fillIn(state.values, view.step.title, view.place)}`;
  const phase = phaseOf(state, view.step.id);
  if (view.wants === 'sign') return { at, phase, by: 'hold' };
  return view.wants === 'gate' ? { at, phase, by: 'stop', says: gateSentence(state, view) } : { at, phase };
}
