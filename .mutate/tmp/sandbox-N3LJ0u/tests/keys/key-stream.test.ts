// @ts-nocheck
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { KeyStream } from '../../src/keys/key-stream.js';
import { noTerminalReason } from '../../src/keys/session.js';

const open: KeyStream[] = [];
// Time goes by when the test says so, however busy the machine is.
beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'setImmediate', 'clearImmediate', 'performance'] });
});
afterEach(() => {
  for (const stream of open.splice(0)) stream.close();
  vi.useRealTimers();
});
const pause = (ms: number) => vi.advanceTimersByTimeAsync(ms);

/** A stream with a reader that reads as ink does: on 'readable', until there is nothing more. */
function keyboard(handle: (key: string, keys: KeyStream) => void = () => {}) {
  const seen: string[] = [];
  let interrupts = 0;
  const keys = new KeyStream({ onInterrupt: () => interrupts++ });
  open.push(keys);
  const read = () => {
    for (let chunk = keys.read(); chunk !== null; chunk = keys.read()) {
      seen.push(chunk);
      handle(chunk, keys);
    }
  };
  const type = (text: string) => keys.feed(Buffer.from(text));
  return { keys, seen, read, type, listen: () => keys.on('readable', read), interrupts: () => interrupts };
}

describe('the pace', () => {
  it('one key at a time, the next only when the screen is ready', async () => {
    const { keys, seen, type, listen } = keyboard();
    const turns: number[] = [];
    keys.subscribe((turn) => turns.push(turn));
    listen();
    type('\x1b[B\x1b[Ba');
    await pause(30);
    expect(seen).toEqual(['\x1b[B']);
    expect(turns).toEqual([1]);
    keys.ready(99);
    await pause(20);
    expect(seen).toHaveLength(1);
    keys.ready(1);
    await pause(20);
    expect(seen).toHaveLength(2);
    keys.ready(2);
    await pause(20);
    expect(seen).toEqual(['\x1b[B', '\x1b[B', 'a']);
  });
  it('goes on by itself while nothing on the screen answers', async () => {
    const { seen, type, listen } = keyboard();
    listen();
    type('abc');
    await pause(50);
    expect(seen.join('')).toBe('abc');
  });
  it('goes on when the answer owed by a screen that went away does not come', async () => {
    const { keys, seen, type, listen } = keyboard();
    const leave = keys.subscribe(() => {});
    listen();
    type('ab');
    await pause(20);
    leave();
    await pause(20);
    expect(seen.join('')).toBe('ab');
  });
  it('goes on after two seconds without the answer, so that the keyboard never freezes', async () => {
    const { keys, seen, type, listen } = keyboard();
    keys.subscribe(() => {});
    listen();
    type('ab');
    await pause(1500);
    expect(seen.join('')).toBe('a');
    await pause(800);
    expect(seen.join('')).toBe('ab');
  });
  it('keeps keys while nobody reads, and while the reader changes', async () => {
    const { keys, seen, read, type, listen } = keyboard();
    type('ab');
    await pause(20);
    expect(seen).toEqual([]);
    listen();
    keys.off('readable', read);
    listen();
    await pause(30);
    expect(seen.join('')).toBe('ab');
  });
});

describe('work that goes on after the handler', () => {
  it('holds the next key, and asks the screen again when it is done', async () => {
    let release = () => {};
    const { keys, seen, type, listen } = keyboard((key, stream) => {
      if (key === 'a') release = stream.hold();
    });
    keys.subscribe((turn) => setTimeout(() => keys.ready(turn)));
    listen();
    type('ab');
    await pause(100);
    expect(seen).toEqual(['a']);
    keys.stepChanged();
    release();
    release();
    await pause(30);
    expect(seen).toEqual(['a', 'b']);
  });
  it('a step which changes meanwhile is that key’s doing', async () => {
    let release = () => {};
    const { keys, seen, type, listen } = keyboard((_key, stream) => {
      release = stream.hold();
    });
    listen();
    type('aa');
    await pause(50);
    keys.stepChanged();
    release();
    await pause(200);
    expect(seen).toEqual(['a']);
  });
});

describe('Ctrl-C', () => {
  it('comes in its turn', async () => {
    const { seen, type, listen, interrupts } = keyboard();
    listen();
    type('a\x03b');
    await pause(50);
    expect(seen).toEqual(['a']);
    expect(interrupts()).toBe(1);
  });
  it('does not wait long for a busy screen, and not at all the second time', async () => {
    const once = keyboard();
    once.keys.hold();
    once.listen();
    once.type('a\x03');
    await pause(100);
    expect(once.interrupts()).toBe(0);
    await pause(300);
    expect(once.interrupts()).toBe(1);
    const twice = keyboard();
    twice.keys.hold();
    twice.type('\x03\x03');
    expect(twice.interrupts()).toBe(1);
  });
});

describe('paste, noise, end', () => {
  it('a paste goes only into an open text field', async () => {
    const { keys, seen, type, listen } = keyboard();
    listen();
    type('\x1b[200~1\x1b[201~a');
    await pause(30);
    keys.stands({ open: true, letters: true });
    type('\x1b[200~2\r\x1b[201~b');
    await pause(30);
    expect(seen.join('')).toBe('a2b');
  });
  it('keeps no more than 2048 keys waiting, but always Ctrl-C', () => {
    const { type, interrupts } = keyboard();
    type('x'.repeat(100_000));
    type('\x03\x03');
    expect(interrupts()).toBe(1);
  });
  it.each([']', 'P', 'X', '^', '_'])('Alt with %s eats nothing of what is typed after it', async (key) => {
    const { seen, type, listen } = keyboard();
    listen();
    type(`\x1b${key}`);
    for (const letter of 'seal') {
      await pause(110);
      type(letter);
    }
    await pause(50);
    expect(seen.join('')).toBe('seal');
  });
  it('nor does it where the next letter comes at once: the second slow one ends the string', async () => {
    const { seen, type, listen } = keyboard();
    listen();
    type('\x1b]');
    await pause(40);
    for (const letter of 'seal dry') {
      type(letter);
      await pause(90);
    }
    await pause(50);
    expect(seen.join('')).toMatch(/al dry$/);
  });
  it('a control string in pieces, as a slow link sends it, stays noise', async () => {
    const { seen, type, listen } = keyboard();
    listen();
    for (const piece of ['\x1b]11;rgb:99', '99/9999/99', '99\x07']) {
      type(piece);
      await pause(60);
    }
    expect(seen).toEqual([]);
  });
  it('a lone Esc comes after a short silence; after the end nothing comes', async () => {
    const { keys, seen, type, listen } = keyboard();
    listen();
    type('\x1b');
    await pause(40);
    expect(seen).toEqual([]);
    await pause(80);
    expect(seen).toEqual(['\x1b[27u']);
    type('a');
    keys.close();
    type('b');
    await pause(30);
    expect(seen).toHaveLength(1);
  });
});

it('says in one sentence when there is no terminal', () => {
  expect(noTerminalReason({ isTTY: true }, { isTTY: true })).toBeUndefined();
  expect(noTerminalReason({}, { isTTY: true })).toBe('The screens need a terminal, but the input is not a terminal');
  expect(noTerminalReason({ isTTY: true }, {})).toBe('The screens need a terminal, but the output is not a terminal');
  expect(noTerminalReason({}, {})).toBe('The screens need a terminal, but the input and output are not terminals');
});
