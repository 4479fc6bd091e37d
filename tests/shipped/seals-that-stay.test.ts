/** A seal is either off and refitted, or raised as staying in: nothing makes it both, and nothing makes it neither. */
import { describe, expect, it } from 'vitest';
import type { ReplayItem } from '../../src/engine/replay/replay-file.js';
import { closed } from './closures.js';
import { finished, Job, refused } from './good-job.js';

const raised: ReplayItem[] = [
  { raise: 'back-seal-stays', at: 'a' },
  { step: 'back-stays-why', at: 'a', answers: { stays_why: 'crimped', left_by: 'estimated', left_entered: '0.1 mL' } },
];
const raise = (job: Job): Job =>
  job.before('open-back', 'a', ...raised).drop((x) => x.at === 'a' && x.step === 'open-back');
const about = ['seal-log', 'seal-solvent', 'seal-clean'];
/** The back seal stays in, and nothing is said about it as if it were off. */
const stays = (way = 'swab'): Job =>
  raise(new Job())
    .drop((x) => x.at === 'a.back' && about.includes(x.step))
    .drop((x) => x.at === 'a' && x.step === 'refit-back')
    .answer('bearing-solvent', 'a', { clean_way: way })
    // 2.26 mL less 0.1 mL; 2.2 mL x 0.90 g/mL = 1.98 g, then 1.25 g.
    .answer('dose', 'a', { dose_set: '2.2 mL' })
    .answer('dose-check', 'a', { weigh_after: '12.12 g' })
    .answer('weigh-first', 'b', { weigh_before: '12.12 g' })
    .answer('dose-check', 'b', { weigh_after: '10.87 g' })
    .answer('next-inspection', 'job', { inspect_set: '200' });

describe('a back seal raised as staying in', () => {
  it('goes through swabbed, and never soaked through the bearing', () => {
    expect(finished(stays().run())).toBe(true);
    expect(refused(stays('drip').run())).toMatch(/The seal left inside would lie in a solvent.*can’t be overruled/);
  });
  it.each(about)('is not asked about as one that is off: %s', (step) => {
    const good = new Job();
    const [log] = good.again([step, 'a.back']);
    const job = stays().before('bearing-solvent', 'a', log!);
    expect(refused(job.run())).toMatch(/does not apply/);
  });
  it('is not pressed in', () => {
    const [back] = new Job().again(['refit-back', 'a']);
    expect(refused(stays().before('refit', 'a.front', back!).run())).toMatch(/does not apply/);
  });
  it('can’t be raised for a seal that came out', () => {
    const late = new Job().after('open-back', 'a', ...raised);
    expect(refused(late.run())).toMatch(/can’t happen here as the answers stand/);
  });
  it('can’t be raised where no back seal is', () => {
    const front = closed({ front: 'gap', back: 'none' });
    expect(refused(front.before('count-open', 'a', ...raised).run())).toMatch(/can’t happen here as the answers stand/);
  });
});

describe('a seal that was taken out', () => {
  it.each(['a.front', 'a.back'] as const)('can’t be called still in the bearing: %s', (seal) => {
    const job = new Job().answer('seal-log', seal, { seal_condition: 'stays-in' });
    expect(refused(job.run())).toMatch(/“stays-in” is none of the choices/);
  });
  it.each([
    ['refit', 'a.front'],
    ['refit-back', 'a'],
  ] as const)('is refitted before anything turns: %s at %s', (step, at) => {
    const job = new Job().drop((x) => x.at === at && x.step === step);
    expect(refused(job.run())).toMatch(/is not next: “(Front|Rotor-side) seal in”/);
  });
  it('goes in at the back first, while the balls can still be reached past', () => {
    const job = new Job();
    const [front] = job.again(['refit', 'a.front']);
    expect(refused(job.before('refit-back', 'a', front!).run())).toMatch(/is not next: “Rotor-side seal in”/);
  });
  it('is refitted in front where the back one stays', () => {
    const job = stays().drop((x) => x.at === 'a.front' && x.step === 'refit');
    expect(refused(job.run())).toMatch(/is not next/);
    expect(refused(stays().answer('refit', 'a.front', { seated: 'stands-off' }).run())).toMatch(/not seated/);
  });
});
