/** Every kind of question, answered as a person would. */
import { afterEach, expect, test } from 'vitest';
import { type Bench, onStep } from './bench.js';
import { asks, begun, bore, pump, step } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});
async function bench(...steps: Record<string, unknown>[]): Promise<Bench> {
  const b = await onStep({ model: pump([...steps, asks.end]), entries: begun() });
  open.push(b);
  return b;
}
const value = (b: Bench, key: string): unknown =>
  b.kept.entries.findLast((e) => 'key' in e && e.key === key && 'value' in e && e);
const answer = (b: Bench, key: string): unknown => (value(b, key) as { value?: unknown } | undefined)?.value;

test('a choice takes a digit at once and shows what it recorded', async () => {
  const b = await bench(asks.choice);
  await b.waitFor('Do colour now.');
  await b.press('2');
  expect(answer(b, 'colour')).toBe('blue');
  await b.waitFor('Recorded Colour: Blue');
});

test('a lone letter that is a key of the page is no answer before it was asked about', async () => {
  const b = await bench(step('word', { ask: [{ key: 'word', kind: 'text', label: 'Name' }] }));
  await b.waitFor('Name');
  await b.press('m', 'enter');
  await b.waitFor('is a key of the guide');
  expect(b.screen()).toContain('> m');
  expect(answer(b, 'word')).toBeUndefined();
  await b.press('enter');
  await b.waitFor('Enter does not record it');
  // It leads on to a longer word, or stands as it is.
  await b.press('1', 'enter');
  expect(answer(b, 'word')).toBe('m1');
});

test('a machine that is called by a lone letter can be recorded all the same', async () => {
  const b = await bench(step('word', { ask: [{ key: 'word', kind: 'text', label: 'Name' }] }));
  await b.waitFor('Name');
  await b.press('D', 'enter');
  await b.waitFor('is a key of the guide');
  await b.press('+');
  expect(answer(b, 'word')).toBe('D');
});

test('nothing is highlighted at first: a held Enter answers nothing', async () => {
  const b = await bench(asks.choice);
  await b.press('enter', 'enter', 'enter');
  await b.waitFor('Nothing is picked yet');
  expect(b.kept.entries).toHaveLength(1);
  await b.press('down', 'down', 'enter');
  expect(answer(b, 'colour')).toBe('blue');
});

test('Down, Down and Enter before any frame record what they highlighted', async () => {
  const b = await bench(asks.choice);
  for (const name of ['down', 'down', 'enter'] as const) await b.stack.press({ name, char: '' });
  await b.waitFor('Recorded');
  expect(answer(b, 'colour')).toBe('blue');
});

test('an Enter behind the digit that picked leaves the next one empty only once it was asked about', async () => {
  const yesNo = { key: 'leak', kind: 'yes-no', label: 'It leaks' };
  const optional = (key: string) => ({ ...bore, key, label: `Gap ${key}`, optional: true });
  const b = await bench(
    step('seal', { ask: [yesNo, optional('x'), optional('y')] }),
    step('next', { ask: [optional('z')] }),
  );
  await b.waitFor('It leaks');
  await b.press('1', 'enter');
  await b.waitFor('Nothing typed. Enter again: left empty.');
  expect(b.kept.entries).toHaveLength(2);
  await b.press('enter');
  await b.waitFor('Gap y');
  // Behind an Enter it is one key, and so it is with something typed between.
  await b.press('enter');
  await b.waitFor('Gap z');
  await b.press('4', 'backspace', 'enter');
  await b.waitFor('Do end now.');
});

test('a digit beyond the list records nothing', async () => {
  const b = await bench(asks.choice);
  await b.press('7');
  await b.waitFor('Press a digit from 1 to 2.');
  expect(b.kept.entries).toHaveLength(1);
});

test('yes and no are 1 and 2; the letter n answers nothing', async () => {
  const b = await bench(asks.yesNo);
  await b.press('n');
  expect(b.kept.entries).toHaveLength(1);
  await b.press('2');
  expect(answer(b, 'leak')).toBe(false);
});

test('a quantity takes its unit, another by an arrow, or one typed behind it', async () => {
  const b = await bench(asks.quantity, step('more', { ask: [{ ...bore, key: 'other' }] }));
  await b.press('12.5', 'enter');
  expect(answer(b, 'bore')).toBe(12.5);
  await b.waitFor('Recorded Bore: 12.5');
  await b.press('down', 'down');
  await b.waitFor('[in]');
  await b.press('0.5', 'enter');
  expect(answer(b, 'other')).toBeCloseTo(12.7, 6);
  await b.waitFor('(typed 0.5 in)');
});

test('a quantity with a typed unit keeps it whatever the arrow says', async () => {
  const b = await bench(asks.quantity);
  await b.press('down', '1.2 cm', 'enter');
  expect(answer(b, 'bore')).toBe(12);
});

test('the unit picked last stands where the same question comes again, and at no other', async () => {
  const kept = new Map<string, string>();
  const app = { units: { get: (k: string) => kept.get(k), set: (k: string, u: string) => void kept.set(k, u) } };
  const model = pump([
    step('gap', { at: 'valve', ask: [{ ...bore, key: 'gap', label: 'Gap' }] }),
    asks.quantity,
    asks.dimensions,
    asks.end,
  ]);
  const b = await onStep({ model, entries: begun(), app });
  open.push(b);
  await b.press('down', 'down');
  await b.waitFor('[in]');
  await b.press('0.5', 'enter');
  // The other valve is asked the same.
  await b.press('1');
  await b.waitFor('Lower valve · Work');
  await b.waitFor('[in]');
  await b.press('1', 'enter');
  expect(answer(b, 'gap')).toBeCloseTo(25.4, 6);
  // Another length has its own unit.
  await b.waitFor('Do bore now.');
  await b.waitFor('[mm]');
  await b.press('12', 'enter');
  expect(answer(b, 'bore')).toBe(12);
  await b.waitFor('[mm]');
  await b.press('down', 'down');
  await b.waitFor('[in]');
  await b.press('0.5x0.5x0.25', 'enter');
  // The same questions in the next job.
  const next = await onStep({ model, entries: begun(), app });
  open.push(next);
  await next.waitFor('[in]');
  // Back to millimetres, and they stay too.
  await next.press('up', 'up');
  await next.waitFor('[mm]');
  await next.press('12', 'enter');
  expect(answer(next, 'gap')).toBe(12);
  await next.press('1');
  await next.waitFor('Lower valve · Work');
  await next.waitFor('[mm]');
  await next.press('12', 'enter', '9', 'enter');
  await next.waitFor('Do block now.');
  await next.waitFor('[in]');
});

test('the next row of a log has the unit that was picked, never one that was typed behind a figure', async () => {
  const log = step('log', { ask: [{ ...bore, key: 'read' }], repeat: { until: 'all_read.size() >= 3', most: 9 } });
  const b = await bench(log, asks.quantity);
  await b.press('0.5 in', 'enter');
  await b.waitFor('Recorded');
  await b.waitFor('[mm]');
  await b.press('down', 'down');
  await b.waitFor('[in]');
  await b.press('1', 'enter');
  await b.waitFor('25.4 mm');
  await b.waitFor('[in]');
  await b.press('1.1', 'enter');
  await b.waitFor('Do bore now.');
  await b.waitFor('[mm]');
});

test('after a refused value the next digit begins anew', async () => {
  const b = await bench(asks.quantity);
  await b.press('0.2', 'enter');
  await b.waitFor('outside what can be');
  await b.press('7', 'enter');
  expect(answer(b, 'bore')).toBe(7);
});

test('an unusual value is asked once more; Enter and digits do not confirm it', async () => {
  const b = await bench(asks.quantity);
  await b.press('60', 'enter');
  await b.waitFor('is unusual');
  await b.press('enter');
  expect(b.kept.entries).toHaveLength(1);
  await b.press('+');
  expect(answer(b, 'bore')).toBe(60);
});

test('an unusual value can be typed again instead', async () => {
  const b = await bench(asks.quantity);
  await b.press('60', 'enter');
  await b.waitFor('is unusual');
  // Keys that confirm something elsewhere are digits here: none takes the place of what was read.
  await b.press('9', '0');
  await b.waitFor('> 60');
  await b.waitFor('Press + to record 60 all the same, or Backspace to type it again.');
  await b.press('backspace', '06', 'enter');
  expect(answer(b, 'bore')).toBe(6);
});

test('dimensions take a star for the sign between', async () => {
  const b = await bench(asks.dimensions);
  await b.press('10*10*5', 'enter');
  expect(answer(b, 'block')).toEqual([10, 10, 5]);
});

test('a number that is not whole is refused with one sentence', async () => {
  const b = await bench(asks.number);
  await b.press('8.5', 'enter');
  await b.waitFor('whole number such as 8');
  await b.press('8', 'enter');
  expect(answer(b, 'bolts')).toBe(8);
});

test('in a text every letter is text; Esc makes letters commands and Enter text again', async () => {
  const b = await bench(asks.text);
  await b.press('u', 'w', 'm', '?', 'd', 'n');
  await b.waitFor('uwm?dn');
  await b.press('esc', 'w');
  await b.waitFor('Because of words.');
  await b.press('esc', 'x');
  await b.waitFor('uwm?dnx');
  await b.press('esc');
  await b.waitFor('type on');
  await b.press('enter');
  await b.press('enter');
  expect(answer(b, 'words')).toBe('uwm?dnx');
});

test('who looks up the keys from within a text can press one of them when back', async () => {
  const b = await bench(asks.text);
  await b.press('u', 'esc', '?');
  await b.waitFor('All keys');
  await b.press('esc', 'w');
  await b.waitFor('Because of words.');
  expect(answer(b, 'words')).toBeUndefined();
});

test('a series adds with digits, takes the last off and is recorded with 0', async () => {
  const b = await bench(asks.series);
  await b.press('1', '0');
  await b.waitFor('At least 2 are needed');
  await b.press('2', '2', 'backspace', '1', '0');
  expect(answer(b, 'knocks')).toEqual(['dull', 'ringing', 'dull']);
});

test('a counter runs with Enter, stops at its end and is recorded with 0', async () => {
  const b = await bench(asks.counter);
  await b.press('enter', 'enter');
  await b.waitFor('2 of 3 turns');
  await b.press('-', 'enter', 'enter', 'enter');
  await b.waitFor('That is all 3 turns');
  expect(b.kept.entries).toHaveLength(1);
  await b.press('0');
  expect(answer(b, 'turns')).toBe(3);
});

test('a count can be typed as well; it is recorded by its own key', async () => {
  const b = await bench(asks.counter);
  await b.press('enter', '3');
  await b.waitFor('3 typed: 0 records it');
  await b.press('0');
  expect(answer(b, 'turns')).toBe(3);

  const more = await bench(asks.counter);
  await more.press('9');
  await more.waitFor('type 3 or count on with Enter');
  await more.press('2', 'enter', 'enter');
  await more.waitFor('3 of 3 turns');
  expect(more.kept.entries).toHaveLength(1);

  const ten = step('turns', { ask: [{ key: 'turns', kind: 'counter', to: '10.0', label: 'Turns', unit: 'turns' }] });
  const both = await bench(ten);
  await both.press('1', '0');
  await both.waitFor('10 typed');
  await both.press('0');
  expect(answer(both, 'turns')).toBe(10);
});

test('a series says what each pick was, in the words of the question', async () => {
  const b = await bench(asks.series);
  await b.press('2', '1');
  await b.waitFor('So far: Ringing · Dull');
  const [knocks] = (asks.series as unknown as { ask: object[] }).ask;
  const named = step('knocks', { ask: [{ ...knocks, each: 'ball' }] });
  const balls = await bench(named);
  await balls.press('2', '1');
  await balls.waitFor('So far: ball 1: Ringing · ball 2: Dull');
});

test('a row of a table is found by typing it', async () => {
  const b = await bench(asks.table);
  await b.waitFor('6004');
  await b.press('6205');
  await b.waitFor((s) => !s.includes('6004'));
  await b.press('enter');
  expect(answer(b, 'size')).toBe('6205');
});

test('an unfinished row takes no answer; the options stay in reach', async () => {
  const b = await bench(asks.table);
  await b.press('62', 'enter');
  await b.waitFor('type its beginning');
  await b.press('backspace', 'backspace', 'down', 'enter');
  expect(answer(b, 'size')).toBe('not-listed');
});

test('undo takes back the last answer and says which', async () => {
  const b = await bench(asks.choice);
  await b.press('1');
  await b.waitFor('Last word');
  await b.press('esc', 'u');
  await b.waitFor('Take back “Colour: Red”? Press u once more');
  expect(b.kept.entries).toHaveLength(2);
  await b.press('x');
  expect(b.kept.entries).toHaveLength(2);
  await b.press('esc', 'u', 'u');
  await b.waitFor('Taken back: Colour: Red. Press / to bring it back.');
  await b.waitFor('Do colour now.');
  await b.press('/');
  await b.waitFor('Brought back: Colour: Red');
  await b.waitFor('Last word');
});

test('what is typed is kept when the window closes, a count too', async () => {
  const b = await bench(asks.quantity);
  await b.press('12.');
  expect(b.kept.drafts[0]?.text).toContain('12.');
  const again = await onStep({ model: pump([asks.quantity]), entries: b.kept.entries, drafts: b.kept.drafts });
  open.push(again);
  await again.waitFor('> 12.');
  await again.press('5', 'enter');
  expect(answer(again, 'bore')).toBe(12.5);
  expect(again.kept.drafts).toEqual([]);

  const counting = await bench(asks.counter);
  await counting.press('enter', 'enter');
  const counted = await onStep({ model: pump([asks.counter]), entries: begun(), drafts: counting.kept.drafts });
  open.push(counted);
  await counted.waitFor('2 of 3 turns');
});

test('a resize in mid-typing loses nothing', async () => {
  const b = await bench(asks.quantity);
  await b.press('12.');
  b.stdout.columns = 60;
  b.stdout.rows = 20;
  b.stack.changed();
  await b.waitFor((s) => s.split('\n').length <= 19);
  await b.press('5', 'enter');
  expect(answer(b, 'bore')).toBe(12.5);
});

test('a disk that is full keeps what was typed and lets one try again', async () => {
  let full = true;
  const b = await onStep({
    model: pump([asks.quantity, asks.end]),
    entries: begun(),
    trouble: () => (full ? 'This entry could not be saved because the disk is full.' : undefined),
  });
  open.push(b);
  await b.press('12.5', 'enter');
  await b.waitFor('the disk is full');
  await b.waitFor('> 12.5');
  expect(b.kept.entries).toHaveLength(1);
  full = false;
  await b.press('enter');
  expect(answer(b, 'bore')).toBe(12.5);
});

test('what stands alone among several is complete with its digit; behind another it is refused', async () => {
  const found = step('found', {
    ask: [
      {
        key: 'found',
        kind: 'series',
        label: 'What you find',
        least: 1,
        most: 3,
        options: [
          { value: 'none', label: 'Nothing wrong', alone: true },
          { value: 'rust', label: 'Rust' },
        ],
      },
    ],
  });
  const b = await bench(found);
  await b.waitFor('Nothing wrong');
  await b.press('1');
  expect(answer(b, 'found')).toEqual(['none']);
  const two = await bench(found);
  await two.waitFor('Nothing wrong');
  await two.press('2', '1');
  expect(answer(two, 'found')).toBeUndefined();
  await two.press('0');
  expect((await two.waitFor('stand beside')).replace(/\s+/g, ' ')).toContain('give it alone');
  expect(answer(two, 'found')).toBeUndefined();
});

test('a usual way to say it is put into the field by an arrow and changed there', async () => {
  const done = step('done', {
    ask: [{ key: 'cure', kind: 'text', label: 'What was done', offers: ['New ring', 'Joint sealed'] }],
  });
  const b = await bench(done);
  expect(await b.waitFor('What was done')).toContain('Joint sealed');
  await b.press('down', 'down', ...' twice', 'enter');
  expect(answer(b, 'cure')).toBe('Joint sealed twice');
  // Nothing is offered by Enter alone.
  const none = await bench(done);
  await none.waitFor('What was done');
  await none.press('enter');
  expect(answer(none, 'cure')).toBeUndefined();
});
