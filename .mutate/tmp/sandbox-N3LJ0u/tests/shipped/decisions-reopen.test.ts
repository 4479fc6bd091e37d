/** A correction of what a decision rests on asks for the decision and for its signature again. */
// @ts-nocheck

import { describe, expect, it } from 'vitest';
import { sheetOf } from '../../src/sheet/sheet.js';
import { Job } from './good-job.js';

/** The good job at a speed, up to its doses, then with its speed corrected. */
function corrected(job: Job, from: string, to: string, last: string) {
  job.answer('duty', 'job', { top_speed: from });
  const i = job.items.findLastIndex((x) => 'step' in x && x.step === last);
  job.items.splice(i + 1);
  const before = job.run();
  job.items.push({
    correct: { step: 'duty', key: 'top_speed', value: to, reason: 'read the plate again' },
  });
  return { before, after: job.run() };
}

describe('a speed corrected after the dose was signed', () => {
  // 6206: dm = (30 + 62) / 2 = 46 mm; 14000 rpm x 46 = 644 000, 4000 rpm x 46 = 184 000: across 500 000. Arithmetic.
  it.each([
    ['4000', 'stopped'],
    ['12000', 'reopened'],
  ])('to %s, reopens how full, the dose and its signature', (to, share) => {
    const { before, after } = corrected(new Job(), '14000', to, 'dose');
    expect(before.state.view('dose', 'a')?.signed?.initials).toBe('MN');
    expect(after.ok).toBe(true);
    const own = (id: string) => after.state.board.own(after.state.model.steps.get(id)!, 'a');
    expect(own('share').status).toBe(share);
    expect(own('dose').status).toBe('reopened');
    expect(own('dose').signed).toBeUndefined();
    const told = sheetOf(after.state).signatures.find((s) => s.step === 'dose' && s.place === 'a');
    expect(told?.stands).toBe(false);
  });
});
