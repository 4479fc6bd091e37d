/** The large figure while grease is pushed: what is still to push now, never what is in already. */
import { describe, expect, it } from 'vitest';
import type { State } from '../../src/engine/state/state.js';
import { fillIn } from '../../src/engine/values/texts.js';
import { Job, model } from './good-job.js';

// A bore of 12.4 mm has 120.76 mm²: 8.281 mm of travel for 1 mL. Dose of a 2.3 mL, 19.05 mm in all, 9.52 mm a round;
// of b 1.4 mL, 11.59 mm in all, 5.80 mm a round. Arithmetic.
const whole = { a: 19.05, b: 11.59 } as const;
const round = { a: 9.52, b: 5.8 } as const;
type Place = keyof typeof whole;

function reached(job: Job, step: string, at: Place): State {
  job.items.length = job.items.findIndex((x) => 'step' in x && x.step === step && x.at === at);
  const out = job.run();
  expect(out.ok ? 'went through' : out.message).toBe('went through');
  return out.state;
}
const unweighed = (): Job => {
  const job = new Job();
  for (const x of job.items) if ('step' in x && x.step === 'weigh-half') x.answers = {};
  return job;
};
const mm = (state: State, key: string, at: Place): unknown => {
  const v = state.values.get(key, at);
  return 'value' in v && typeof v.value === 'number' ? Math.round(v.value * 100) / 100 : v;
};
const ran = (at: Place, short: string) => [
  { raise: 'grease-ran-out', at },
  { step: 'ran-out', at, answers: { short_travel: short, ran_empty: '11.20 g', ran_refilled: '12.90 g' } },
];

describe('the large figure', () => {
  it('is the first of each page where grease is pushed', () => {
    expect(model.steps.get('gap-fill')?.show?.[0]).toBe('half_now');
    expect(model.steps.get('race-fill')?.show?.[0]).toBe('still_to_push');
    expect(model.steps.get('top-up')?.show?.[0]).toBe('still_to_push');
    expect(model.steps.get('ran-out')?.show?.[0]).toBe('give_now');
  });
  it.each(['a', 'b'] as const)('of round 2 at %s is the travel less what round 1 gave', (at) => {
    const state = reached(unweighed(), 'race-fill', at);
    expect(mm(state, 'still_to_push', at)).toBeCloseTo(round[at], 1);
    expect(mm(state, 'travel_here', at)).toBeCloseTo(whole[at], 1);
  });
  it('goes by the scale where round 1 was weighed', () => {
    // 1.08 g of 0.90 g/mL are 1.2 mL, 9.94 mm of travel: 19.05 - 9.94 = 9.11 mm. Arithmetic.
    const job = new Job().answer('weigh-first', 'a', { weigh_before: '14.10 g' });
    job.answer('weigh-half', 'a', { weigh_half: '13.02 g' });
    expect(mm(reached(job, 'race-fill', 'a'), 'still_to_push', 'a')).toBeCloseTo(9.11, 1);
  });
  it('is not known before round 1 is done', () => {
    expect(reached(unweighed(), 'gap-fill', 'a').values.get('still_to_push', 'a')).not.toHaveProperty('value');
  });
});

describe('after the syringe ran empty', () => {
  it.each(['a', 'b'] as const)('in round 2 at %s, the refill gives the rest and nothing is left to push', (at) => {
    const state = reached(unweighed().before('race-fill', at, ...ran(at, '3 mm')), 'race-fill', at);
    expect(mm(state, 'give_now', at)).toBe(3);
    expect(mm(state, 'still_to_push', at)).toBe(0);
    expect(fillIn(state.values, model.steps.get('race-fill')?.do ?? '', at)).toMatch(/all is in now: push no more\.$/);
  });
  it('in round 1, the refill gives the rest of round 1 and round 2 still has its half', () => {
    // The mark is the end of both rounds: 8 mm short of it, 5.80 mm are round 2, so 2.20 mm of round 1.
    const early = (): Job => unweighed().before('gap-fill', 'b', ...ran('b', '8 mm'));
    const first = reached(early(), 'gap-fill', 'b');
    expect(mm(first, 'give_now', 'b')).toBeCloseTo(2.2, 1);
    expect(mm(first, 'half_now', 'b')).toBe(0);
    const second = reached(early(), 'race-fill', 'b');
    expect(mm(second, 'still_to_push', 'b')).toBeCloseTo(5.8, 1);
    expect(fillIn(second.values, model.steps.get('race-fill')?.do ?? '', 'b')).toMatch(
      /Do not use the tape mark now\.$/,
    );
  });
});

describe('a refill just before the end of round 1', () => {
  it('leaves nothing to push in either round, since it gave all of the rest', () => {
    // 6.1 mm short of the mark is 0.3 mm before the end of round 1, within what a rule tells: the refill gives all 6.1 mm.
    const job = (): Job => unweighed().before('gap-fill', 'b', ...ran('b', '6.1 mm'));
    expect(mm(reached(job(), 'gap-fill', 'b'), 'give_now', 'b')).toBe(6.1);
    expect(mm(reached(job(), 'gap-fill', 'b'), 'half_now', 'b')).toBe(0);
    expect(mm(reached(job(), 'race-fill', 'b'), 'still_to_push', 'b')).toBe(0);
  });
});

describe('where no weight was taken before', () => {
  it('no weight is asked after, nor at a refill: the travel is', () => {
    const job = unweighed()
      .answer('weigh-first', 'a', { weigh_before: '' })
      .drop((x) => x.step === 'weigh-half' && x.at === 'a')
      .before(
        'race-fill',
        'a',
        { raise: 'grease-ran-out', at: 'a' },
        { step: 'ran-out', at: 'a', answers: { short_travel: '3 mm' } },
      );
    const check = job.step('dose-check', 'a');
    check.answers = { given_travel: '19.0 mm' };
    const state = reached(job, 'weigh-first', 'b');
    // 19.0 mm of 8.281 mm/mL are 2.294 mL. Arithmetic.
    expect(state.values.get('dose_given', 'a')).toMatchObject({ value: expect.closeTo(2.294, 2) });
  });
});
