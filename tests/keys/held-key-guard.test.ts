/**
 * Delays and rates are those of real keyboards: Linux console 250 ms and 10.9/s (kbdrate(8)), X.Org 500 or 660 ms and
 * 25 or 33/s (xset(1)), Windows 250 to 1000 ms and up to 30/s, macOS by default 500 ms and 83 ms. Tag M.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Arrival, heldKeyGuard } from '../../src/keys/held-key-guard.js';
import type { Key } from '../../src/keys/key.js';

const key = (name: string): Key =>
  name.length === 1 ? { kind: 'text', text: name, pasted: false } : { kind: 'named', name: name as 'enter' };
const presses = (name: string, ...times: number[]): Arrival[] => times.map((at) => ({ key: key(name), at }));
const held = (name: string, from: number, delay: number, interval: number, count: number) =>
  presses(name, from, ...Array.from({ length: count }, (_, i) => from + delay + i * interval));

/**
 * Plays arrivals against a job in which each passed key named in `moves` moves on, and returns what passed. `typing` says
 * whether a field is open after so many moves.
 */
function play(
  arrivals: readonly Arrival[],
  moves: readonly string[],
  typing: (moved: number) => boolean = () => false,
) {
  const guard = heldKeyGuard(-100_000);
  const passed: string[] = [];
  const waiting: Arrival[] = [];
  let moved = 0;
  const name = (k: Key) => (k.kind === 'named' ? k.name : k.text);
  const decide = (now: number) => {
    while (waiting.length > 0) {
      const verdict = guard.judge(waiting, typing(moved), now);
      if (typeof verdict === 'object') return;
      const first = waiting.shift()!;
      if (verdict === 'drop') continue;
      passed.push(name(first.key));
      if (moves.includes(name(first.key)) && !(typing(moved) && first.key.kind === 'text')) {
        moved++;
        guard.spend(first);
      }
    }
  };
  let clock = 0;
  for (const arrival of [...arrivals].sort((a, b) => a.at - b.at)) {
    for (; clock < arrival.at; clock++) decide(clock);
    waiting.push(arrival);
    decide(clock);
  }
  for (const end = clock + 2000; clock < end; clock++) decide(clock);
  return { passed, moved };
}

describe('a held key', () => {
  it.each([
    ['Linux console', 250, 92],
    ['X.Org', 500, 33],
    ['X.Org, older', 660, 40],
    ['Windows, slowest start', 1000, 33],
    ['macOS', 500, 83],
    ['a slow link', 500, 140],
  ])('%s: Enter answers one step however long', (_name, delay, interval) => {
    expect(play(held('enter', 0, delay, interval, 100), ['enter']).moved).toBe(1);
  });
  it('any delay to a second and any interval to 140 ms', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1000 }),
        fc.integer({ min: 1, max: 140 }),
        fc.integer({ min: 2, max: 60 }),
        fc.constantFrom('enter', 'escape', '2'),
        (delay, interval, count, name) => {
          expect(play(held(name, 0, delay, interval, count), [name]).moved).toBe(1);
        },
      ),
      { numRuns: 200 },
    );
  });
  it('moves a highlight as long as it answers nothing', () => {
    expect(play(held('down', 0, 500, 33, 20), ['enter']).passed).toHaveLength(21);
  });
  it('a double hit within the rest is one', () => expect(play(presses('enter', 0, 90), ['enter']).moved).toBe(1));
  it('held from the shell on, at the start', () => {
    const guard = heldKeyGuard(0);
    const repeats = presses('enter', 100, 133, 166);
    expect(guard.judge(repeats.slice(0, 1), false, 100)).toEqual({ wait: 150 });
    expect(guard.judge(repeats.slice(0, 2), false, 133)).toBe('drop');
    expect(guard.judge(repeats.slice(1), false, 166)).toBe('drop');
  });
});

describe('deliberate presses', () => {
  it('again after a rest, at any pace from 260 ms', () => {
    for (const gap of [260, 400, 700, 1200, 5000]) {
      expect(play(presses('enter', 0, gap, 2 * gap, 3 * gap), ['enter']).moved).toBe(4);
    }
  });
  it('after a held key was let go', () => {
    const hold = held('enter', 0, 500, 33, 20);
    const over = hold.at(-1)!.at;
    expect(play([...hold, ...presses('enter', over + 300)], ['enter']).moved).toBe(2);
  });
  it('1 Enter 2 Enter 3 Enter in one write are three answers; Enter Enter Enter is one', () => {
    const burst = ['1', 'enter', '2', 'enter', '3', 'enter'].flatMap((name) => presses(name, 0));
    expect(play(burst, ['enter'], () => true)).toEqual({
      passed: ['1', 'enter', '2', 'enter', '3', 'enter'],
      moved: 3,
    });
    expect(play(presses('enter', 0, 0, 0), ['enter']).moved).toBe(1);
  });
});

describe('after a one-key answer', () => {
  it('Enter out of habit is not for the next step, a later one is', () => {
    expect(play([...presses('2', 0), ...presses('enter', 300)], ['2', 'enter']).moved).toBe(1);
    expect(play([...presses('2', 0), ...presses('enter', 600)], ['2', 'enter']).moved).toBe(2);
  });
  const fieldNext = (moved: number) => moved === 1;
  it('a field takes the same digit at any pace', () => {
    for (const gap of [0, 40, 120, 300, 700]) {
      const keys = [...presses('1', 0, gap), ...presses('2', 2 * gap + 1)];
      expect(play(keys, ['1', 'enter'], fieldNext).passed).toEqual(['1', '1', '2']);
    }
  });
  it('a field takes the same digit twice, but not a held one', () => {
    expect(play([...presses('1', 0, 200, 330), ...presses('.', 450)], ['1'], fieldNext).passed).toEqual([
      '1',
      '1',
      '1',
      '.',
    ]);
    expect(play([...held('1', 0, 500, 33, 15), ...presses('5', 1500)], ['1'], fieldNext).passed).toEqual(['1', '5']);
  });
});

it('a step that changed by itself is not answered by a key meant for the one before', () => {
  const guard = heldKeyGuard(-100_000);
  guard.movedWithoutKey(1000);
  expect(guard.judge(presses('1', 1200), false, 1200)).toBe('drop');
  expect(guard.judge(presses('2', 1350), false, 1350)).toBe('pass');
});
