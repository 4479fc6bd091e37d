/** Lessons that are told as soon as harm is done: what was fallen into and can no longer be put right. Pure. */
import type { State } from '../engine/state/state.js';
import { shownTrap } from './debrief.js';
import { type DebriefLine, trapLines } from './debrief-lines.js';
import type { PracticeRotor } from './practice-rotor.js';
import { isDone } from './trap-outcomes.js';

export interface Harm {
  readonly id: string;
  readonly lines: readonly DebriefLine[];
}

export function harmsNow(state: State, rotor: PracticeRotor): Harm[] {
  return rotor.file.traps.flatMap((trap) => {
    if (rotor.holds(trap.fell, state, trap.at) !== true) return [];
    if (trap.too_late !== undefined && !isDone(state, trap)) return [];
    const where = trap.at === 'job' ? '' : state.values.placeLabel(trap.at);
    return [{ id: trap.id, lines: trapLines(shownTrap({ trap, end: 'fell', where, fellAt: undefined }, state)) }];
  });
}
