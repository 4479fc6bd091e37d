/** A whole job through the screens, at every size that is promised, with drawn and with typed signs. */
import { expect, test } from 'vitest';
import { long } from '../setup/size.js';
import { openBench } from './bench.js';
import { shippedModel, walk } from './walk-job.js';

const windows = [
  { cols: 80, rows: 24, ascii: false },
  { cols: 60, rows: 20, ascii: false },
  { cols: 120, rows: 40, ascii: false },
  { cols: 80, rows: 24, ascii: true },
  { cols: 60, rows: 20, ascii: true },
];
/** In one job the window changes from screen to screen; the long run does a job in each as well, and by ink. */
const jobs = [
  { windows, ink: false },
  ...(long ? [windows.slice(0, 3), windows.slice(3), ...windows.map((w) => [w])] : []).map((w) => ({
    windows: w,
    ink: true,
  })),
];

test.each(jobs)('a whole job in $windows.length windows, by ink: $ink', async ({ windows, ink }) => {
  const [first] = windows;
  const b = openBench({ model: shippedModel(), ...first, byInk: ink });
  await b.ready();
  await b.waitFor('Start a job');
  await b.press('1');
  await b.waitFor('Name of the job');
  await b.press('College test bench', 'enter', 'AP', 'enter', '3', 'AP', 'enter', 'MN', 'enter');
  await b.waitFor('Before you begin');
  await b.press('enter');
  await b.waitFor('Name the machine');
  await walk(b, windows);
  await b.waitFor('This job is finished.');
  expect(b.desk().state.finished).toBe(true);
  b.end();
});
