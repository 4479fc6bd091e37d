// Loaded before the program under test (node --import). Nothing in the program gives way for it. It does two things.
//
// Clocks. The file holds what the clocks show, and is read anew in each turn, so that hours pass while the program runs:
//   add     ms that the wall clock runs ahead; `stand`, if there, is the instant at which it stands still
//   rested  ms that the clock of the keyboard (performance.now) runs ahead: a hand has rested as long
//   slow    if there, short timers take so many times as long
//   ticks   if there, what the program does every few seconds it does when this number grows, and not by itself
//   held    if there, that clock stands still, so many ms after the instant when it was stopped
//
// Word of what was taken in. A test must not guess how long a busy machine takes, so the program's own process says on
// the terminal how many bytes it has read, and when nothing is left to do for them: `ESC _ r BYTES ESC \` once read,
// `ESC _ q BYTES COLUMNS ROWS ESC \` once no short timer, no turn of the event loop and no file is waited for. It
// stands behind all that was drawn for them. The harness takes these words out of what it shows.
import { readFileSync, writeSync } from 'node:fs';
import os from 'node:os';
import { isatty, ReadStream } from 'node:tty';

const file = new URL(import.meta.url).searchParams.get('file');

let text = '';
let told = { add: 0, rested: 0 };
let looked = false;
const lookAgain = () => {
  looked = false;
};
function look() {
  // One frame asks for the time a hundred times: what runs at one go is one instant.
  if (looked) return told;
  looked = true;
  queueMicrotask(lookAgain);
  try {
    const now = readFileSync(file, 'utf8');
    if (now !== text) {
      told = JSON.parse(now);
      text = now;
    }
  } catch {
    // It is just being written: what was told last holds.
  }
  return told;
}

const Real = globalThis.Date;
function wall() {
  const { stand, add } = look();
  return stand ?? Real.now() + add;
}
globalThis.Date = class Moved extends Real {
  constructor(...args) {
    if (args.length === 0) super(wall());
    else super(...args);
  }
  static now() {
    return wall();
  }
};

// What a test lets go by went by: no clock was set.
os.uptime = () => wall() / 1000 - 1e9;

const sinceStart = performance.now.bind(performance);
let stopped;
performance.now = () => {
  const { rested, held } = look();
  const now = sinceStart() + rested;
  if (held === undefined) {
    stopped = undefined;
    return now;
  }
  stopped ??= now;
  return stopped + held;
};

let ticks = 0;
let ticked = () => undefined;
const { setInterval: every, clearInterval: clearEvery } = globalThis;
const askers = new Map();
globalThis.setInterval = (run, ms, ...more) => {
  if (ms < 1000) return every(run, ms, ...more);
  const timer = every(() => look().ticks === undefined && run(...more), ms);
  const asker = every(() => {
    const now = look().ticks;
    if (now === undefined || now === ticks) return;
    ticks = now;
    run(...more);
    ticked();
  }, 20);
  asker.unref();
  askers.set(timer, asker);
  return timer;
};
globalThis.clearInterval = (timer) => {
  clearEvery(askers.get(timer));
  return clearEvery(timer);
};

if (isatty(0) && isatty(1)) {
  let bytes = 0;
  let said = '';
  let looking = false;
  const waiting = new Set();
  const later = globalThis.setImmediate;
  const soon = globalThis.setTimeout;

  const say = (word) => {
    if (word === said) return;
    try {
      writeSync(1, `\x1b_${word}\x1b\\`);
      said = word;
    } catch {
      // The window is closed.
    }
  };
  /** A timer that keeps the program alive; what only happens by the way is not waited for. */
  const counts = (timer) => timer.hasRef();
  const rests = () => {
    for (const timer of waiting) if (counts(timer)) return false;
    return true;
  };
  /** Besides the terminal and what is counted above, only files are waited for: read, closed. */
  const calm = new Set(['TTYWrap', 'SignalWrap', 'Timeout', 'Immediate']);
  const reading = () => process.getActiveResourcesInfo().some((kind) => !calm.has(kind));
  function ask() {
    if (looking) return;
    looking = true;
    later(() => {
      looking = false;
      if (!rests()) return;
      if (reading() || working > 0) soon(ask, 2).unref();
      else say(`q ${bytes} ${process.stdout.columns} ${process.stdout.rows} ${ticks}`);
    });
  }

  /** Longer ones are no part of what a key does: the program looks at the clock now and then. */
  const longest = 2000;
  const follow = (start, stop, short, given = (more) => more) => {
    const real = globalThis[start];
    const clear = globalThis[stop];
    globalThis[start] = Object.assign(function started(run, ...more) {
      if (!short(...more)) return real(run, ...more);
      const timer = real(
        (...args) => {
          waiting.delete(timer);
          ask();
          return run(...args);
        },
        ...given(more),
      );
      waiting.add(timer);
      return timer;
    }, real);
    globalThis[stop] = (timer) => {
      if (waiting.delete(timer)) ask();
      return clear(timer);
    };
  };
  const slowed = ([ms, ...more]) => [ms * (look().slow ?? 1), ...more];
  follow('setTimeout', 'clearTimeout', (ms) => !(ms > longest), slowed);
  follow('setImmediate', 'clearImmediate', () => true);

  // Compiled in another thread; while that goes on nothing else tells of it.
  let working = 0;
  for (const name of ['instantiate', 'compile']) {
    const real = WebAssembly[name];
    WebAssembly[name] = async (...args) => {
      working++;
      try {
        return await real.apply(WebAssembly, args);
      } finally {
        working--;
        ask();
      }
    };
  }

  const { push } = ReadStream.prototype;
  ReadStream.prototype.push = function heard(chunk, ...more) {
    const pushed = push.call(this, chunk, ...more);
    // Said once the keyboard has its time: whoever hears it may move the clock.
    if (chunk) {
      bytes += chunk.length;
      say(`r ${bytes}`);
      ask();
    }
    return pushed;
  };
  ticked = ask;
  process.on('SIGCONT', ask);
  process.stdout.on('resize', ask);
  later(ask);
}
