/**
 * Runs a program in a real pseudo-terminal and holds its screen, so that tests see what a person would see.
 *
 *     const clock = newClock();
 *     const term = openTerminal({ args: ['dist/cli.js'], clock, cols: 80, rows: 24 });
 *     await term.waitFor('Continue');
 *     term.press('down', 'enter');            // both in one write
 *     await term.waitFor(/Recorded: (\w+)/);
 *     term.write('\x03');
 *     expect((await term.exit).code).toBe(130);
 *
 * With a clock, the program says itself when it has taken in what was sent (inside.mjs): no test has to guess how long a
 * busy machine takes, and no hand has to rest for real. Call `closeTerminals()` in `afterEach`: it ends whatever a failed
 * test left running.
 */
import { readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { fileURLToPath } from 'node:url';
import { type IPty, spawn } from '@lydell/node-pty';
import xterm from '@xterm/headless';
import type { Clock } from './clock.js';

/** What xterm sends for the keys that have a name here. */
export const keySequences = {
  enter: '\r',
  escape: '\x1b',
  tab: '\t',
  'shift-tab': '\x1b[Z',
  space: ' ',
  backspace: '\x7f',
  delete: '\x1b[3~',
  up: '\x1b[A',
  down: '\x1b[B',
  right: '\x1b[C',
  left: '\x1b[D',
  home: '\x1b[H',
  end: '\x1b[F',
  pageup: '\x1b[5~',
  pagedown: '\x1b[6~',
  'ctrl-c': '\x03',
  'ctrl-d': '\x04',
  'ctrl-z': '\x1a',
  'ctrl-f1': '\x1b[1;5P',
  f1: '\x1bOP',
} as const;
export type KeyName = keyof typeof keySequences;

export interface TerminalOptions {
  /** Program to start; this Node by default. */
  readonly command?: string;
  /** Its arguments; relative paths are seen from `cwd`. */
  readonly args: readonly string[];
  /** Its clocks, for a Node program. Without them `taken` and `rest` can only wait for a while. */
  readonly clock?: Clock;
  /** The repository's root by default. */
  readonly cwd?: string;
  /** 80 by 24 by default. */
  readonly cols?: number;
  readonly rows?: number;
  /** Sets NO_COLOR=1. Off by default. */
  readonly noColor?: boolean;
  /** Locale for LANG and LC_ALL; 'C.UTF-8' by default. */
  readonly lang?: string;
  /**
   * Added to a clean environment that holds only PATH, PWD, HOME, TMPDIR, TERM, LANG and LC_ALL: no CI, no NODE_ENV,
   * nothing that vitest sets. `undefined` takes a name away.
   */
  readonly env?: Readonly<Record<string, string | undefined>>;
}

export interface Exit {
  /** Exit code; 0 when a signal ended the program. */
  readonly code: number;
  /** Number of the signal which ended the program, if one did. */
  readonly signal?: number;
}

type Wanted = string | RegExp | ((screen: string) => boolean);

export interface TerminalUnderTest {
  readonly pid: number;
  /** Sends text or bytes as they are, in one write. */
  write(data: string | Uint8Array): void;
  /** Sends named keys, or text of one's own, all in one write. */
  press(...keys: readonly (KeyName | { readonly text: string })[]): void;
  /** The visible lines, top to bottom, without trailing blanks; always as many as the terminal has rows. */
  lines(): string[];
  /** The visible lines as one text, without blank lines at the end. */
  screen(): string;
  /** Lines that scrolled off the top, oldest first. */
  scrolledOff(): string[];
  /** Forgets the lines that scrolled off. */
  forget(): void;
  /** Where the cursor is, counted from 0. */
  cursor(): { readonly x: number; readonly y: number };
  /** Everything that the program ever wrote, with escape codes. */
  raw(): string;
  /**
   * Resolves with the screen once it holds the text, matches, or satisfies the function. Rejects with the screen drawn
   * in the message when the time (a minute by default) is over or the program has ended.
   */
  waitFor(wanted: Wanted, timeoutMs?: number): Promise<string>;
  /** Resolves once the program has read every byte that was sent. */
  heard(): Promise<void>;
  /**
   * Resolves once it has done all that was to be done for them, at the size it has now, and the screen shows it. Without
   * a clock: once nothing has come for a while.
   */
  taken(): Promise<void>;
  /**
   * Lets a hand rest so long that pressing the same key again counts as deliberate, once what it pressed before was taken
   * in. The keyboard ignores a key that answered a step and comes again at once, as a held key does.
   */
  rest(): Promise<void>;
  /** Waits so long (750 ms) as a danger has to be on the screen before any key confirms it. */
  readDanger(): Promise<void>;
  resize(cols: number, rows: number): void;
  kill(
    signal?:
      | 'SIGTERM'
      | 'SIGHUP'
      | 'SIGINT'
      | 'SIGKILL'
      | 'SIGCONT'
      | 'SIGSTOP'
      | 'SIGTSTP'
      | 'SIGQUIT'
      | 'SIGUSR2'
      | 'SIGALRM',
  ): void;
  /** Stops it; resolves once it stands. A SIGCONT that comes before that would only take the stop away. */
  stop(signal?: 'SIGSTOP' | 'SIGTSTP'): Promise<void>;
  /** Closes the terminal, as a person closes its window. */
  hangUp(): void;
  /** How the program ended, after its last output has reached the screen. */
  readonly exit: Promise<Exit>;
  /** Whether it has ended. */
  ended(): boolean;
}

const root = fileURLToPath(new URL('../..', import.meta.url));
const open = new Set<IPty>();

/** Ends every program still running but for one that goes on; for `afterEach`. */
export function closeTerminals(but?: { readonly pid: number }): void {
  for (const pty of open) {
    if (pty.pid === but?.pid) continue;
    open.delete(pty);
    try {
      pty.kill('SIGKILL');
    } catch {
      // It ended between the look and the signal.
    }
  }
}

function environment(options: TerminalOptions): Record<string, string> {
  const lang = options.lang ?? 'C.UTF-8';
  const merged: Record<string, string | undefined> = {
    PATH: process.env.PATH,
    HOME: process.env.HOME,
    TMPDIR: tmpdir(),
    TERM: 'xterm-256color',
    LANG: lang,
    LC_ALL: lang,
    NO_COLOR: options.noColor ? '1' : undefined,
    ...options.env,
  };
  return Object.fromEntries(Object.entries(merged).filter((pair): pair is [string, string] => pair[1] !== undefined));
}

/** What inside.mjs says on the terminal, and the beginning of it at the end of what was read. */
// biome-ignore lint/complexity/useRegexLiterals: escape characters read better in a string
const word = new RegExp('\u001b_([rq]) ([^\u001b]*)\u001b\\\\', 'g');
// biome-ignore lint/complexity/useRegexLiterals: as above
const begun = new RegExp('\u001b(?:_[^\u001b]*\u001b?)?$');
// biome-ignore lint/complexity/useRegexLiterals: as above
const frameMark = new RegExp('\u001b\\[\\?2026[hl]', 'g');
const aMinute = 60_000;
const scrollback = 5000;
/**
 * A program that lives for seconds: what runs for less than it takes to compile it to optimised code is not compiled so,
 * nothing is collected before its end, and no thread waits beside it. Later versions lack the first of these flags.
 */
const quickly = [
  process.versions.node.startsWith('20.') ? '--interrupt-budget=600000' : '--no-opt',
  '--max-lazy',
  '--liftoff-only',
  '--single-threaded',
  '--min-semi-space-size=32',
  '--max-semi-space-size=32',
];

/** Starts a program in a pseudo-terminal of its own. */
export function openTerminal(options: TerminalOptions): TerminalUnderTest {
  const { cols = 80, rows = 24, clock } = options;
  const screenBuffer = new xterm.Terminal({ cols, rows, allowProposedApi: true, scrollback });
  const flags = options.command === undefined ? [...quickly, ...(clock?.args ?? [])] : (clock?.args ?? []);
  const pty = spawn(options.command ?? process.execPath, [...flags, ...options.args], {
    name: 'xterm-256color',
    cols,
    rows,
    cwd: options.cwd ?? root,
    env: environment(options),
  });
  open.add(pty);

  let log = '';
  let unparsed = 0;
  /** The screen as it was last looked at, while nothing has changed it. */
  let seen: string | undefined;
  let lastOutput = Date.now();
  let end: Exit | undefined;
  /** A frame is begun and not ended yet (DEC mode 2026), so a look would see a part of it. */
  let drawing = false;
  let tail = '';
  let held = '';
  let sent = 0;
  let read = 0;
  let quiet = '';
  // The screen here is never narrower than two columns, whatever the window is.
  let size = `${cols} ${rows}`;
  let wake: (() => void)[] = [];
  const changed = (): void => {
    const woken = wake;
    wake = [];
    for (const each of woken) each();
  };
  const shows = (data: string): void => {
    if (data === '') return;
    log += data;
    const marks = (tail + data).match(frameMark);
    tail = (tail + data).slice(1 - '\u001b[?2026h'.length);
    unparsed++;
    lastOutput = Date.now();
    screenBuffer.write(data, () => {
      unparsed--;
      if (marks) drawing = marks.at(-1)?.endsWith('h') ?? false;
      seen = undefined;
      changed();
    });
  };
  pty.onData((data) => {
    const text = (held + data).replace(word, (_all, kind: string, rest: string) => {
      if (kind === 'q') quiet = rest;
      read = Number.parseInt(rest, 10);
      return '';
    });
    held = begun.exec(text)?.[0] ?? '';
    shows(text.slice(0, text.length - held.length));
    changed();
  });
  const send = (data: string | Uint8Array): void => {
    sent += Buffer.byteLength(data);
    // node-pty hands buffers on unchanged although its types name only strings.
    pty.write(typeof data === 'string' ? data : (Buffer.from(data) as unknown as string));
  };
  // A terminal answers when it is asked for its state; a program may wait for that.
  screenBuffer.onData((answer) => {
    if (!end) send(answer);
  });
  const exit = new Promise<Exit>((resolve) => {
    pty.onExit(({ exitCode, signal }) => {
      open.delete(pty);
      shows(held);
      screenBuffer.write('', () => {
        end = { code: exitCode, ...(signal ? { signal } : {}) };
        resolve(end);
        changed();
      });
    });
  });

  const row = (index: number) => screenBuffer.buffer.active.getLine(index)?.translateToString(true) ?? '';
  const lines = () => Array.from({ length: screenBuffer.rows }, (_, i) => row(screenBuffer.buffer.active.baseY + i));
  const screen = () => {
    // While some of it is not parsed yet, any look may see more.
    if (unparsed > 0) return lines().join('\n').trimEnd();
    seen ??= lines().join('\n').trimEnd();
    return seen;
  };
  const pause = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms));
  /** Until something came from the program, or so many ms are over. */
  const next = (ms: number) =>
    new Promise<void>((resolve) => {
      const timer = setTimeout(resolve, ms);
      wake.push(() => {
        clearTimeout(timer);
        resolve();
      });
    });
  const until = async (what: string, holds: () => boolean): Promise<void> => {
    const late = Date.now() + aMinute;
    while (!holds() && !end) {
      if (Date.now() > late)
        throw new Error(`Waited for a minute until ${what}. The screen:\n${screen() || '(empty)'}`);
      await next(1000);
    }
  };
  const still = async (quietMs: number): Promise<void> => {
    while (unparsed > 0 || Date.now() - lastOutput < quietMs) await pause(10);
  };
  const taken = () =>
    clock
      ? until(
          `${sent} bytes were taken in (it has read ${read})`,
          () => unparsed === 0 && read === sent && quiet === `${sent} ${size} ${clock.ticks}`,
        )
      : still(150);

  return {
    pid: pty.pid,
    write: send,
    press: (...keys) => send(keys.map((key) => (typeof key === 'string' ? keySequences[key] : key.text)).join('')),
    lines,
    screen,
    scrolledOff: () => Array.from({ length: screenBuffer.buffer.active.baseY }, (_, i) => row(i)),
    forget() {
      // A buffer that may hold none drops them.
      screenBuffer.options.scrollback = 0;
      screenBuffer.options.scrollback = scrollback;
    },
    cursor: () => ({ x: screenBuffer.buffer.active.cursorX, y: screenBuffer.buffer.active.cursorY }),
    raw: () => log,
    async waitFor(wanted, timeoutMs = aMinute) {
      const until = Date.now() + timeoutMs;
      for (;;) {
        const ended = end !== undefined;
        const now = screen();
        const seen =
          typeof wanted === 'string'
            ? now.includes(wanted)
            : wanted instanceof RegExp
              ? new RegExp(wanted.source, wanted.flags.replace(/[gy]/g, '')).test(now)
              : wanted(now);
        if (seen && !(drawing && !ended)) return now;
        if (ended || Date.now() > until) {
          const why = ended ? `the program ended (${JSON.stringify(end)})` : `${timeoutMs} ms were over`;
          const what = typeof wanted === 'function' ? 'the wanted screen' : String(wanted);
          throw new Error(`Waited for ${what}, but ${why}. The screen:\n${now || '(empty)'}`);
        }
        // A function may look at something else than the screen.
        await next(Math.min(typeof wanted === 'function' ? 10 : 1000, Math.max(1, until - Date.now())));
      }
    },
    heard: () => (clock ? until(`${sent} bytes were read (it has read ${read})`, () => read === sent) : pause(20)),
    taken,
    async rest() {
      await (clock ? taken() : pause(350));
      clock?.rest();
    },
    async readDanger() {
      await (clock ? taken() : pause(750));
      clock?.rest();
    },
    resize(newCols, newRows) {
      size = `${newCols} ${newRows}`;
      screenBuffer.resize(newCols, newRows);
      seen = undefined;
      pty.resize(newCols, newRows);
    },
    kill: (signal = 'SIGTERM') => pty.kill(signal),
    async stop(signal = 'SIGSTOP') {
      pty.kill(signal);
      // The state stands behind the name in brackets.
      while (!end && !/\) T /.test(readFileSync(`/proc/${pty.pid}/stat`, 'utf8'))) await pause(5);
    },
    // In node-pty, but not in its types.
    hangUp: () => (pty as unknown as { destroy(): void }).destroy(),
    exit,
    ended: () => end !== undefined,
  };
}

/**
 * Holds a key down as a usual keyboard does: a first press, half a second until the first repeat, then one every `every`
 * ms. Each is read before the clock goes on to the next.
 */
export async function holdDown(
  term: TerminalUnderTest,
  clock: Clock,
  key: string,
  ms: number,
  { delay = 500, every = 33 } = {},
): Promise<void> {
  for (let at = 0; at <= ms; at += at === 0 ? delay : every) {
    clock.hold(at);
    term.write(key);
    await term.heard();
  }
  // Nothing is left of it when time goes on.
  await term.taken();
  clock.release();
  await term.taken();
}
