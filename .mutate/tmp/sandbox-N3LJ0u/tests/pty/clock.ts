/** The clocks of a program under test, moved from outside its process (inside.mjs). */
// @ts-nocheck

import { mkdtempSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Longer than any time for which the keyboard minds the key before: a key after it is a press of its own. */
const longRest = 1200;
/** When each program begins: no test depends on the hour at which it runs. */
const morning = '2026-03-02T08:00:00Z';

export interface Clock {
  /** Arguments for Node, before the program's own. */
  readonly args: readonly string[];
  /** Lets time go by on the wall; a clock that stood goes on from there. */
  pass(minutes: number): void;
  /** Lets the clock on the wall stand. */
  stand(instant: string): void;
  /** Lets a hand rest before its next key. */
  rest(): void;
  /**
   * Stops the keyboard's clock so many ms after the instant at which it was first stopped. Keys are then exactly as far
   * apart as the test says, on the busiest machine.
   */
  hold(ms: number): void;
  /** Lets it run again, after a rest. */
  release(): void;
  /** Lets short timers take so many times as long. */
  slow(times: number): void;
  /** What the program does every few seconds it does now, and from now on only when it is told so. */
  tick(): void;
  /** How often it was told so. */
  readonly ticks: number;
  remove(): void;
}

export function newClock(): Clock {
  const folder = mkdtempSync(join(tmpdir(), 'rotorside-clock-'));
  const file = join(folder, 'clock.json');
  let told: { add: number; stand?: number; rested: number; held?: number; ticks?: number; slow?: number } = {
    add: 0,
    rested: 0,
  };
  const tell = (more: Partial<typeof told>): void => {
    told = { ...told, ...more };
    writeFileSync(`${file}.new`, JSON.stringify(told));
    renameSync(`${file}.new`, file);
  };
  tell({ add: Date.parse(morning) - Date.now() });
  return {
    args: ['--import', `${new URL('inside.mjs', import.meta.url).href}?file=${encodeURIComponent(file)}`],
    pass: (minutes) =>
      tell({
        stand: undefined,
        add: (told.stand === undefined ? told.add : told.stand - Date.now()) + minutes * 60_000,
      }),
    stand: (instant) => tell({ stand: Date.parse(instant) }),
    rest: () => tell({ rested: told.rested + longRest }),
    hold: (ms) => tell({ held: ms }),
    // It never goes back: what was let go by while it stood has gone by.
    release: () => tell({ rested: told.rested + (told.held ?? 0) + longRest, held: undefined }),
    slow: (times) => tell({ slow: times }),
    tick: () => tell({ ticks: (told.ticks ?? 0) + 1 }),
    get ticks() {
      return told.ticks ?? 0;
    },
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}
