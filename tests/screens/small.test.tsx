/** Small windows: a caution is acknowledged only when all of it has stood on the screen; below a size nothing is. */
import stringWidth from 'string-width';
import { afterEach, describe, expect, test } from 'vitest';
import { frameText } from '../../src/screens/parts/frame-text.js';
import { type Bench, onStep, type openBench } from './bench.js';
import { asks, begun, pump, step } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});
const words = [
  'The rotor turns as soon as the supply is on, and the supply may come on from elsewhere at any time. ',
  'Lock every supply out, hang up your tag, wait for the capacitors, and then prove it dead with a meter that you proved before. ',
  'Two persons stand by: one works, the other holds the switch and speaks to nobody else until the end word is said, which is HERON.',
].join('');
const danger = step('danger', { hazard: true, caution: [words, 'A second one ends with OSPREY.'] });
const flat = (b: Bench): string => b.screen().replace(/\s+/g, ' ');
const kinds = (b: Bench): string[] => b.kept.entries.map((e) => e.kind);

async function bench(cols: number, rows: number, more: Partial<Parameters<typeof openBench>[0]> = {}): Promise<Bench> {
  const b = await onStep({
    model: pump([danger, asks.end]),
    entries: begun(),
    cols: 80,
    rows: 24,
    byInk: true,
    ...more,
  });
  open.push(b);
  await b.waitFor('CAUTION');
  b.stdout.columns = cols;
  b.stdout.rows = rows;
  b.stack.changed();
  return b;
}

describe('a caution too long for the window', () => {
  test.each([
    [40, 12],
    [60, 12],
    [44, 14],
    [50, 22],
    [60, 20],
    [120, 40],
  ] as const)('%i by %i: is acknowledged only after its last word', async (cols, rows) => {
    const b = await bench(cols, rows);
    let read = '';
    for (let page = 0; page < 20; page++) {
      await b.waitFor((s) => s.split('\n').length <= rows - 1);
      read += ` ${flat(b)}`;
      if (!flat(b).includes('Space to read on')) break;
      await b.press(b.desk().safetyKey);
      await b.waitFor('Read on to its end first');
      expect(kinds(b)).toEqual(['job']);
      // The sentence goes with the next key, so that what it hid is seen.
      const hidden = b.screen();
      await b.press(' ');
      await b.waitFor((s) => s !== hidden);
      if (flat(b).includes(`read on, ${page + 1} of`)) await b.press(' ');
    }
    // Every word has stood there, in its order.
    for (const part of [...words.split(/[ ,.:]+/), 'OSPREY']) expect(read).toContain(part);
    await b.waitFor('I have read this');
    await b.press(b.desk().safetyKey);
    expect(kinds(b)).toEqual(['job', 'caution']);
  });

  test('is read from its beginning again after the window changed', async () => {
    const b = await bench(40, 12);
    await b.waitFor('read on, 1 of');
    await b.press(' ');
    await b.waitFor('read on, 2 of');
    b.stdout.rows = 13;
    b.stack.changed();
    await b.waitFor('read on, 1 of');
  });

  test('is told to a screen reader in parts too', async () => {
    const b = await bench(40, 12, { reader: true });
    await b.waitFor('read on, 1 of');
    await b.press('9');
    await b.waitFor('Read on to its end first');
    expect(kinds(b)).toEqual(['job']);
    await b.press(' ');
    for (let page = 2; !flat(b).includes('I have read this'); page++) {
      await b.press(' ');
      await b.waitFor((s) => s.replace(/\s+/g, ' ').includes(`read on, ${page} of`) || s.includes('I have'));
    }
    await b.waitFor('OSPREY');
    await b.press('9');
    expect(kinds(b)).toEqual(['job', 'caution']);
  });

  test('can be paged back; a message that hides a part holds the key up', async () => {
    const b = await bench(40, 12);
    await b.press(' ');
    await b.waitFor('read on, 2 of');
    await b.press('up');
    await b.waitFor('read on, 1 of');
    const c = await bench(60, 18);
    await c.waitFor('I have read this');
    c.stack.say(
      'Something is to be told here, long enough to take several lines of any window that is as small as this, and then some more.',
    );
    await c.waitFor('Something is to be told');
    if (!flat(c).includes('HERON') || !flat(c).includes('OSPREY') || !flat(c).includes('I have read this')) {
      await c.press(c.desk().safetyKey);
      expect(kinds(c)).toEqual(['job']);
    }
    await c.waitFor('HERON');
    await c.press(c.desk().safetyKey);
    expect(kinds(c)).toEqual(['job', 'caution']);
  });
});

describe('a window below 40 x 12', () => {
  test.each([
    [39, 24],
    [80, 11],
    [40, 10],
    [60, 8],
    [80, 6],
    [20, 3],
    [8, 2],
    [1, 1],
  ] as const)('%i by %i: says only that, and takes nothing', async (cols, rows) => {
    const b = await bench(cols, rows);
    await b.waitFor((s) => !s.includes('CAUTION'));
    const lines = b.screen().split('\n');
    expect(lines.length).toBeLessThanOrEqual(Math.max(1, rows - 1));
    for (const line of lines) expect(stringWidth(line)).toBeLessThanOrEqual(cols);
    if (cols >= 20 && rows > 3) expect(flat(b)).toContain('Make the window larger');
    expect(flat(b)).not.toMatch(/danger|job|undo/);
    for (const key of ['9', '0', 'enter', '1', 'u', 'm', 'q', 'esc', 'tab']) await b.press(key);
    expect(kinds(b)).toEqual(['job']);
    expect(b.kept.quit).toBeUndefined();
    const shown = b.stack.shown!;
    const drawn = frameText(shown.view, shown.room, shown.message, false);
    expect(drawn.join('\n').trimEnd()).toBe(b.screen().trimEnd());
    b.stdout.columns = 80;
    b.stdout.rows = 24;
    b.stack.changed();
    await b.waitFor('CAUTION');
    await b.press('9');
    expect(kinds(b)).toEqual(['job', 'caution']);
  });

  test('is left with Ctrl-C', async () => {
    const b = await bench(20, 5);
    await b.waitFor('Make the window');
    b.stack.quit(130);
    expect(b.kept.quit).toBe(130);
  });
});

test('at 40 by 12 what was typed stays on the screen under a long message', async () => {
  const long = {
    kind: 'quantity',
    quantity: 'length',
    unit: 'mm',
    key: 'width',
    label: 'Inside diameter of the barrel, as three readings at three places agree on it',
    plausible: [4, 30],
    limits: [2, 60],
  } as const;
  const b = await onStep({
    model: pump([step('barrel', { ask: [long] }), asks.end]),
    entries: begun(),
    cols: 40,
    rows: 12,
    trouble: () =>
      'This answer could not be saved because the disk is full. All 41 entries before it are kept. Free some space and try again.',
  });
  open.push(b);
  await b.waitFor('Inside diameter');
  await b.press('14.57', 'enter');
  const shown = await b.waitFor('disk is full');
  expect(shown).toContain('14.57');
});
