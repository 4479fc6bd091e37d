/** What is due and the history of a rotor, from the shell, over stored jobs of an invented rotor. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { Draft } from '../../src/engine/journal/entry.js';
import { replay } from '../../src/engine/replay/replay.js';
import { type ReplayFile, replaySchema } from '../../src/engine/replay/replay-file.js';
import { readDocument } from '../../src/procedure/document.js';
import { summaryOf } from '../../src/screens/words/summary.js';
import { newContent } from '../../src/store/job-file.js';
import { openStore } from '../../src/store/open-store.js';
import { writeTransfer } from '../../src/store/transfer-job.js';
import { allModels } from '../training/library.js';
import { goodFile, newFolder, run } from './shell.js';

const file = readDocument<ReplayFile>(readFileSync(goodFile, 'utf8'), goodFile, replaySchema).value!;

/** The good job as a real one, begun then, its machine running so many hours a day. */
async function put(data: string, start: string, aDay: number | undefined): Promise<void> {
  const steps = file.steps.map((s) => {
    if (!('step' in s) || s.step !== 'next-inspection') return s;
    const { hours_a_day: _, ...answers } = s.answers ?? {};
    return { ...s, answers: aDay === undefined ? answers : { ...answers, hours_a_day: aDay } };
  });
  const done = replay(allModels.get(file.procedure)!, { ...file, invented: false, start, steps });
  if (!done.ok) throw new Error(done.message);
  const [head, ...rest] = done.state.entries;
  const first = { ...(head as Extract<Draft, { kind: 'job' }>), seq: 1, at: head?.at ?? '' };
  const out = join(newFolder(), 'job.json');
  writeTransfer(
    newContent('made-for-a-test', `Job of ${start.slice(0, 10)}`, [first, ...rest], summaryOf(done.state, 'job')),
    out,
  );
  const taken = await openStore(data).importJob(out);
  if (!taken.ok) throw new Error(taken.trouble.sentence);
}

test('practice is told not to be counted, and a calendar without a day says so', async () => {
  const data = newFolder();
  const none = 'No rotor has a next look yet; a finished job gives it one.';
  expect((await run('due', '--data', data)).out.trim()).toBe(none);
  const made = await openStore(data).create('Try', {
    ...{ kind: 'job', name: 'Try', procedure: 'regrease-in-place', version: '1', hash: 'h', by: 'AP' },
    practice: 'quiet-one',
  });
  if (!made.ok) throw new Error(made.trouble.sentence);
  await made.value.close();
  expect((await run('due', '--data', data)).out.trim()).toBe(`${none} Practice jobs are not counted here.`);
  expect((await run('history', '--data', data)).err).toContain('Practice jobs are not counted here.');
  const file = join(newFolder(), 'looks.ics');
  expect((await run('due', '--data', data, '--format', 'ics', '--out', file)).out).toContain(
    'no rotor has a look with a date, so no day is in it',
  );
});

test('two jobs of one rotor: one line by the later one, a history, a calendar', async () => {
  const data = newFolder();
  expect(await run('due', '--data', data)).toMatchObject({ code: 0, out: expect.stringContaining('No rotor') });
  await put(data, '2026-03-02T08:00:00Z', 8);
  await put(data, '2030-03-04T08:00:00Z', 8);
  const list = JSON.parse((await run('due', '--data', data, '--json')).out) as {
    rotors: { due: string; rotor: string }[];
  };
  expect(list.rotors).toHaveLength(1);
  expect(list.rotors[0]?.due).toMatch(/^2030-/);
  const { rotor } = list.rotors[0]!;
  const history = await run('history', rotor, '--data', data);
  expect(history.err).toBe('');
  expect(history.out).toMatch(/R Regreased in place/);
  expect(history.out).toMatch(/\d Mar 2026[\s\S]*\d Mar 2030/);
  expect(history.out).toContain('Warmer than the room at the end of the run-in');
  expect((await run('due', '--data', data, '--format', 'ics')).out).toContain('BEGIN:VEVENT');
  expect(await run('due', '--data', data, '--format', 'pdf')).toMatchObject({
    code: 2,
    err: expect.stringContaining('choose text'),
  });
  expect(await run('history', 'nobody', '--data', data)).toMatchObject({
    code: 1,
    err: expect.stringContaining(rotor),
  });
});

test('without hours a day there is no date, and that is said', async () => {
  const data = newFolder();
  await put(data, '2026-03-02T08:00:00Z', undefined);
  expect((await run('due', '--data', data)).out).toContain('nobody said how long it runs a day');
});
