/**
 * The terminal for as long as the screens run: takes it over, and gives it back on every way out.
 *
 * Answers are on disk when they are given, so an end at any moment only has to restore the terminal.
 */
// @ts-nocheck

import { writeSync } from 'node:fs';
import type { ReadStream, WriteStream } from 'node:tty';
import { KeyStream } from './key-stream.js';

/** Exit codes by the usual rule, 128 and the number of the signal; for every signal that ends a program and can be caught. */
const exitCodes = {
  failed: 1,
  SIGHUP: 129,
  SIGINT: 130,
  SIGQUIT: 131,
  SIGABRT: 134,
  SIGUSR2: 140,
  SIGALRM: 142,
  SIGTERM: 143,
} as const;
const ending = ['SIGINT', 'SIGTERM', 'SIGQUIT', 'SIGABRT', 'SIGUSR2', 'SIGALRM'] as const;

/** Descriptors of the standard streams; their objects do not tell. */
const terminalOutput = 1;
const errorOutput = 2;

const pasteModeOn = '\x1b[?2004h';
/** Paste mode off, cursor shown, colours off. */
const restored = '\x1b[?2004l\x1b[?25h\x1b[0m';

export interface SessionOptions {
  /**
   * Called once, at the end, while the terminal is still ours: unmount ink here. What it throws is reported, and the
   * terminal is restored all the same.
   */
  readonly onEnd?: (code: number) => void;
  /** Called when the program goes on after it was suspended: draw everything here, at once. */
  readonly onContinue?: () => void;
  readonly stdin?: ReadStream;
  readonly stdout?: WriteStream;
  /** For tests; the process's own exit otherwise. */
  readonly exit?: (code: number) => void;
}

export interface Session {
  readonly keys: KeyStream;
  /** Ends the session: onEnd, terminal restored, exit with this code. A second call does nothing. */
  end(code: number): void;
  /** Ends it with exit code 1 and shows the error after the terminal was restored. */
  fail(error: unknown): void;
}

/** One sentence about what is missing, or undefined when both ends are a terminal. */
export function noTerminalReason(
  stdin: { readonly isTTY?: boolean } = process.stdin,
  stdout: { readonly isTTY?: boolean } = process.stdout,
): string | undefined {
  if (stdin.isTTY && stdout.isTTY) return undefined;
  const missing = stdin.isTTY ? 'output' : stdout.isTTY ? 'input' : 'input and output';
  const verb = missing.includes(' ') ? 'are not terminals' : 'is not a terminal';
  return `The screens need a terminal, but the ${missing} ${verb}`;
}

/**
 * Takes the terminal over: raw mode, bracketed paste, Ctrl-C and signals with their exit codes. What was typed before
 * the screens could be seen is thrown away; draw the first frame after this resolves.
 *
 * @throws Error with the sentence of `noTerminalReason` when there is no terminal.
 */
export async function openSession(options: SessionOptions = {}): Promise<Session> {
  const stdin = options.stdin ?? process.stdin;
  const stdout = options.stdout ?? process.stdout;
  const exit = options.exit ?? ((code: number) => process.exit(code));
  const reason = noTerminalReason(stdin, stdout);
  if (reason) throw new Error(reason);

  let live = false;
  let over = false;
  const keys = new KeyStream({ onInterrupt: () => end(exitCodes.SIGINT) });

  function restore(): void {
    try {
      stdin.setRawMode(false);
    } catch {
      // The terminal may be gone.
    }
    try {
      // Synchronous, so that it is out before the process ends.
      writeSync(terminalOutput, restored);
    } catch {
      // As above.
    }
  }

  function end(code: number, error?: unknown): void {
    if (over) return;
    over = true;
    keys.close();
    const errors: unknown[] = error === undefined ? [] : [error];
    try {
      options.onEnd?.(code);
    } catch (thrown) {
      errors.push(thrown);
    }
    // Not before all who listen to the signal were told: whoever finds himself alone with it would end by it, without
    // a code.
    setImmediate(() => {
      for (const [name, listener] of signals) process.off(name, listener);
    });
    process.off('uncaughtException', fail);
    process.off('unhandledRejection', fail);
    process.off('exit', restore);
    stdin.off('data', onData);
    stdin.pause();
    stdin.unref();
    restore();
    for (const each of errors) {
      try {
        writeSync(errorOutput, `${each instanceof Error ? (each.stack ?? each.message) : String(each)}\n`);
      } catch {
        // Nowhere left to say it.
      }
    }
    exit(errors.length > 0 && code === 0 ? exitCodes.failed : code);
  }

  function fail(error: unknown): void {
    end(exitCodes.failed, error ?? new Error('It ended for a reason that was not given'));
  }

  /** What the shell finds while this stands still is its own terminal. */
  function suspend(): void {
    restore();
    process.kill(process.pid, 'SIGSTOP');
  }

  function resume(): void {
    if (over) return;
    stdin.setRawMode(false);
    stdin.setRawMode(true);
    stdout.write(pasteModeOn);
    // Whatever the shell left there, it is not what a key would answer.
    options.onContinue?.();
    keys.drawnAnew();
  }

  const hangUp = () => end(exitCodes.SIGHUP);
  const onData = (bytes: Buffer) => {
    if (live) keys.feed(bytes);
  };
  const signals: readonly (readonly [NodeJS.Signals, () => void])[] = [
    ...ending.map((name) => [name, () => end(exitCodes[name])] as const),
    ['SIGHUP', hangUp],
    ['SIGTSTP', suspend],
    ['SIGCONT', resume],
  ];

  for (const [name, listener] of signals) process.on(name, listener);
  process.on('uncaughtException', fail);
  process.on('unhandledRejection', fail);
  process.on('exit', restore);
  // A terminal that was closed shows as the end of input or as an error on either side.
  stdin.on('end', hangUp);
  stdin.on('error', hangUp);
  stdout.on('error', hangUp);

  stdin.setRawMode(true);
  stdout.write(pasteModeOn);
  stdin.on('data', onData);
  stdin.resume();
  // The first turn of the event loop starts the reading, the second one has seen what was waiting.
  for (let turn = 0; turn < 3; turn++) await new Promise((resolve) => setImmediate(resolve));
  live = true;
  return { keys, end, fail };
}
