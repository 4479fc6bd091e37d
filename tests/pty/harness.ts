/**
 * Runs a program in a real pseudo-terminal and holds its screen, so that tests see what a person would see.
 *
 *     const term = await openTerminal({ args: ['dist/cli.js'], cols: 80, rows: 24 });
 *     await term.waitFor('Continue');
 *     term.press('down', 'enter');            // both in one write
 *     await term.waitFor(/Recorded: (\w+)/);
 *     term.write('\x03');
 *     expect((await term.exit).code).toBe(130);
 *
 * Call `closeTerminals()` in `afterEach`: it ends whatever a failed test left running.
 */
import { tmpdir } from 'node:os';
import { fileURLToPath } from 'node:url';
import { type IPty, spawn } from '@lydell/node-pty';
import xterm from '@xterm/headless';

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
  /** Where the cursor is, counted from 0. */
  cursor(): { readonly x: number; readonly y: number };
  /** Everything that the program ever wrote, with escape codes. */
  raw(): string;
  /**
   * Resolves with the screen once it holds the text, matches, or satisfies the function. Rejects with the screen drawn
   * in the message when the time (10 s by default) is over or the program has ended.
   */
  waitFor(wanted: Wanted, timeoutMs?: number): Promise<string>;
  /** Resolves once nothing has been written for so many ms (100 by default). */
  settled(quietMs?: number): Promise<void>;
  /**
   * Waits so long (350 ms) that pressing the same key again counts as deliberate. The keyboard ignores a key that
   * answered a step and comes again at once, as a held key does.
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
  /** Closes the terminal, as a person closes its window. */
  hangUp(): void;
  /** How the program ended, after its last output has reached the screen. */
  readonly exit: Promise<Exit>;
  /** Whether it has ended. */
  ended(): boolean;
}

const root = fileURLToPath(new URL('../..', import.meta.url));
const open = new Set<IPty>();

/** Ends every program still running; for `afterEach`. */
export function closeTerminals(): void {
  for (const pty of open) {
    try {
      pty.kill('SIGKILL');
    } catch {
      // It ended between the look and the signal.
    }
  }
  open.clear();
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

/** Starts a program in a pseudo-terminal of its own. */
export function openTerminal(options: TerminalOptions): TerminalUnderTest {
  const { cols = 80, rows = 24 } = options;
  const screenBuffer = new xterm.Terminal({ cols, rows, allowProposedApi: true, scrollback: 5000 });
  const pty = spawn(options.command ?? process.execPath, [...options.args], {
    name: 'xterm-256color',
    cols,
    rows,
    cwd: options.cwd ?? root,
    env: environment(options),
  });
  open.add(pty);

  let log = '';
  let unparsed = 0;
  let lastOutput = Date.now();
  let end: Exit | undefined;
  pty.onData((data) => {
    log += data;
    unparsed++;
    lastOutput = Date.now();
    screenBuffer.write(data, () => {
      unparsed--;
    });
  });
  // A terminal answers when it is asked for its state; a program may wait for that.
  screenBuffer.onData((answer) => {
    if (!end) pty.write(answer);
  });
  const exit = new Promise<Exit>((resolve) => {
    pty.onExit(({ exitCode, signal }) => {
      open.delete(pty);
      screenBuffer.write('', () => {
        end = { code: exitCode, ...(signal ? { signal } : {}) };
        resolve(end);
      });
    });
  });

  const row = (index: number) => screenBuffer.buffer.active.getLine(index)?.translateToString(true) ?? '';
  const lines = () => Array.from({ length: screenBuffer.rows }, (_, i) => row(screenBuffer.buffer.active.baseY + i));
  const screen = () => lines().join('\n').trimEnd();
  const pause = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms));

  return {
    pid: pty.pid,
    // node-pty hands buffers on unchanged although its types name only strings.
    write: (data) => pty.write(typeof data === 'string' ? data : (Buffer.from(data) as unknown as string)),
    press: (...keys) => pty.write(keys.map((key) => (typeof key === 'string' ? keySequences[key] : key.text)).join('')),
    lines,
    screen,
    scrolledOff: () => Array.from({ length: screenBuffer.buffer.active.baseY }, (_, i) => row(i)),
    cursor: () => ({ x: screenBuffer.buffer.active.cursorX, y: screenBuffer.buffer.active.cursorY }),
    raw: () => log,
    async waitFor(wanted, timeoutMs = 10_000) {
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
        if (seen) return now;
        if (ended || Date.now() > until) {
          const why = ended ? `the program ended (${JSON.stringify(end)})` : `${timeoutMs} ms were over`;
          const what = typeof wanted === 'function' ? 'the wanted screen' : String(wanted);
          throw new Error(`Waited for ${what}, but ${why}. The screen:\n${now || '(empty)'}`);
        }
        await pause(10);
      }
    },
    async settled(quietMs = 100) {
      while (unparsed > 0 || Date.now() - lastOutput < quietMs) await pause(10);
    },
    rest: () => pause(350),
    readDanger: () => pause(750),
    resize(newCols, newRows) {
      screenBuffer.resize(newCols, newRows);
      pty.resize(newCols, newRows);
    },
    kill: (signal = 'SIGTERM') => pty.kill(signal),
    // In node-pty, but not in its types.
    hangUp: () => (pty as unknown as { destroy(): void }).destroy(),
    exit,
    ended: () => end !== undefined,
  };
}
