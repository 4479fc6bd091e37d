/** How far a job is, in the head of its screens. */
import { ahead } from '../../engine/state/ahead.js';
import type { State } from '../../engine/state/state.js';
import type { Desk } from '../desk.js';
import type { Block } from '../look/line.js';
import { placeWords } from './entry-words.js';
import { left } from './times.js';

/**
 * `31 of 79 · work 50 min + wait 35 min + run in`, in the brisk pace `31/79 · ...`: minutes of the whole job from its own
 * pace, once there are some. How long a log takes nobody knows: its
 * phase is named.
 */
export function howFar(state: State, { brief = false } = {}): string {
  const a = ahead(state);
  if (a.done === a.total) return '';
  const at = `${a.done + 1}${state.ledger.pace === 'brisk' ? '/' : ' of '}${a.total}`;
  if (brief || a.work === undefined || a.done < 10) return at;
  const wait = a.waits > 0 ? ` + wait ${left(a.waits * 60_000)}` : '';
  const [log] = a.logs;
  const phase = log && state.model.procedure.phases.find((p) => p.id === log.step.phase)?.title;
  return `${at} · work ${left(Math.max(1, a.work) * 60_000)}${wait}${phase ? ` + ${phase.slice(0, 1).toLowerCase()}${phase.slice(1)}` : ''}`;
}

/** Said when another bearing is on than a moment ago. */
export const arrivedBlock = (desk: Desk, place: string): Block => ({
  rank: 1,
  label: `Another ${desk.positionName}`,
  lines: () => [[{ text: ` Now at ${placeWords(desk.state, place).toUpperCase()} `, tone: 'invert' }]],
});
