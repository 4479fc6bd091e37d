/** A correction of what a decision rests on asks for the decision and for its signature again. */
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

/** 18 %, which the band of high speed holds and that of medium speed does not: 18 % of 11.3 mL is 2.03 mL. */
const fuller = (): Job =>
  new Job().answer('share', 'a', { share_set: '18 %' }).answer('dose', 'a', { dose_set: '2.1 mL' });

describe('a speed corrected after the dose was signed', () => {
  // 6207: dm = (35 + 72) / 2 = 53.5 mm; 14000 rpm x 53.5 = 749 000, 4000 rpm x 53.5 = 214 000: across 500 000. Arithmetic.
  it.each([
    ['4000', 'stopped'],
    ['12000', 'reopened'],
  ])('to %s, reopens how full, the dose and its signature', (to, share) => {
    const { before, after } = corrected(fuller(), '14000', to, 'dose');
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
