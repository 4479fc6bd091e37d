import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Key } from '../../src/keys/key.js';
import type { KeyTaker, Prompt } from '../../src/keys/key-taker.js';
import { Keyboard } from '../../src/keys/keyboard.js';
import { noTerminalReason } from '../../src/keys/terminal-session.js';

const open: Keyboard[] = [];
// Time goes by when the test says so, however busy the machine is.
beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'setImmediate', 'clearImmediate', 'performance'] });
});
afterEach(() => {
  for (const keys of open.splice(0)) keys.close();
  vi.useRealTimers();
});
const pause = (ms: number) => vi.advanceTimersByTimeAsync(ms);
const named = (key: Key): string => (key.name === 'char' ? key.char : `<${key.name}>`);

/** A keyboard whose keys are written down; `handle` does what a page does. */
function keyboard(handle: (key: string, at: Taker) => void | Promise<void> = () => {}) {
  const seen: string[] = [];
  let interrupts = 0;
  const keys = new Keyboard({ onInterrupt: () => interrupts++ });
  open.push(keys);
  const taker = new Taker((key) => {
    seen.push(named(key));
    return handle(named(key), taker);
  });
  const type = (text: string) => keys.feed(Buffer.from(text));
  return { keys, seen, type, taker, listen: () => keys.handTo(taker), interrupts: () => interrupts };
}

class Taker implements KeyTaker {
  asked: Prompt = { id: '', field: 'none', confirm: 'none' };
  private readonly listeners = new Set<() => void>();
  constructor(readonly press: (key: Key) => void | Promise<void>) {}
  long = false;
  forgets(): boolean {
    return this.long;
  }
  subscribe(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }
  ask(asked: Partial<Prompt>): void {
    this.asked = { ...this.asked, ...asked };
    for (const l of this.listeners) l();
  }
}

describe('work of seconds', () => {
  it.each([true, false])('what was typed meanwhile is dropped where the page says so (%s)', async (long) => {
    let done = (): void => {};
    const { seen, type, listen, taker } = keyboard((key, at) => {
      if (key !== '<enter>') return;
      return new Promise((resolve) => {
        done = () => {
          at.long = long;
          at.ask({ id: 'a page that nobody has seen' });
          resolve();
        };
      });
    });
    listen();
    await pause(600);
    type('\r');
    await pause(1000);
    type('2=');
    await pause(1000);
    done();
    await pause(10);
    // Already on its way while the page changed.
    type('3');
    await pause(2000);
    expect(seen).toEqual(long ? ['<enter>'] : ['<enter>', '2', '=', '3']);
    taker.long = false;
    type('4');
    await pause(500);
    expect(seen.at(-1)).toBe('4');
  });
});

describe('the pace', () => {
  it('one key at a time, the next only when all that the one before did is done', async () => {
    const doing: (() => void)[] = [];
    const { seen, type, listen } = keyboard(() => new Promise((resolve) => doing.push(resolve)));
    listen();
    type('\x1b[B\x1b[Ba');
    await pause(30);
    expect(seen).toEqual(['<down>']);
    doing[0]?.();
    await pause(20);
    expect(seen).toHaveLength(2);
    doing[1]?.();
    await pause(20);
    expect(seen).toEqual(['<down>', '<down>', 'a']);
  });
  it('keys wait until somebody takes them', async () => {
    const { seen, type, listen } = keyboard();
    type('ab');
    await pause(20);
    expect(seen).toEqual([]);
    listen();
    await pause(30);
    expect(seen.join('')).toBe('ab');
  });
  it('each key meets what the one before it left', async () => {
    let at = 0;
    const picked: number[] = [];
    const { type, listen } = keyboard(async (key) => {
      await pause(1);
      if (key === '<down>') at += 1;
      else picked.push(at);
    });
    listen();
    type('\x1b[B\r\x1b[B\x1b[B\r');
    for (let turn = 0; picked.length < 2 && turn < 1000; turn++) await pause(5);
    expect(picked).toEqual([1, 3]);
  });
  it('a step which changes while a key is worked on is that key’s doing', async () => {
    const { seen, type, listen } = keyboard(async (_key, at) => {
      await pause(30);
      at.ask({ id: 'next' });
    });
    listen();
    type('aa');
    await pause(300);
    expect(seen).toEqual(['a']);
  });
  it('a step which changes by itself is not answered by what was meant for the one before', async () => {
    const { seen, type, listen, taker } = keyboard();
    listen();
    taker.ask({ id: 'next' });
    type('1');
    await pause(50);
    expect(seen).toEqual([]);
    await pause(320);
    type('2');
    await pause(20);
    expect(seen).toEqual(['2']);
  });
  it('a danger is not confirmed before it was there long enough to be read, other keys pass', async () => {
    const { seen, type, listen, taker } = keyboard((key, at) => {
      if (key === '1') at.ask({ id: 'danger', confirm: 'danger' });
    });
    listen();
    type('19w');
    await pause(50);
    expect(seen).toEqual(['1', 'w']);
    expect(taker.asked.id).toBe('danger');
    await pause(750);
    type('9');
    await pause(300);
    expect(seen).toEqual(['1', 'w', '9']);
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
  it('does not wait long for a busy page, and not at all the second time', async () => {
    const once = keyboard(() => new Promise(() => undefined));
    once.listen();
    once.type('a\x03');
    await pause(100);
    expect(once.interrupts()).toBe(0);
    await pause(300);
    expect(once.interrupts()).toBe(1);
    const twice = keyboard();
    twice.type('\x03\x03');
    expect(twice.interrupts()).toBe(1);
  });
});

describe('paste, noise, end', () => {
  it('a paste goes only into an open text field, and of it only what makes a figure where digits are typed', async () => {
    const { seen, type, listen, taker } = keyboard();
    listen();
    type('\x1b[200~1\x1b[201~a');
    await pause(30);
    taker.asked = { id: '', field: 'text', confirm: 'none' };
    type('\x1b[200~2\r\x1b[201~b');
    await pause(30);
    taker.asked = { id: '', field: 'digits', confirm: 'none' };
    type('\x1b[200~3m\x1b[201~');
    await pause(30);
    expect(seen.join('')).toBe('a2b3');
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
    expect(seen).toEqual(['<esc>']);
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
