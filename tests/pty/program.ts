/** The built program with a data folder and a wall clock of its own, for tests that run it as a person does. */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Entry } from '../../src/engine/entry.js';
import { openTerminal, type TerminalOptions, type TerminalUnderTest } from './harness.js';

export const root = fileURLToPath(new URL('../..', import.meta.url));
/** The program under test; another build of it can be named. */
export const cli = resolve(root, process.env.ROTORSIDE_CLI ?? 'dist/cli.js');

export interface Program {
  /** Where its jobs are. */
  readonly data: string;
  /** Runs it in a pseudo-terminal. */
  open(args?: readonly string[], terminal?: Omit<TerminalOptions, 'args'>): TerminalUnderTest;
  /** Runs it without a terminal to its end. */
  run(...args: readonly string[]): { readonly code: number; readonly out: string; readonly err: string };
  /** Sheet of a job, as its JSON says. */
  sheet(job: string): SheetJson;
  /** Entries of a job, as `export` writes them. */
  entries(job: string): readonly Entry[];
  /** Lets time go by for it. */
  pass(minutes: number): void;
  /** Lets its clock stand. */
  stand(instant: string): void;
  remove(): void;
}

export interface SheetJson {
  readonly head: { readonly finished: boolean; readonly open: readonly unknown[] };
  readonly headline: readonly SheetFigure[];
  readonly groups?: unknown;
}
export interface SheetFigure {
  readonly place: string;
  readonly key: string;
  readonly value?: unknown;
  readonly text: string;
}

/** @param data a folder that is there already; a new one, removed at the end, when left out */
export function newProgram(data?: string): Program {
  const own = mkdtempSync(join(tmpdir(), 'rotorside-pty-'));
  const folder = data ?? join(own, 'data');
  const clock = join(own, 'clock.json');
  let add = 0;
  const tell = (what: object): void => {
    writeFileSync(`${clock}.new`, JSON.stringify(what));
    renameSync(`${clock}.new`, clock);
  };
  tell({ add });
  const before = ['--import', `${new URL('clock.mjs', import.meta.url).href}?file=${encodeURIComponent(clock)}`];
  const env = { ROTORSIDE_DATA: folder, HOME: own, TZ: 'UTC' };
  const run: Program['run'] = (...args) => {
    const done = spawnSync(process.execPath, [...before, cli, ...args], {
      cwd: own,
      encoding: 'utf8',
      env: { PATH: process.env.PATH, LANG: 'C.UTF-8', ...env },
    });
    return { code: done.status ?? -1, out: done.stdout, err: done.stderr };
  };
  let exports = 0;
  return {
    data: folder,
    open: (args = [], terminal = {}) =>
      openTerminal({ ...terminal, args: [...before, cli, ...args], env: { ...env, ...terminal.env } }),
    run,
    sheet(job) {
      const done = run('sheet', job, '--format', 'json');
      if (done.code !== 0) throw new Error(done.err);
      return JSON.parse(done.out) as SheetJson;
    },
    entries(job) {
      const file = join(own, `export-${++exports}.json`);
      const done = run('export', job, file);
      if (done.code !== 0) throw new Error(done.err);
      const read = JSON.parse(readFileSync(file, 'utf8')) as { entries: Entry[] };
      rmSync(file);
      return read.entries;
    },
    pass(minutes) {
      add += minutes * 60_000;
      tell({ add });
    },
    stand: (instant) => tell({ stand: Date.parse(instant) }),
    remove: () => rmSync(own, { recursive: true, force: true, maxRetries: 5 }),
  };
}

/** Whether a program is on the path. */
export function has(program: string): boolean {
  try {
    execFileSync('sh', ['-c', `command -v ${program}`], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}
