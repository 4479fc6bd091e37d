/** A whole job through the screens, at every size that is promised. */
// @ts-nocheck

import { expect, test } from 'vitest';
import { long } from '../setup/size.js';
import { openBench } from './bench.js';
import { shippedModel, walk } from './walk-job.js';

const sizes = [
  [80, 24],
  [60, 20],
  [120, 40],
] as const;
/** In one job the window changes from screen to screen; the long run does a job at each size as well. */
const jobs = [
  { sizes, ascii: false },
  { sizes: [sizes[0], sizes[1]], ascii: true },
  ...(long ? sizes.map((size) => ({ sizes: [size], ascii: false })) : []),
  ...(long ? [{ sizes: [sizes[0]], ascii: true }] : []),
];

test.each(jobs)('a whole job at $sizes, ascii $ascii', async ({ sizes, ascii }) => {
  const [[cols, rows] = [80, 24]] = sizes;
  const b = openBench({ model: shippedModel(), cols, rows, ascii });
  await b.ready();
  await b.waitFor('Start a job');
  await b.press('1');
  await b.waitFor('Name of the job');
  await b.press('College test bench', 'enter', 'AP', 'enter', '3', 'AP', 'enter', 'MN', 'enter');
  await b.waitFor('Before you begin');
  await b.press('enter');
  await b.waitFor('Name the machine');
  await walk(b, sizes);
  await b.waitFor('This job is finished.');
  expect(b.desk().state.finished).toBe(true);
  b.end();
});
