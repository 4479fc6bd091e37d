/** Wrapping, fitting and letters, against what must hold for any text and any terminal. */
import fc from 'fast-check';
import stringWidth from 'string-width';
import { afterEach, describe, expect, test } from 'vitest';
import { bigFigures, bigQuantity } from '../../src/screens/look/big-figures.js';
import { fitParts } from '../../src/screens/look/fit.js';
import type { Block } from '../../src/screens/look/line.js';
import { toAscii } from '../../src/screens/look/plain-letters.js';
import { wrap } from '../../src/screens/look/wrap.js';
import { left, timeOfDay } from '../../src/screens/words/times.js';
import { type Bench, onStep, openBench } from './bench.js';
import { asks, begun, pump, step } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});

const words = fc
  .array(fc.string({ unit: 'grapheme', minLength: 1, maxLength: 30 }), { maxLength: 30 })
  .map((w) => w.join(' '));
const text = (lines: ReturnType<typeof wrap>): string => lines.map((l) => l.map((s) => s.text).join('')).join(' ');

test('no wrapped line is wider than its room, and no letter is lost', () => {
  fc.assert(
    fc.property(words, fc.integer({ min: 8, max: 100 }), (line, width) => {
      const rows = wrap([{ text: line }], width);
      for (const r of rows) expect(stringWidth(r.map((s) => s.text).join(''))).toBeLessThanOrEqual(width);
      expect(text(rows).replace(/[ \u00a0]/g, '')).toBe(line.replace(/[ \u00a0]/g, ''));
    }),
  );
});

test('a figure is not parted from its half width and unit', () => {
  const rows = wrap([{ text: 'Free volume from mass alone 12.1 ± 0.6 mL' }], 34).map((l) =>
    l.map((s) => s.text).join(''),
  );
  expect(rows).toEqual(['Free volume from mass alone', '12.1 ± 0.6 mL']);
});

test('whatever the blocks, they never stand taller than the room', () => {
  const block = fc
    .record({
      rank: fc.integer({ min: 1, max: 6 }),
      gap: fc.boolean(),
      count: fc.integer({ min: 0, max: 12 }),
      list: fc.boolean(),
      index: fc.integer({ min: -1, max: 11 }),
    })
    .map(
      ({ rank, gap, count, list, index }): Block =>
        list
          ? {
              rank,
              gap,
              choices: {
                id: 'x',
                index: Math.min(index, count - 1),
                items: Array.from({ length: count }, (_, i) => ({
                  value: String(i),
                  label: `item ${i} with a few words more`,
                })),
              },
            }
          : { rank, gap, lines: () => Array.from({ length: count }, (_, i) => [{ text: `line ${i}` }]) },
    );
  fc.assert(
    fc.property(
      fc.array(block, { maxLength: 10 }),
      fc.integer({ min: 1, max: 40 }),
      fc.integer({ min: 16, max: 100 }),
      (blocks, height, width) => {
        const fitted = fitParts(blocks, width, height).fitted;
        const tall = fitted.reduce(
          (sum, f) =>
            sum +
            (f.gap ? 1 : 0) +
            ('choices' in f
              ? f.rows.reduce((s, r) => s + r.lines.length, 0) + Number(f.before) + Number(f.after !== undefined)
              : f.lines.length),
          0,
        );
        expect(tall).toBeLessThanOrEqual(height);
        for (const f of fitted)
          if ('choices' in f && f.choices.index >= 0)
            expect(f.rows.some((r) => r.item === f.choices.items[f.choices.index])).toBe(true);
      },
    ),
  );
});

test('what matters least goes first', () => {
  const line = (rank: number, word: string): Block => ({ rank, lines: () => [[{ text: word }]] });
  const seen = fitParts([line(1, 'do'), line(4, 'help'), line(2, 'recorded')], 40, 2).fitted.map((f) =>
    'lines' in f ? f.lines[0]?.[0]?.text : '',
  );
  expect(seen).toEqual(['do', 'recorded']);
});

test('a line behind which words are cut bears a sign of it', () => {
  const blocks = [{ rank: 1, lines: (width: number) => wrap([{ text: 'meter, wedges, clip, thread, film' }], width) }];
  const [first] = fitParts(blocks, 16, 1).fitted;
  expect(first && 'lines' in first && text([...first.lines])).toBe('meter, wedges, …');
});

test('nothing is left out without a word: the frame says so, and Page Down shows all of it', async () => {
  const facts = Array.from({ length: 20 }, (_, i) => ({
    key: `fact_${i}`,
    at: 'job',
    label: `Figure number ${i}`,
    is: i === 17 ? "bore > 20.0 ? 'no' : 'ok'" : i === 0 ? "bore > 20.0 ? 'no' : 'ok'" : `'ok${i}'`,
  }));
  const fits = step('fits', {
    ask: [{ key: 'seen', kind: 'yes-no', label: 'Seen' }],
    show: facts.map((f) => f.key),
    gates: [{ id: 'fit', must: "fact_0 == 'ok'", say: 'It does not fit.', overrule: 'with-reason' }],
  });
  const b = await onStep({ model: pump([asks.quantity, fits, asks.end], { facts }), entries: begun(), byInk: true });
  open.push(b);
  await b.press('30', 'enter');
  const small = await b.waitFor('more than fits here: PgDn');
  expect(small).not.toContain('Figure number 16');
  // What made the first verdict stands next to it.
  expect(small).toMatch(/Figure number 0 .*no[\s\S]{0,80}Figure number 17 .*no/);
  await b.press('pagedown');
  await b.waitFor(/lines \d+-/);
  await b.press(' ', ' ');
  await b.waitFor('Figure number 19');
  await b.press('esc', '1');
  // At the stop too.
  await b.waitFor('STOP It does not fit.');
  await b.waitFor('more than fits here: PgDn');
  await b.waitFor('Figure number 17');
  b.stdout.rows = 60;
  b.stack.changed();
  await b.waitFor((s) => s.includes('Figure number 19') && !s.includes('PgDn'));
});

test('the row of units stays on a small screen', async () => {
  const heat = { key: 'heat', kind: 'quantity', quantity: 'temperature', unit: 'degC', label: 'Heat', limits: [0, 99] };
  const long = step('long', {
    ask: [{ ...heat, help: 'Hold the probe to the ring. '.repeat(9) }],
    caution: ['Hot parts. They burn.'],
    do: 'Read the heat of the ring off. '.repeat(9),
  });
  const b = await onStep({ model: pump([long, asks.end]), entries: begun(), byInk: true, cols: 60, rows: 20 });
  open.push(b);
  await b.press('9');
  await b.waitFor('[°C]');
});

test('letters for a terminal that shows only ASCII are only ASCII', () => {
  expect(toAscii('“5 ± 0.1 mm” – 21 °C · Ölstand')).toBe('"5 +/- 0.1 mm" - 21 degC - Olstand');
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme' }), (t) => {
      expect(toAscii(t)).toMatch(/^[\x20-\x7e\n]*$/);
    }),
  );
});

test('large figures are three lines, plain text where they can’t be', () => {
  expect(bigFigures('12.5', false, 80)).toHaveLength(3);
  expect(bigFigures('12.5', true, 80)).toHaveLength(1);
  expect(bigFigures('123456789', false, 20)).toHaveLength(1);
  expect(bigQuantity('1.73 ± 0.19 mL', false, 80)).toHaveLength(3);
  expect(bigQuantity('2 h 30 min', false, 80)).toHaveLength(1);
});

test('times are told with their day when it is another one', () => {
  const now = Date.parse('2026-03-03T08:00:00Z');
  expect(timeOfDay(Date.parse('2026-03-03T14:35:00Z'), now, 'UTC')).toBe('14:35');
  expect(timeOfDay(Date.parse('2026-03-02T14:35:00Z'), now, 'UTC')).toBe('Mon 14:35');
  expect(timeOfDay(Date.parse('2026-01-02T14:35:00Z'), now, 'UTC')).toBe('2026-01-02 14:35');
  expect([left(0), left(1), left(59_999), left(60_000), left(61_000), left(7_500_000)]).toEqual([
    'over',
    '1 s',
    '60 s',
    '1 min',
    '2 min',
    '2 h 05 min',
  ]);
});

test('an ASCII terminal gets ASCII only', async () => {
  const b = await onStep({
    model: pump([asks.danger, asks.quantity]),
    entries: begun({ name: 'Bench job °' }),
    ascii: true,
  });
  open.push(b);
  await b.press('9');
  await b.waitFor('Press 9');
  expect(b.screen()).toMatch(/^[\x20-\x7e\n]*$/);
});

test('a name from elsewhere moves no cursor', async () => {
  const b = openBench({ model: pump([asks.text]), entries: begun({ name: 'Evil \u001b[2Jname\u202e' }), byInk: true });
  open.push(b);
  await b.ready();
  await b.waitFor('Evil name');
  expect(b.screen()).not.toContain('\u001b[2J');
});

test('a screen reader gets words in order, roles for choices, and no drawn signs', async () => {
  const b = await onStep({ model: pump([asks.danger, asks.choice]), entries: begun(), reader: true });
  open.push(b);
  await b.waitFor('CAUTION');
  await b.press('9');
  await b.waitFor('Keys: 9 done');
  expect(b.screen()).not.toMatch(/[┃▲─▸◷]/);
});

test('no frame is as tall as the terminal, from the smallest to the largest', async () => {
  for (const [cols, rows] of [
    [40, 12],
    [60, 20],
    [80, 24],
    [100, 50],
  ] as const) {
    const b = await onStep({ model: pump([asks.table, asks.end]), entries: begun(), byInk: true, cols, rows });
    open.push(b);
    await b.press('down', 'down');
    expect(b.screen().split('\n').length).toBeLessThanOrEqual(rows - 1);
    for (const line of b.screen().split('\n')) expect(stringWidth(line)).toBeLessThanOrEqual(cols);
  }
});

describe('what keeps somebody safe', () => {
  const text = (rank: number, ...words: string[]): Block => ({ rank, lines: () => words.map((w) => [{ text: w }]) });
  const danger: Block = { ...text(1, 'danger', 'and more'), small: () => [[{ text: 'short' }]] };
  const whole: Block = { ...danger, least: () => [[{ text: 'danger' }], [{ text: 'keep off' }]] };
  const seen = (blocks: readonly Block[], height: number): string[] =>
    fitParts(blocks, 40, height).fitted.flatMap((f) =>
      'lines' in f ? f.lines.map((l) => l.map((s) => s.text).join('')) : f.rows.map((r) => r.item.label),
    );
  test('takes the place of what is less weighty, and what stands elsewhere goes first', () => {
    const told: Block = { ...text(2, 'title'), elsewhere: true };
    expect(seen([told, danger, text(2, 'figure'), text(1, 'ask')], 4)).toEqual(['title', 'short', 'figure', 'ask']);
    expect(seen([told, whole, text(2, 'figure'), text(1, 'ask')], 4)).toEqual(['danger', 'keep off', 'figure', 'ask']);
    expect(seen([told, whole, text(2, 'figure'), text(1, 'ask')], 3)).toEqual(['danger', 'keep off', 'ask']);
  });
  test('never takes the place of what is asked: then it is short', () => {
    expect(seen([whole, text(2, 'figure'), text(1, 'ask')], 2)).toEqual(['short', 'ask']);
  });
  test('what is vouched for comes first where only one of two has room', () => {
    const tell: Block = { ...text(2, 'right', 'when'), least: () => [[{ text: 'right' }], [{ text: 'when' }]] };
    expect(seen([whole, tell, text(1, 'press')], 4)).toEqual(['short', 'right', 'when', 'press']);
  });
  test('what can be picked is seen before what stands elsewhere too', () => {
    const items = ['a', 'b', 'c', 'd', 'e', 'f'].map((label) => ({ value: label, label }));
    const list: Block = { rank: 1, choices: { id: 'x', items, index: -1 } };
    const told: Block = { ...text(2, 'title'), elsewhere: true };
    expect(seen([told, text(1, 'do'), list], 7)).toEqual(['do', 'a', 'b', 'c', 'd', 'e', 'f']);
    expect(seen([told, text(1, 'do'), list], 8)).toEqual(['title', 'do', 'a', 'b', 'c', 'd', 'e', 'f']);
  });
});
