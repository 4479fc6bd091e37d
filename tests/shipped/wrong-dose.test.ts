/** A dose that is wrong by a misread volume, bore or weight does not get through in silence. */
import { describe, expect, it } from 'vitest';
import { finished, Job, refused } from './good-job.js';

const never = /can’t be overruled/;
const sure = (gate: string) => ({ gate, reason: 'seen and accepted', initials: 'MN' });

/** Without scale and calliper: bore by rule, doses by travel, the print of the barrel as the only check. */
function byRule(bore: string, travel: readonly [string, string], print = '41.4 mm'): Job {
  const job = new Job().answer('tools', 'job', { scale_here: 'no', calliper_here: 'no' });
  job.step('syringe').answers = {
    syringe_bore_ruler: bore,
    syringe_holds: '5 mL',
    scale_length: print,
    loss: '0.2 mL',
    tip_bore: '2 mm',
  };
  for (const [i, place] of ['a', 'b'].entries()) {
    job.answer('dose-check', place, { given_travel: travel[i]! });
    job.drop((x) => x.at === place && (x.step === 'weigh-first' || x.step === 'weigh-half'));
    delete job.step('dose-check', place).answers?.weigh_after;
    delete job.step('dose-check', place).answers?.check_by;
    const residue = job.step('residue-amount', place);
    const { residue_by, ...rest } = residue.answers ?? {};
    residue.answers = { residue_by_hand: residue_by!, ...rest };
  }
  return job;
}

describe('a measured free volume', () => {
  // Room between the rings of a 6207, 35 x 72 x 17 mm: pi/4 x 17 x (72² - 35²) = 52.9 mL; two seals leave 0.31 x 0.71 of it,
  // 11.6 mL; 1.35 times that is 15.7 mL, 0.6 times it 7.0 mL. Arithmetic.
  const measured = (volume: string): Job =>
    new Job().answer('volume-known', 'a', { volume_by: 'measured', volume_measured: volume });
  it.each([
    ['1 mL', /far less than such a size has/],
    ['6.9 mL', /far less than such a size has/],
    ['15.8 mL', /more than such a size has/],
  ])('of %s needs a reason in a 6207', (volume, sentence) => {
    const said = refused(measured(volume).run());
    expect(said).toMatch(sentence);
    expect(said).not.toMatch(never);
  });
  it('is not needed to agree with an envelope that is not known', () => {
    // Room between the rings: pi/4 x 15 x (52² - 25²) = 24.5 mL; 0.31 x 0.71 of it are 5.4 mL, beside 4.6 mL. Arithmetic.
    const job = new Job().answer('size', 'b', {
      bearing_size: 'not-listed',
      measured_with: 'calliper',
      bore_calliper: '25 mm',
      outside_calliper: '52 mm',
      width_calliper: '15 mm',
    });
    const { volume_by, ...rest } = job.step('volume-known', 'b').answers ?? {};
    job.step('volume-known', 'b').answers = { volume_by_own: volume_by!, ...rest };
    expect(finished(job.run())).toBe(true);
    // (107.0 - 106.2) g / 0.85 g/mL = 0.94 mL. Arithmetic.
    expect(refused(job.answer('volume-known', 'b', { spare_filled: '107.0 g' }).run())).toMatch(/far less/);
  });
});

describe('a dose beside the old grease', () => {
  // Block of 13 x 11 x 9 mm = 1.287 mL; 20 % of 1 mL = 0.2 mL, that is 0.16 times as much. Arithmetic.
  it('needs a reason when it is far less than what came out', () => {
    const job = new Job()
      .answer('volume-known', 'a', { volume_by: 'measured', volume_measured: '1 mL' })
      .answer('dose', 'a', { dose_set: '0.2 mL' });
    job.step('volume-known', 'a').overrule = sure('not-smaller');
    const said = refused(job.run());
    expect(said).toMatch(/The dose set, 0\.2 mL, is 0\.1[56]\d* times what came out\. 0\.5 to 3/);
    expect(said).not.toMatch(never);
  });
});

describe('the bore of the syringe', () => {
  // 12.4 mm and 5 mL: pi/4 x 12.4² = 120.8 mm², so the print is 41.4 mm long. Travels 19.0 and 11.6 mm. Arithmetic.
  it('by rule alone is held against the print of the barrel', () => {
    // By rule the dose is less sure: the estimate is halved, 1100 h, and 1100 / 2.5 = 440 h.
    const good = byRule('12.4 mm', ['19 mm', '11.5 mm']).answer('next-inspection', 'job', { inspect_set: '440' });
    expect(finished(good.run())).toBe(true);
    // 15 mm: pi/4 x 15² x 41.4 = 7.3 mL. Arithmetic.
    const said = refused(byRule('15 mm', ['13 mm', '7.9 mm']).run());
    expect(said).toMatch(/By this bore the print would hold 7.3/);
    expect(said).not.toMatch(never);
    expect(refused(byRule('12.4 mm', ['19 mm', '11.5 mm'], '').run())).toMatch(/If nothing is printed/);
  });
  it('is asked for its print too when the scale went missing later', () => {
    const job = new Job().before('gap-fill', 'a', { raise: 'no-scale', at: 'job' }, { step: 'no-scale-then' });
    expect(refused(job.run())).toMatch(/Measure the syringe/);
  });
  it.each([
    ['syringe_bore_calliper', '12.4 +- 6 mm'],
    ['syringe_bore_calliper', '12.4 +- 0.9 mm'],
  ])('read as %s %s meters too coarsely', (key, bore) => {
    const said = refused(new Job().answer('syringe', 'job', { [key]: bore }).run());
    expect(said).toMatch(/the dose of [^ ]* mL can be off by \d+ %/);
    expect(said).not.toMatch(never);
  });
  it('of 4 mm read with a rule meters too coarsely', () => {
    // 0.5 mm of 4 mm is an eighth, so a quarter of the dose; the print of 5 mL is 398 mm long. Arithmetic.
    expect(refused(byRule('4 mm', ['183 mm', '111 mm'], '398 mm').run())).toMatch(
      /the dose of [^ ]* mL can be off by 2\d/,
    );
  });
});

describe('the weights of the syringe', () => {
  const moved = (): Job =>
    new Job()
      .answer('weigh-first', 'b', { weigh_before: '30 g' })
      .answer('dose-check', 'b', { weigh_after: '28.75 g' });
  it('have to meet between the two bearings', () => {
    expect(refused(moved().run())).toMatch(/is not next: “The weights do not agree”/);
    const other = moved().before('refit-back', 'a', { step: 'weights-between', answers: { between: 'other' } });
    expect(refused(other.run())).toMatch(/neither dose is proven/);
    const filled = moved().before('refit-back', 'a', { step: 'weights-between', answers: { between: 'refilled' } });
    expect(finished(filled.run())).toBe(true);
  });
  it('may meet the other way round', () => {
    const job = new Job()
      .answer('weigh-first', 'a', { weigh_before: '12.85 g' })
      .answer('dose-check', 'a', { weigh_after: '10.80 g' })
      .answer('weigh-first', 'b', { weigh_before: '14.10 g' })
      .answer('dose-check', 'b', { weigh_after: '12.85 g' });
    const steps = ['weigh-first', 'gap-fill', 'weigh-half', 'race-fill', 'dose-check'];
    const again = job.again(...steps.map((step) => [step, 'a'] as const));
    job.drop((x) => x.at === 'a' && steps.includes(x.step));
    expect(finished(job.after('dose-check', 'b', ...again).run())).toBe(true);
  });
});
