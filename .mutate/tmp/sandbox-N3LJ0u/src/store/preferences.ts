/** What the program remembers about people rather than jobs. */
// @ts-nocheck

import { smallFile } from './small-file.js';
import { done, type Result, troubleOf } from './trouble.js';

export interface Preferences {
  /** Initials of who worked last. */
  readonly initials?: string;
  /** Whether timers ring. */
  readonly bell?: boolean;
  readonly [more: string]: string | number | boolean | undefined;
}

/** What one person has practised, by practice rotor or subject. */
export type Progress = Readonly<Record<string, string | number | boolean>>;

export interface People {
  preferences(): Preferences;
  /** Changes the named ones; undefined forgets one. */
  setPreferences(change: Preferences): Promise<Result<Preferences>>;
  /** @param person initials, as typed */
  progress(person: string): Progress;
  setProgress(person: string, change: Progress): Promise<Result<Progress>>;
}

/** Field that keeps the unit in which a question was answered last. `unit length` and the like, once by kind, are left alone. */
export const unitField = (question: string): string => `unit of ${question}`;

type Plain = string | number | boolean;
const isPlain = (value: unknown): value is Plain =>
  typeof value === 'string' || typeof value === 'boolean' || (typeof value === 'number' && Number.isFinite(value));

function plainOf(value: unknown): Record<string, Plain> {
  if (typeof value !== 'object' || value === null) return {};
  return Object.fromEntries(Object.entries(value).filter((pair): pair is [string, Plain] => isPlain(pair[1])));
}

function preferencesOf(value: unknown): Preferences {
  const plain = plainOf(value);
  if (typeof plain.initials !== 'string') delete plain.initials;
  if (typeof plain.bell !== 'boolean') delete plain.bell;
  return plain;
}

export function people(folder: string): People {
  const preferences = smallFile(folder, 'preferences');
  const progress = smallFile(folder, 'progress');
  // Keyed with a mark in front, so that initials such as 'constructor' are only initials.
  const keyOf = (person: string): string => `by ${person.trim().toUpperCase().slice(0, 40)}`;
  return {
    preferences: () => preferencesOf(preferences.read()),
    async setPreferences(change) {
      let next: Preferences = {};
      try {
        await preferences.update((now) => {
          next = preferencesOf({ ...preferencesOf(now), ...change });
          return next;
        });
        return done(next);
      } catch (error) {
        return troubleOf(error, 'This setting could not be saved', 'Jobs are not touched.');
      }
    },
    progress: (person) => plainOf(progress.read()[keyOf(person)]),
    async setProgress(person, change) {
      const key = keyOf(person);
      let next: Progress = {};
      try {
        await progress.update((now) => {
          next = plainOf({ ...plainOf(now[key]), ...change });
          return { ...now, [key]: next };
        });
        return done(next);
      } catch (error) {
        return troubleOf(error, 'The progress could not be saved', 'Jobs are not touched.');
      }
    },
  };
}
