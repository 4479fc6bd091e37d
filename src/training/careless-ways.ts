/**
 * Ways that were careless, on a rotor where nothing came of it too: what stands behind each on other rotors, and what it
 * costs there. Those of a trap that was fallen into are told with that trap. Pure.
 */
import type { State } from '../engine/state/state.js';
import { fillIn } from '../engine/values/texts.js';
import { isOwn } from './filled.js';
import type { PracticeRotor } from './practice-rotor.js';
import type { Trap, Way } from './rotor-file.js';
import { phaseOf } from './stands.js';
import type { TrapOutcome } from './trap-outcomes.js';

export interface WayTaken {
  /** Order of its phase in the work, from 0. */
  readonly phase: number;
  readonly label: string;
  /** Name of its place; empty for the whole job. */
  readonly where: string;
  readonly way: string;
  /** Where it was careless: the trap that stands behind it on other rotors, or here. */
  readonly careless?: {
    readonly trap: string;
    readonly skill: string;
    readonly title: string;
    readonly costs: string;
    readonly lesson: string;
  };
}

/** Every way that an apprentice took and that no trap of this rotor has told of, in the order in which they were taken. */
export function waysTaken(state: State, rotor: PracticeRotor, outcomes: readonly TrapOutcome[]): WayTaken[] {
  const { file } = rotor;
  const told = new Map(outcomes.map((o) => [o.trap.id, o.end]));
  const traps = new Map([...(file.elsewhere ?? []), ...file.traps].map((t) => [t.id, t]));
  const found: (WayTaken & { readonly seq: number })[] = [];
  for (const [slot, ledger] of state.ledger.steps) {
    const [step = '', place = ''] = slot.split('@');
    for (const [key, given] of ledger.answers) {
      const id = given.entry.way ?? given.first.way;
      if (id === undefined || !isOwn(state, given.entry)) continue;
      const all = file.readings.flatMap((r) =>
        r.step === step && r.at === place && r.key === key
          ? (r.ways ?? []).map((w) => ({ ...w, of: r.ways ?? [] }))
          : [],
      );
      const way = all.find((w) => w.way === id);
      if (!way) continue;
      const trap = trapOf(way, way.of, traps);
      const end = trap && told.get(trap.id);
      // With the trap itself, or still ahead.
      if (!trap || end === 'fell' || end === 'caught-late' || (end === 'not-met' && !state.finished)) continue;
      const question = state.model.keys.get(key)?.label ?? key;
      const careless =
        way.careless === undefined || (way.unless !== undefined && rotor.holds(way.unless, state, place) === true)
          ? {}
          : {
              careless: {
                trap: trap.id,
                skill: trap.skill ?? trap.id,
                title: trap.title,
                costs: trap.would_have,
                lesson: trap.lesson,
              },
            };
      found.push({
        seq: given.entry.seq,
        phase: phaseOf(state, step),
        label: fillIn(state.values, question, place),
        where: place === 'job' ? '' : state.values.placeLabel(place),
        way: way.label,
        ...careless,
      });
    }
  }
  return found.sort((a, b) => a.seq - b.seq).map(({ seq: _, ...taken }) => taken);
}

/** The trap that the careless one of the ways of a question belongs to; none where none is careless. */
function trapOf(way: Way, all: readonly Way[], traps: ReadonlyMap<string, Trap>): Trap | undefined {
  const id = way.careless ?? all.find((w) => w.careless !== undefined)?.careless;
  return id === undefined ? undefined : traps.get(id);
}
