/** The built program with a data folder and a wall clock of its own, for tests that run it as a person does. */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Entry } from '../../src/engine/journal/entry.js';
import { readJobText } from '../../src/store/job-file.js';
import { type Ran, ranIn } from '../setup/commands.js';
import { type Clock, newClock } from './clock.js';
import { openTerminal, type TerminalOptions, type TerminalUnderTest } from './harness.js';

export const root = fileURLToPath(new URL('../..', import.meta.url));
export const cli = resolve(root, 'dist/cli.js');

export interface Program {
  /** Where its jobs are. */
  readonly data: string;
  readonly clock: Clock;
  /** Runs it in a pseudo-terminal. */
  open(args?: readonly string[], terminal?: Omit<TerminalOptions, 'args'>): TerminalUnderTest;
  /** What a command says of its data; it runs in this process, by today's clock. */
  run(...words: readonly string[]): Promise<Ran>;
  /** Sheet of a job, as its JSON says. */
  sheet(job: string): Promise<SheetJson>;
  /** Entries of a job, as they are proven on disk. */
  entries(job: string): readonly Entry[];
  /** Resolves once what is being typed is kept for the next start. */
  keeps(typed: string): Promise<void>;
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
  const clock = newClock();
  const env = { ROTORSIDE_DATA: folder, HOME: own, TZ: 'UTC' };
  const opened: TerminalUnderTest[] = [];
  const run: Program['run'] = (...words) => ranIn(own, words, { ...env, LANG: 'C.UTF-8', LC_ALL: undefined });
  return {
    data: folder,
    clock,
    open(args = [], terminal = {}) {
      const one = openTerminal({ clock, ...terminal, args: [cli, ...args], env: { ...env, ...terminal.env } });
      opened.push(one);
      return one;
    },
    run,
    async sheet(job) {
      const done = await run('sheet', job, '--format', 'json');
      if (done.code !== 0) throw new Error(done.err);
      return JSON.parse(done.out) as SheetJson;
    },
    entries(job) {
      const jobs = join(folder, 'jobs');
      const found = readdirSync(jobs)
        .filter((name) => name.endsWith('.json'))
        .flatMap((name) => {
          const read = readJobText(readFileSync(join(jobs, name), 'utf8'), name.replace(/\.json$/, ''));
          if (read.kind !== 'good') throw new Error(`${name} is ${read.kind}`);
          return read.content.name === job ? [read.content.entries] : [];
        });
      if (found.length !== 1) throw new Error(`There are ${found.length} jobs of the name ${job}`);
      return found[0] ?? [];
    },
    async keeps(typed) {
      const drafts = join(folder, 'drafts');
      // Behind it stands the unit, where it has one.
      const whole = new RegExp(`"${typed}(?:"|\\\\n)`);
      // One that is just being written has another name, and may be gone before it is read.
      const names = (): string[] => readdirSync(drafts).filter((name) => name.endsWith('.json'));
      const kept = (): boolean =>
        existsSync(drafts) && names().some((name) => whole.test(readFileSync(join(drafts, name), 'utf8')));
      for (let i = 0; !kept(); i++) {
        if (i > 3000) throw new Error(`“${typed}” is never kept`);
        await new Promise((resolve) => setTimeout(resolve, 20));
      }
    },
    pass: clock.pass,
    stand: clock.stand,
    remove() {
      clock.remove();
      // One that is still open writes there until it is gone, which takes it a moment.
      for (const one of opened) if (!one.ended()) one.kill('SIGKILL');
      rmSync(own, { recursive: true, force: true, maxRetries: 20, retryDelay: 50 });
    },
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
