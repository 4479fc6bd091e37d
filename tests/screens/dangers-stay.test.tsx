/** While hands work, what kills or maims stands there with what to do about it, and what is confirmed is seen. */
import { readFileSync } from 'node:fs';
import { afterEach, describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import type { ReplayFile } from '../../src/engine/replay/replay-file.js';
import { fillIn } from '../../src/engine/values/texts.js';
import { sayOf } from '../../src/procedure/caution.js';
import { firstSentence } from '../../src/screens/words/blocks.js';
import { signalled } from '../../src/screens/words/signal-word.js';
import { modelFor, root } from '../procedure/library.js';
import { entriesBefore } from '../pty/job-at.js';
import { type Bench, openBench } from './bench.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});
const file = (name: string): ReplayFile =>
  parse(readFileSync(`${root}procedures/practice/${name}.replay.yaml`, 'utf8')) as ReplayFile;
const college = file('college-30kw');
const magnets = file('weekend.caught');
const model = modelFor(college.procedure);

/** The bench at a step, just before what was recorded of it as `key`, or before it was said to be done. */
async function at(job: ReplayFile, step: string, key: string | undefined, [cols, rows]: readonly [number, number]) {
  const all = entriesBefore(job, undefined);
  const n = all.findIndex((e) =>
    key === undefined ? e.kind === 'done' && e.step === step : e.kind === 'answer' && e.step === step && e.key === key,
  );
  const next = all[n];
  if (!next || !('place' in next)) throw new Error(`no ${key} of ${step}`);
  const b = openBench({ model, entries: all.slice(0, n), cols, rows, at: next.at });
  open.push(b);
  await b.ready();
  await b.press('1');
  await b.waitFor((s) => !s.includes('Start a job'));
  await b.press('enter');
  const { state } = b.desk();
  const view = state.view(step, next.place ?? 'job');
  if (!view) throw new Error(step);
  const filled = (text: string): string => fillIn(state.values, text, view.place);
  const grave = view.cautions
    .map((c) => signalled(filled(sayOf(c))))
    .filter(({ word }) => word === 'DANGER' || word === 'WARNING')
    .map(({ text }) => firstSentence(text));
  return { flat: b.screen().replace(/\s+/g, ' '), grave, tell: filled(view.step.tell ?? ''), screen: b.screen() };
}

const small = [60, 20] as const;
const usual = [80, 24] as const;

describe.each([small, usual])('%i by %i', (...size) => {
  test.each([
    ['run-in-plan', 'drive_way', college],
    ['run-in-log', 'temp_a', college],
    ['run-in-log', 'sound', college],
    ['standstill', 'stop_dead', college],
    ['vapour', 'room', college],
    ['magnets', 'magnets_found', magnets],
    ['reassemble', 'grounding', magnets],
  ] as const)('%s: each grave danger stands whole while %s is asked', async (step, key, job) => {
    const { flat, grave } = await at(job, step, key, size);
    expect(grave.length).toBeGreaterThan(0);
    for (const g of grave) expect(flat).toContain(g);
  });
  test.each([
    ['run-in-plan', college],
    ['vapour', college],
    ['cover-magnets', magnets],
    ['reassemble', magnets],
  ] as const)('%s: what is confirmed stands there whole, and each grave danger too', async (step, job) => {
    const { flat, grave, tell } = await at(job, step, undefined, size);
    expect(flat).toContain(tell);
    for (const g of grave) expect(flat).toContain(g);
  });
});

test.each([
  [
    'run-in-plan',
    ['Bolted down', 'yes', 'Temperature to stop', '70 °C', 'It can be driven At any speed, up to the top'],
  ],
  ['reassemble', ['Film and tape are off', 'Reassembled with its', 'yes']],
  ['standstill', ['Supply Locked out', 'Terminals Zero on AC']],
] as const)('%s: the answers that its stops hang on stand at the 9 of a small window', async (step, said) => {
  const { flat, grave, tell, screen } = await at(college, step, undefined, small);
  for (const text of [...said, tell, ...grave]) expect(flat).toContain(text);
  // The title stands in the head, where no line is too few for it.
  expect(screen.split('\n')[0]).toContain(model.steps.get(step)!.title);
});

test.each([small, usual])('at %i by %i both answers about the kit are seen below it', async (...size) => {
  const { flat } = await at(college, 'kit', 'kit_ready', size);
  expect(flat).toMatch(/1 Yes 2 No/);
  expect(flat).toContain('safety data sheets, grease data sheet, catalogue');
});

// A row fewer than the smallest window: there stands what an invented rotor shows.
test('the kit that is answered for is in sight to its last thing', async () => {
  const { flat } = await at(college, 'kit', 'kit_ready', [60, 19]);
  for (const { things } of model.steps.get('kit')!.lays_out ?? []) expect(flat).toContain(things.join(', '));
});

test('the figure that a confirmation speaks of stays', async () => {
  const { flat } = await at(college, 'vapour', undefined, small);
  expect(flat).toContain('Vapour against the limits below the limit for a working day');
});
