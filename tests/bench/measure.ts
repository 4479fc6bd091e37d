/** Times whole runs of the real program, on a pseudo-terminal where it needs one. */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { type IPty, spawn } from '@lydell/node-pty';

/** Milliseconds from start to exit. */
export function wholeRun(args: readonly string[]): number {
  const t = performance.now();
  const r = spawnSync(process.execPath, [...args], { stdio: ['ignore', 'pipe', 'pipe'] });
  const ms = performance.now() - t;
  if (r.status !== 0) throw new Error(`${args.join(' ')} ended with ${r.status}: ${r.stderr.toString().slice(0, 400)}`);
  return ms;
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

function shows(pty: IPty, wanted: string | RegExp): Promise<void> {
  return new Promise((resolve, reject) => {
    let seen = '';
    const timer = setTimeout(() => reject(new Error(`never showed ${wanted}: ${seen.slice(-600)}`)), 30_000);
    const sub = pty.onData((d) => {
      seen += d;
      const plain = seen.replace(escapes, '');
      if (typeof wanted === 'string' ? plain.includes(wanted) : wanted.test(plain)) {
        clearTimeout(timer);
        sub.dispose();
        resolve();
      }
    });
  });
}

function gone(pty: IPty): Promise<void> {
  return new Promise((resolve) => {
    pty.onExit(() => resolve());
    pty.kill('SIGKILL');
  });
}

/** Milliseconds from start to the first frame that shows the text. */
export async function firstFrame(args: readonly string[], wanted: string | RegExp): Promise<number> {
  const t = performance.now();
  const pty = start(args);
  await shows(pty, wanted);
  const ms = performance.now() - t;
  await gone(pty);
  return ms;
}

/** Highest resident memory in MB, read once the first frame stands and half a second after. */
export async function peakMemory(args: readonly string[], wanted: string | RegExp): Promise<number> {
  const all: number[] = [];
  for (let i = 0; i < 5; i++) {
    const pty = start(args);
    await shows(pty, wanted);
    await new Promise((r) => setTimeout(r, 500));
    const status = readFileSync(`/proc/${pty.pid}/status`, 'utf8');
    all.push(Number(/VmHWM:\s+(\d+)/.exec(status)?.[1] ?? 0) / 1024);
    await gone(pty);
  }
  return all.sort((a, b) => a - b)[2] ?? Number.NaN;
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

/** Milliseconds from each of `n` keys (a letter and Backspace in turn, in the text field that the job opens on) to the next output. */
export async function keyToFrame(args: readonly string[], n: number): Promise<number[]> {
  const pty = start(args);
  await quiet(pty);
  pty.write('\r');
  await quiet(pty);
  const out: number[] = [];
  for (let i = 0; i < n; i++) {
    const t = performance.now();
    const ms = await new Promise<number>((resolve) => {
      const timer = setTimeout(() => {
        sub.dispose();
        resolve(Number.NaN);
      }, 2000);
      const sub = pty.onData(() => {
        clearTimeout(timer);
        sub.dispose();
        resolve(performance.now() - t);
      });
      pty.write(i % 2 ? '\x7f' : 'a');
    });
    if (Number.isFinite(ms)) out.push(ms);
    await new Promise((r) => setTimeout(r, 60));
  }
  await gone(pty);
  if (out.length < n / 2) throw new Error(`only ${out.length} of ${n} keys gave a frame`);
  return out;
}
