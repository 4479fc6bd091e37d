/** What one job is in the life of its rotor: which rotor, what was done, when the next look is due. Pure. */

import type { State } from '../engine/state/state.js';
import { DAY } from '../units/kinds.js';

export interface LifeMark {
  readonly rotor: string;
  readonly machine: string;
  /** What such a job is, such as `Regreased`. */
  readonly did: string;
  /** ISO instant of the last entry. */
  readonly at: string;
  /** Hours of running until the next look. */
  readonly hours?: number;
  /** The day of the next look, as `2027-03-14`; left out while nobody said how long it runs a day. */
  readonly due?: string;
}

/** The day on which so many hours of running are over, rounded to the earlier day. */
export function dueDay(at: string, hours: number, hoursADay: number): string | undefined {
  const from = Date.parse(at);
  if (!(hours > 0) || !(hoursADay > 0) || hoursADay > 24 || Number.isNaN(from)) return undefined;
  const until = from + Math.floor(hours / hoursADay) * DAY;
  return until < 8.64e15 ? new Date(until).toISOString().slice(0, 10) : undefined;
}

/**
 * Undefined while the job is not finished, names no rotor, or its procedure has no place in a rotor's life.
 * @param finished what is known of that already: to find out is most of the work
 */
export function lifeMarkOf(state: State, finished = state.finished): LifeMark | undefined {
  const { life } = state.model.procedure;
  const last = state.entries.at(-1);
  if (!life || !last || !finished) return undefined;
  const text = (key: string | undefined): string => {
    const v = key === undefined ? undefined : state.values.get(key, 'job');
    return v?.known && typeof v.value === 'string' ? v.value.trim() : '';
  };
  const number = (key: string | undefined): number | undefined => {
    const v = key === undefined ? undefined : state.values.get(key, 'job');
    return v?.known && typeof v.value === 'number' ? v.value : undefined;
  };
  const rotor = text(life.rotor);
  if (!rotor) return undefined;
  const hours = number(life.hours);
  const aDay = number(life.a_day);
  const due = hours !== undefined && aDay !== undefined ? dueDay(last.at, hours, aDay) : undefined;
  return {
    rotor,
    machine: text(life.machine),
    did: life.did,
    at: last.at,
    ...(hours === undefined ? {} : { hours }),
    ...(due === undefined ? {} : { due }),
  };
}

/** One rotor, however its number was typed: case and spaces tell none apart. */
export const rotorKey = (rotor: string): string => rotor.toLowerCase().replace(/\s+/g, '');
