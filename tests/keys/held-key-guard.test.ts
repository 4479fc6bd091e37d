/**
 * Delays and rates are those of real keyboards: Linux console 250 ms and 10.9/s (kbdrate(8)), X.Org 500 or 660 ms and
 * 25 or 33/s (xset(1)), Windows 250 to 1000 ms and up to 30/s, macOS by default 500 ms and 83 ms. Tag M.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Arrival, heldKeyGuard } from '../../src/keys/held-key-guard.js';
import type { Key, KeyName } from '../../src/keys/key.js';
import type { KeyMode } from '../../src/keys/key-taker.js';
import { size } from '../setup/size.js';

const key = (name: string): Key =>
  name.length === 1 ? { name: 'char', char: name } : { name: name as KeyName, char: '' };
const presses = (name: string, ...times: number[]): Arrival[] => times.map((at) => ({ key: key(name), at }));
const held = (name: string, from: number, delay: number, interval: number, count: number) =>
  presses(name, from, ...Array.from({ length: count }, (_, i) => from + delay + i * interval));

const closed: KeyMode = { field: 'none', confirm: 'none' };

/**
 * Plays arrivals against a job in which each passed key named in `moves` moves on, and returns what passed. `typing` says
 * whether a field is open after so many moves.
 */
function play(
  arrivals: readonly Arrival[],
  moves: readonly string[],
  typing: (moved: number) => boolean = () => false,
  enterOnlyCloses = false,
) {
  const mode = (): KeyMode => ({
    field: typing(moved) ? 'text' : 'none',
    confirm: typing(moved) && enterOnlyCloses ? 'other-key' : 'none',
  });
  const guard = heldKeyGuard(-100_000);
  const passed: string[] = [];
  const waiting: Arrival[] = [];
  let moved = 0;
  const name = (k: Key) => (k.name === 'char' ? k.char : k.name);
  const decide = (now: number) => {
    while (waiting.length > 0) {
      const verdict = guard.judge(waiting, mode(), now);
      if (typeof verdict === 'object') return;
      const first = waiting.shift()!;
      if (verdict === 'drop') continue;
      passed.push(name(first.key));
      if (moves.includes(name(first.key)) && !(typing(moved) && first.key.name === 'char')) {
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
  it('any delay from a quarter of a second to a second and any interval to 140 ms', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 250, max: 1000 }),
        fc.integer({ min: 1, max: 140 }),
        fc.integer({ min: 2, max: 60 }),
        fc.constantFrom('enter', 'esc', '2'),
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
  it('a contact that bounces is one press', () => expect(play(presses('enter', 0, 20, 60), ['enter']).moved).toBe(1));
  it('answers nothing twice and leaves nothing in the field after it', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 250, max: 1000 }),
        fc.array(fc.integer({ min: 25, max: 60 }), { minLength: 1, maxLength: 60 }),
        fc.constantFrom('enter', 'esc', '2'),
        fc.boolean(),
        (delay, gaps, name, field) => {
          const times = [0, delay];
          for (const gap of gaps) times.push((times.at(-1) ?? 0) + gap);
          const { moved, passed } = play(presses(name, ...times), [name], (n) => field && n === 1);
          expect(moved).toBe(1);
          if (name === '2') expect(passed).toEqual(['2']);
        },
      ),
      { numRuns: 500 },
    );
  });
  it('held from the shell on, at the start', () => {
    const guard = heldKeyGuard(0);
    const repeats = presses('enter', 100, 133, 166);
    expect(guard.judge(repeats.slice(0, 1), closed, 100)).toEqual({ wait: 150 });
    expect(guard.judge(repeats.slice(0, 2), closed, 133)).toBe('drop');
    expect(guard.judge(repeats.slice(1), closed, 166)).toBe('drop');
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

describe('hands that know the way', () => {
  /** A choice, then a figure with Enter, again and again: screens by turns a list and a field. */
  const fieldBetween = (moved: number) => moved % 2 === 1;
  const movers = ['1', '2', '3', '4', '5', '6', '7', '8', '9', 'enter'];
  const gap = fc.oneof(fc.integer({ min: 80, max: 200 }), fc.integer({ min: 80, max: 1500 }));
  const typed = fc.record({
    pick: fc.constantFrom('1', '2'),
    // Few digits, so that the one that picked comes again and again.
    figure: fc.stringMatching(/^[12]{1,4}([.,][12]{1,2})?$/),
  });
  it('lose nothing that is typed, at any pace from 80 ms', () => {
    fc.assert(
      fc.property(fc.array(typed, { minLength: 1, maxLength: 4 }), fc.infiniteStream(gap), (answers, gaps) => {
        const keys = answers.flatMap(({ pick, figure }) => [pick, ...figure, 'enter']);
        let at = 0;
        const arrivals = keys.flatMap((k) => {
          at += gaps.next().value as number;
          return presses(k, at);
        });
        expect(play(arrivals, movers, fieldBetween).passed).toEqual(keys);
      }),
      { numRuns: size(500, 100_000) },
    );
  });
  it('lose nothing when a figure comes in one write, as from a calliper with a cable', () => {
    fc.assert(
      fc.property(typed, fc.integer({ min: 80, max: 1500 }), fc.integer({ min: 0, max: 10 }), (t, pause, each) => {
        const figure = [...t.figure, 'enter'];
        const arrivals = [...presses(t.pick, 0), ...figure.flatMap((k, i) => presses(k, pause + i * each))];
        expect(play(arrivals, movers, fieldBetween).passed).toEqual([t.pick, ...figure]);
      }),
      { numRuns: size(500, 100_000) },
    );
  });
  it('the same key for the next list too, and for the one after it', () => {
    for (const pace of [80, 120, 180, 240])
      expect(play(presses('1', 0, pace, 2 * pace), ['1']).moved, `${pace} ms`).toBe(3);
  });
  it('Enter, then Enter for the initials, then another key: in that order', () => {
    for (const pace of [80, 120, 180, 240, 400, 900]) {
      const keys = [...presses('enter', 0, pace), ...presses('0', 2 * pace)];
      expect(play(keys, ['enter'], (moved) => moved === 1).passed, `${pace} ms`).toEqual(['enter', 'enter', '0']);
    }
  });
  it('Enter that only closes a field is no habit of closing the answer before', () => {
    const keys = [...presses('1', 0), ...presses('enter', 180), ...presses('0', 360)];
    expect(play(keys, ['1', 'enter'], (moved) => moved === 1, true).passed).toEqual(['1', 'enter', '0']);
    expect(play(keys, ['1', 'enter'], (moved) => moved === 1, false).passed).toEqual(['1', '0']);
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

it('a double tap confirms no danger, a press of its own does', () => {
  const guard = heldKeyGuard(-100_000);
  const danger: KeyMode = { field: 'none', confirm: 'danger' };
  guard.spend(presses('9', 0)[0]!);
  for (const at of [20, 110, 200, 400, 650])
    expect(guard.judge(presses('9', at), danger, at + 200), `${at}`).toBe(at === 20 ? 'drop' : 'early');
  expect(guard.judge(presses('9', 1500), danger, 1700)).toBe('pass');
});

it('a danger is confirmed by no key, of whatever press, before it was there long enough to be read', () => {
  const guard = heldKeyGuard(-100_000);
  const danger: KeyMode = { field: 'none', confirm: 'danger' };
  guard.spend(presses('1', 0)[0]!);
  guard.shown(5);
  for (const at of [0, 30, 120, 220, 690])
    expect(guard.judge(presses('9', at), danger, at + 300), `${at}`).toBe(at === 30 ? 'drop' : 'early');
  // The one at 690 may have been held: a press of its own comes after it.
  expect(guard.judge(presses('9', 1400), danger, 1600)).toBe('pass');
  guard.shown(2000);
  expect(guard.judge(presses('9', 2710), danger, 2710)).toBe('pass');
});

it('a step that changed by itself is not answered by a key meant for the one before', () => {
  const guard = heldKeyGuard(-100_000);
  guard.movedWithoutKey(1000);
  expect(guard.judge(presses('1', 1200), closed, 1200)).toBe('drop');
  expect(guard.judge(presses('2', 1350), closed, 1350)).toBe('pass');
});
