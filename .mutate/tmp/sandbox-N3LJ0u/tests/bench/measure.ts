/** Times whole runs of the real program, on a pseudo-terminal where it needs one. */
// @ts-nocheck

import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { type IPty, spawn } from '@lydell/node-pty';

/** Milliseconds: by the clock, and of processor time in all threads (NaN where the system does not tell). */
export interface Spent {
  readonly wall: number;
  readonly cpu: number;
}

/** From start to exit, timed by bash. */
export function wholeRun(args: readonly string[]): Spent {
  const timed = 'TIMEFORMAT="%R %U %S"; time "$@" >/dev/null';
  const r = spawnSync('bash', ['-c', timed, 'bash', process.execPath, ...args], {
    stdio: ['ignore', 'pipe', 'pipe'],
    env: { ...process.env, LC_ALL: 'C' },
  });
  const said = r.stderr.toString();
  if (r.status !== 0) throw new Error(`${args.join(' ')} ended with ${r.status}: ${said.slice(0, 400)}`);
  const [wall, user, system] = (said.trim().split('\n').at(-1) ?? '').split(' ').map((t) => 1000 * Number(t));
  return { wall: wall ?? Number.NaN, cpu: (user ?? Number.NaN) + (system ?? Number.NaN) };
}

/** Processor time of a living process so far, in ms. */
function cpuOf(pid: number): number {
  try {
    const each = readdirSync(`/proc/${pid}/task`).map((t) => readFileSync(`/proc/${pid}/task/${t}/schedstat`, 'utf8'));
    return each.reduce((sum, s) => sum + Number(s.split(' ')[0]), 0) / 1e6;
  } catch {
    return Number.NaN;
  }
}

function start(args: readonly string[]): IPty {
  const env = Object.fromEntries(
    Object.entries(process.env).filter(([k, v]) => v !== undefined && k !== 'CI'),
  ) as Record<string, string>;
  return spawn(process.execPath, [...args], {
    cols: 80,
    rows: 24,
    env: { ...env, TERM: 'xterm-256color', LANG: 'C.UTF-8' },
  });
}

// biome-ignore lint/complexity/useRegexLiterals: escape characters read better in a string
const escapes = new RegExp('\\u001b\\[[0-9;?]*[A-Za-z]', 'g');

/** Resolves as soon as what was written from now on shows the text. */
function shows(pty: IPty, wanted: RegExp, patience = 30_000): Promise<void> {
  return new Promise((resolve, reject) => {
    let seen = '';
    const timer = setTimeout(() => {
      sub.dispose();
      reject(new Error(`never showed ${wanted}: ${seen.slice(-600)}`));
    }, patience);
    const sub = pty.onData((d) => {
      seen += d;
      if (!wanted.test(seen.replace(escapes, ''))) return;
      clearTimeout(timer);
      sub.dispose();
      resolve();
    });
  });
}

function gone(pty: IPty): Promise<void> {
  return new Promise((resolve) => {
    pty.onExit(() => resolve());
    pty.kill('SIGKILL');
  });
}

/** From start to the first frame that shows the text. */
export async function firstFrame(args: readonly string[], wanted: RegExp): Promise<Spent> {
  const t = performance.now();
  const pty = start(args);
  await shows(pty, wanted);
  const spent = { wall: performance.now() - t, cpu: cpuOf(pty.pid) };
  await gone(pty);
  return spent;
}

/** From start to the frame that answers a key which was pressed the moment the first frame stood. */
export async function firstAnswer(args: readonly string[], first: RegExp, key: string, then: RegExp): Promise<Spent> {
  const t = performance.now();
  const pty = start(args);
  await shows(pty, first);
  const answered = shows(pty, then);
  pty.write(key);
  await answered;
  const spent = { wall: performance.now() - t, cpu: cpuOf(pty.pid) };
  await gone(pty);
  return spent;
}

/** Highest resident memory in MB, read once the first frame stands and a second after. */
export async function peakMemory(args: readonly string[], wanted: RegExp): Promise<number> {
  const pty = start(args);
  await shows(pty, wanted);
  await new Promise((r) => setTimeout(r, 1000));
  const status = readFileSync(`/proc/${pty.pid}/status`, 'utf8');
  await gone(pty);
  return Number(/VmHWM:\s+(\d+)/.exec(status)?.[1] ?? Number.NaN) / 1024;
}

/** Resolves once the terminal has been quiet for a while. */
function quiet(pty: IPty): Promise<void> {
  return new Promise((resolve) => {
    const done = (): void => {
      sub.dispose();
      resolve();
    };
    let timer = setTimeout(done, 3000);
    const sub = pty.onData(() => {
      clearTimeout(timer);
      timer = setTimeout(done, 800);
    });
  });
}

/** Letters typed before they are all taken back with Backspace, one by one. */
const LETTERS = 'qwzxkvjyqwzxkvjy';

/**
 * Milliseconds from each of `n` keys (letters, then Backspaces, in the text field that the job opens on) being written
 * to the terminal to the frame that shows what it did.
 */
export async function keyToFrame(args: readonly string[], n: number): Promise<Spent[]> {
  const pty = start(args);
  await quiet(pty);
  pty.write('\r');
  await quiet(pty);
  const out: Spent[] = [];
  for (let i = 0; i < n; i++) {
    const at = i % (2 * LETTERS.length);
    const typing = at < LETTERS.length;
    const stands = typing ? LETTERS.slice(0, at + 1) : LETTERS.slice(0, 2 * LETTERS.length - at - 1);
    const shown = shows(pty, new RegExp(`[^a-z]${stands}▏`), 5000);
    const t = performance.now();
    const cpu = cpuOf(pty.pid);
    pty.write(typing ? (LETTERS[at] ?? '') : '\x7f');
    await shown;
    out.push({ wall: performance.now() - t, cpu: cpuOf(pty.pid) - cpu });
    await new Promise((r) => setTimeout(r, 80));
  }
  await gone(pty);
  return out;
}
