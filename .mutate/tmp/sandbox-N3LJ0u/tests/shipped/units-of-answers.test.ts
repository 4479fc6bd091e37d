/** Numbers take only the words that belong behind them, and are shown with the unit that they have. */
// @ts-nocheck

import { describe, expect, it } from 'vitest';
import { sheetOf } from '../../src/sheet/sheet.js';
import { toMarkdown } from '../../src/sheet/to-markdown.js';
import { finished, inspectionJob, Job, refused } from './good-job.js';

describe('hours', () => {
  it('are typed bare or as hours, and as nothing else', () => {
    const set = (inspect_set: string): Job => new Job().answer('next-inspection', 'job', { inspect_set });
    for (const right of ['500', '500 h', '500 hours']) expect(finished(set(right).run())).toBe(true);
    for (const wrong of ['500 balls', '500 pcs', '500 d', '500 rpm'])
      expect(refused(set(wrong).run())).toMatch(/does not belong behind it; type a number of hours/);
  });
  it('of the inspection too', () => {
    const run = (hours_run: string): Job => inspectionJob().answer('since-then', 'job', { hours_run });
    expect(finished(run('210 h').run())).toBe(true);
    expect(refused(run('210 balls').run())).toMatch(/type a number of hours/);
  });
});

describe('counts', () => {
  it('of balls may be called so, of stages not', () => {
    const job = new Job().answer('balls-count', 'a', { balls: '9 balls' });
    expect(finished(job.run())).toBe(true);
    const rows = job.step('run-in-log').rows as unknown as Record<string, string>[];
    rows[0]!.log_stage = '1 balls';
    expect(refused(job.run())).toMatch(/type a bare number such as 1/);
  });
});

describe('money', () => {
  it.each(['640 rpm', '640 min', '640 ppm', '640 lbs'])('is not %s', (pair_price) => {
    expect(refused(new Job().answer('costs', 'job', { pair_price }).run())).toMatch(/Price of a proven pair: /);
  });
  it('may carry the name of its currency', () => {
    const job = new Job().answer('costs', 'job', { pair_price: '640 EUR', job_cost: '280 EUR' });
    expect(finished(job.run())).toBe(true);
  });
});

describe('travel for each mL', () => {
  // 1000 / (pi/4 x 12.4²) = 8.28 mm. Arithmetic.
  it('is told in mm for each mL', () => {
    const sheet = toMarkdown(sheetOf(new Job().run().state)).replaceAll('\\', '');
    expect(sheet).toMatch(/Travel for each mL\D{0,20}8\.28 ± 0\.13 mm\/mL/);
  });
});
