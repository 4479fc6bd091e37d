/** A seal is either off and refitted, or raised as staying in: no answer makes it both. */
import { describe, expect, it } from 'vitest';
import type { ReplayItem } from '../../src/engine/replay-file.js';
import { finished, Job, refused } from './good-job.js';

const raised: ReplayItem[] = [
  { raise: 'back-seal-stays', at: 'a' },
  { step: 'back-stays-why', at: 'a', answers: { stays_why: 'crimped', left_behind: '0.1 mL' } },
];
const raise = (job: Job): Job =>
  job.before('open-back', 'a', ...raised).drop((x) => x.at === 'a' && x.step === 'open-back');
/** Said to be still in the bearing, and then never cleaned nor refitted. */
const claimed = (seal: 'a.front' | 'a.back', job = new Job()): Job =>
  job
    .answer('seal-log', seal, { seal_condition: 'stays-in' })
    .answer('bearing-solvent', 'a', { clean_way: 'swab' })
    .drop((x) => x.at === seal && ['seal-solvent', 'seal-clean', 'refit'].includes(x.step));

describe('a back seal raised as staying in', () => {
  it('is not logged as one that is off, and so is never soaked through the bearing', () => {
    expect(refused(raise(new Job()).run())).toMatch(/Back seal and record disagree.*can’t be overruled/);
  });
  it('is asked neither for its own cleaning nor for its seat', () => {
    const soaked = claimed('a.back', raise(new Job())).after('seal-log', 'a.back', {
      step: 'seal-solvent',
      at: 'a.back',
      answers: { seal_way: 'soak' },
    });
    expect(refused(soaked.run())).toMatch(/does not apply/);
  });
  it('can’t be raised for a seal that came out', () => {
    const late = claimed('a.back').after('open-back', 'a', ...raised);
    expect(refused(late.run())).toMatch(/can’t happen here as the answers stand/);
  });
});

describe('a seal that was taken out', () => {
  it.each(['a.front', 'a.back'] as const)('is not passed over as still in the bearing: %s', (seal) => {
    expect(refused(claimed(seal).run())).toMatch(/can’t be overruled/);
  });
  it('is not passed over in front either where the back one stays', () => {
    const both = claimed('a.front', claimed('a.back', raise(new Job())));
    expect(refused(both.run())).toMatch(/Only a back seal may stay in.*can’t be overruled/);
  });
  it('is refitted where the other one stays', () => {
    const job = claimed('a.back', raise(new Job())).answer('dose', 'a', { dose_set: '1.6 mL' });
    job.answer('dose-check', 'a', { weigh_after: '11.16 g' }).answer('gap-fill', 'b', { weigh_before: '11.16 g' });
    job.answer('dose-check', 'b', { weigh_after: '10.26 g' });
    expect(finished(job.run())).toBe(true);
    expect(refused(job.answer('refit', 'a.front', { seated: 'stands-off' }).run())).toMatch(/not seated/);
  });
});
