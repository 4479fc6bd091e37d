/** A stop and its ways on are seen at once, however long a list stands above them. */
import { readFileSync } from 'node:fs';
import { afterEach, expect, test } from 'vitest';
import { parse } from 'yaml';
import type { ReplayFile } from '../../src/engine/replay/replay-file.js';
import { modelFor, root } from '../procedure/library.js';
import { entriesBefore } from '../pty/job-at.js';
import { type Bench, onStep, openBench } from './bench.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});
const college = parse(readFileSync(`${root}procedures/practice/college-30kw.replay.yaml`, 'utf8')) as ReplayFile;

test.each([
  [60, 20],
  [80, 24],
])('at %i by %i the kit that was read gives way to what can be done about what lacks', async (cols, rows) => {
  const all = entriesBefore(college, undefined);
  const n = all.findIndex((e) => e.kind === 'answer' && e.key === 'kit_ready');
  const b = openBench({ model: modelFor(college.procedure), entries: all.slice(0, n), cols, rows, at: all[n]!.at });
  open.push(b);
  await b.ready();
  await b.press('1');
  await b.waitFor((s) => !s.includes('Start a job'));
  await b.press('enter');
  expect(b.screen()).toContain('lidded metal bin');
  await b.press('2');
  if (b.screen().includes('Serial numbers')) await b.press('enter', 'enter');
  const screen = b.screen();
  expect(screen).toContain('STOP');
  expect(screen).toMatch(/1 {2}Answer again/);
  expect(screen).toMatch(/Continue anyway/);
  expect(screen).toMatch(/Something unforeseen happened/);
});

test('in a small window the list is read to its end before it is answered for', async () => {
  const all = entriesBefore(college, undefined).map((e) => (e.kind === 'job' ? { ...e, name: 'Bench job' } : e));
  const n = all.findIndex((e) => e.kind === 'answer' && e.key === 'kit_ready');
  const b = await onStep({
    model: modelFor(college.procedure),
    entries: all.slice(0, n),
    cols: 40,
    rows: 12,
    at: all[n]!.at,
  });
  open.push(b);
  let read = b.screen();
  expect(read).toContain('Lay all this on the bench');
  await b.press('1');
  await b.waitFor('Read on to its end first, with Space.');
  expect(b.kept.entries.length).toBe(n);
  for (let i = 0; i < 9 && !/1 +Yes/.test(b.screen()); i++) {
    await b.press(' ');
    read += b.screen();
  }
  for (const thing of ['wooden', 'plug', 'bags', 'syringe', 'catalogue'])
    expect(read.replace(/\s+/g, ' ')).toContain(thing);
  expect(b.screen()).toMatch(/All of this lies here/);
  await b.press('1');
  expect(b.kept.entries.at(-1)).toMatchObject({ kind: 'answer', key: 'kit_ready', value: true });
});
