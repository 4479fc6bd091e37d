/** An invented rotor as the guide asks it: what it shows now, at this place, measured in this way. Pure. */

import type { Answer } from '../engine/journal/entry.js';
import type { State } from '../engine/state/state.js';
import type { Model } from '../procedure/model.js';
import { optionsOf, pickedWords } from '../procedure/questions/index.js';
import { firstOf } from './draw-words.js';
import type { Phrasing, Rotor, RotorLog, RotorReading, Typed, Way } from './rotor-file.js';
import { RotorWords } from './rotor-words.js';
import { simulatedReading } from './run-in.js';

export interface WayOffered {
  readonly way: string;
  readonly label: string;
}

export class PracticeRotor {
  readonly id: string;
  readonly title: string;
  readonly teaches: string;
  readonly story: string;
  readonly procedure: string;
  readonly next: string | undefined;
  private compiled: RotorWords | undefined;

  constructor(
    readonly file: Rotor,
    readonly model: Model,
  ) {
    this.id = file.rotor;
    this.title = file.title;
    this.teaches = file.teaches;
    this.story = file.story;
    this.procedure = file.procedure;
    this.next = file.next;
  }

  /** Ways of measuring to choose between first; none when there is nothing to choose. */
  ways(step: string, place: string, key: string, state: State): readonly WayOffered[] {
    return (this.reading(step, place, key, state)?.ways ?? []).map(({ way, label }) => ({ way, label }));
  }

  /** Those of them that tell what is so. */
  waysThatTell(step: string, place: string, key: string, state: State): readonly string[] {
    const ways = this.reading(step, place, key, state)?.ways ?? [];
    return ways.filter((w) => w.careless === undefined).map((w) => w.way);
  }

  /**
   * In words, what the rotor shows when this is read off; undefined when it has nothing to say or a way
   * has to be chosen first. `row` counts the readings of a log from 0.
   */
  shows(step: string, place: string, key: string, row: number, state?: State, way?: string): string | undefined {
    const found = this.look(step, place, key, row, state, way);
    if (!found) return undefined;
    const seen =
      firstOf(found.sees) ??
      (found.shows === undefined ? undefined : (this.looks(key, found.shows) ?? this.inWords(step, key, found.shows)));
    return [firstOf(found.says), seen].filter(Boolean).join(' - ') || undefined;
  }

  /** What would be typed for it. */
  typed(step: string, place: string, key: string, row: number, state?: State, way?: string): Typed | undefined {
    return this.look(step, place, key, row, state, way)?.shows;
  }

  /** False where it shows nothing, whatever was done. */
  mayShow(step: string, place: string, key: string): boolean {
    const { run_in, logs = [], readings } = this.file;
    return (
      run_in?.log?.step === step ||
      logs.some((l) => l.step === step && l.columns.includes(key)) ||
      readings.some((r) => r.step === step && r.at === place && keysOfReading(r).includes(key))
    );
  }

  /** Other answers that are as true here. */
  also(step: string, place: string, key: string, row: number, state: State): readonly string[] {
    return this.reading(step, place, key, state, row)?.also?.[key] ?? [];
  }

  /** What would be typed where it shows the answer itself: nothing to look at, nothing to decide. */
  quiet(step: string, place: string, key: string, row: number, state: State): string | undefined {
    if (this.ways(step, place, key, state).length) return undefined;
    const found = this.look(step, place, key, row, state, undefined);
    if (found?.shows === undefined || found.sees !== undefined || Array.isArray(found.shows)) return undefined;
    return this.looks(key, found.shows) === undefined ? String(found.shows) : undefined;
  }

  /** Made when the first condition is asked for: a list of rotors asks none. */
  private get words(): RotorWords {
    this.compiled ??= new RotorWords(this.model, this.file);
    return this.compiled;
  }

  /** The trap conditions are evaluated with the same words. */
  holds(text: string, state: State, place: string): boolean | undefined {
    return this.words.holds(text, state, place);
  }

  private look(
    step: string,
    place: string,
    key: string,
    row: number,
    state: State | undefined,
    chosen: string | undefined,
  ): { shows?: Typed; says?: Phrasing; sees?: Phrasing } | undefined {
    const logged = state && (this.logged(step, place, key, row, state) ?? this.simulated(step, place, key, row, state));
    if (logged !== undefined) return { shows: logged };
    const reading = this.reading(step, place, key, state, row);
    if (!reading) return undefined;
    if (!reading.ways) {
      const shows = reading.shows?.[key] ?? this.worked(reading, key, state);
      const sees = reading.sees?.[key];
      // What is said of several readings together says nothing of one that has something to be seen of its own.
      const own = sees !== undefined || (shows !== undefined && this.looks(key, shows) !== undefined);
      return { shows, sees, ...(own && keysOfReading(reading).length > 1 ? {} : { says: reading.says }) };
    }
    const way: Way | undefined = reading.ways.find((w) => w.way === chosen);
    return way && { shows: way.shows, says: way.says, sees: way.sees };
  }

  /** The first that fits; one with a condition needs a state. */
  private reading(
    step: string,
    place: string,
    key: string,
    state: State | undefined,
    row = 0,
  ): RotorReading | undefined {
    return this.file.readings.find(
      (r) =>
        r.step === step && r.at === place && keysOfReading(r).includes(key) && this.applies(r.when, state, place, row),
    );
  }

  /** A reading that follows from what was done, as it would be typed; nothing while it can't be worked out. */
  private worked(reading: RotorReading, key: string, state: State | undefined): Typed | undefined {
    const text = reading.works_out?.[key];
    const value = text === undefined || !state ? undefined : this.words.evaluate(text, state, reading.at);
    if (typeof value !== 'number') return undefined;
    const unit = this.model.keys.get(key)?.unit;
    return `${Number(value.toPrecision(4))}${unit ? ` ${unit}` : ''}`;
  }

  private applies(when: string | undefined, state: State | undefined, place: string, row: number): boolean {
    return when === undefined || (state !== undefined && this.words.holds(when, state, place, row) === true);
  }

  private logged(step: string, place: string, key: string, row: number, state: State): Typed | undefined {
    for (const log of this.file.logs ?? []) {
      const column = log.columns.indexOf(key);
      if (log.step !== step || log.at !== place || column < 0) continue;
      const now = state.values.get(log.by, place);
      if (!now.known) continue;
      const rows = log.rows.filter((r) => Number(r[0]) === now.value || String(r[0]) === String(now.value));
      if (rows.length === 0 || !this.applies(log.when, state, place, row)) continue;
      return rows[Math.min(before(log, state, place, row, now.value), rows.length - 1)]?.[column + 1];
    }
    return undefined;
  }

  /** A thermometer on each ring of the simulated run-in, and what it sounds like. */
  private simulated(step: string, place: string, key: string, row: number, state: State): Typed | undefined {
    const runIn = this.file.run_in;
    return (
      runIn &&
      simulatedReading(runIn, state, step, place, key, row, (text, at) => {
        const value = this.words.evaluate(text, state, at);
        return typeof value === 'number' ? value : value === true ? 1 : undefined;
      })
    );
  }

  /** What an expression of its file says; undefined while a value that it needs is not known. */
  evaluate(text: string, state: State, place: string, row = 0): Answer | undefined {
    return this.words.evaluate(text, state, place, row);
  }

  /** What an eye, ear or finger has of it; where several are read off, only while all are alike. */
  private looks(key: string, typed: Typed): string | undefined {
    const all = new Set(Array.isArray(typed) ? typed : [String(typed)]);
    const [one] = all;
    return all.size === 1 && one !== undefined ? firstOf(this.file.looks?.[key]?.[one]) : undefined;
  }

  private inWords(step: string, key: string, typed: Typed): string {
    const question = this.model.steps.get(step)?.ask?.find((q) => q.key === key);
    const options = question ? optionsOf(question, this.model.tables) : [];
    const one = (text: string): string => options.find((o) => o.value === text)?.label ?? text;
    if (Array.isArray(typed)) return typed.map(one).join(', ');
    const text = typed === true ? 'yes' : typed === false ? 'no' : String(typed);
    return question ? pickedWords(question, text, this.model.tables) : text;
  }
}

export const keysOfReading = (r: RotorReading): string[] =>
  r.key === undefined ? [...Object.keys(r.shows ?? {}), ...Object.keys(r.works_out ?? {})] : [r.key];

/** How many readings just before this one were at the same value and in the same block of the log. */
function before(log: RotorLog, state: State, place: string, row: number, value: unknown): number {
  const rows = state.values.completeRows(log.step, place).slice(0, row);
  let n = 0;
  for (let i = rows.length - 1; i >= 0 && rows[i]?.get(log.by)?.value === value; i--) n++;
  return n;
}
