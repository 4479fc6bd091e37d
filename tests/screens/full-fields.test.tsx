/** What a field can't hold is told as it happens and once more at Enter; what is half typed for the sheet is kept. */
import { afterEach, expect, test } from 'vitest';
import { type Bench, onStep } from './bench.js';
import { asks, begun, pump, step } from './pump.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});
async function bench(first: Record<string, unknown>, more: Partial<Parameters<typeof onStep>[0]> = {}): Promise<Bench> {
  const b = await onStep({ model: pump([first, asks.end]), entries: begun(), ...more });
  open.push(b);
  return b;
}
/** As a terminal hands over what is pasted. */
const paste = (text: string): string => `\x1b[200~${text}\x1b[201~`;
const serial = step('serial', { ask: [{ key: 'serial', kind: 'text', label: 'Serial number', longest: 12 }] });

test('a text that is typed past its end is told at the key that no longer fits; Enter records nothing then', async () => {
  const b = await bench(serial);
  await b.waitFor('Serial number');
  await b.press(...'AB1234567890'.split(''));
  expect(b.screen()).not.toContain('Full');
  await b.press('X');
  await b.waitFor('Full: 12 characters are all that fit. Left out: “X”.');
  await b.press('Y', 'enter');
  await b.waitFor('Left out: “XY”. Shorten it with Backspace, or press Enter again to record it without that.');
  expect(b.kept.entries).toHaveLength(1);
  await b.press('enter');
  expect(b.kept.entries.slice(1)).toMatchObject([{ kind: 'answer', value: 'AB1234567890' }]);
});

test('what was shortened afterwards is recorded at once', async () => {
  const b = await bench(serial);
  await b.waitFor('Serial number');
  await b.press(paste('AB1234567890X'));
  await b.waitFor('Left out: “X”.');
  await b.press('backspace', 'X', 'enter');
  expect(b.kept.entries.slice(1)).toMatchObject([{ kind: 'answer', value: 'AB123456789X' }]);
});

test('a figure is no other', async () => {
  const b = await bench(asks.number);
  await b.waitFor('Bolts');
  await b.press(paste('1'.repeat(41)));
  await b.waitFor('Full: 40 characters are all that fit. Left out: “1”.');
  await b.press('enter');
  await b.waitFor('press Enter again to record it without that');
});

test('the end of a note that is too long is named, and the note can be taken as it stands', async () => {
  const b = await bench(asks.choice);
  await b.waitFor('Blue');
  await b.press('m', '1');
  await b.waitFor('A note for the job sheet');
  await b.press(paste(`${'n'.repeat(2000)}${'o'.repeat(200)}THE END: the lock stays on`));
  const told = 'Full: 2000 characters are all that fit. Left out: “… ooooTHE END: the lock stays on” (226 characters).';
  await b.waitFor(told);
  await b.press('enter');
  await b.waitFor('press Enter again to record it without that');
  expect(b.kept.entries).toHaveLength(1);
  await b.press('enter');
  expect(b.kept.entries.slice(1)).toMatchObject([{ kind: 'note', text: 'n'.repeat(2000) }]);
});

test('a finding before the initials of who signs is told what does not fit', async () => {
  const held = step('held', {
    ask: [{ key: 'looked', kind: 'yes-no', label: 'Looked at it' }],
    hold: { say: 'The mentor looks too.', self_check: 'I looked twice.', own: 'Depth of the mark' },
  });
  const looked = { kind: 'answer', step: 'held', place: 'job', key: 'looked', value: true };
  const b = await bench(held, { entries: begun({ apprentice: 'AP', mentor: 'MN' }, [looked]) });
  await b.waitFor('Depth of the mark');
  await b.press(paste(`${'deep '.repeat(12)}MN`));
  await b.waitFor('Full: 60 characters are all that fit. Left out: “MN”.');
  await b.press('enter');
  await b.waitFor('press Enter again to record it without that');
});

test('a half typed note is there again after Esc and after the window was closed', async () => {
  const b = await bench(asks.choice);
  await b.waitFor('Blue');
  await b.press('m', '1');
  await b.waitFor('A note for the job sheet');
  await b.press(...'lock 7 stays'.split(''), 'esc');
  await b.waitFor('What you typed is kept: it stands there when you come back.');
  const again = await bench(asks.choice, { drafts: b.kept.drafts });
  await again.waitFor('Blue');
  await again.press('m', '1');
  await again.waitFor('lock 7 stays');
  await again.press('enter');
  expect(again.kept.entries.slice(1)).toMatchObject([{ kind: 'note', text: 'lock 7 stays' }]);
  expect(again.kept.drafts).toEqual([]);
  await again.press('m', '1');
  await again.waitFor('A note for the job sheet');
  expect(again.screen()).not.toContain('> lock 7');
});

test('a long note is said in two lines where it was recorded last', async () => {
  const long = Array.from({ length: 60 }, (_, i) => `word${i}`).join(' ');
  const note = { kind: 'note', place: 'job', text: long };
  const b = await bench(asks.choice, { entries: begun({}, [note]) });
  await b.waitFor('Recorded Note: word0 word1');
  expect(b.screen()).toContain(' …');
  expect(b.screen()).not.toContain('word40');
});
