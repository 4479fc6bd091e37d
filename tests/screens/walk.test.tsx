/** A whole job through the screens, at every size that is promised. */
import { expect, test } from 'vitest';
import { openBench } from './bench.js';
import { shippedModel, walk } from './walk-job.js';

test.each([
  [80, 24, false],
  [60, 20, false],
  [120, 40, false],
  [80, 24, true],
] as const)('a whole job at %i by %i, ascii %s', async (cols, rows, ascii) => {
  const b = openBench({ model: shippedModel(), cols, rows, ascii });
  await b.ready();
  await b.waitFor('Start a job');
  await b.press('1');
  await b.waitFor('Name of the job');
  await b.press('College test bench', 'enter', 'AP', 'enter', '3', 'AP', 'enter', 'MN', 'enter');
  await b.waitFor('Before you begin');
  await b.press('enter');
  await b.waitFor('Name the machine');
  await walk(b);
  await b.waitFor('This job is finished.');
  expect(b.desk().state.finished).toBe(true);
  b.end();
});
