/** The large figure while grease is pushed: what is still to push now, never what is in already. */
import { describe, expect, it } from 'vitest';
import type { ReplayItem, StepItem } from '../../src/engine/replay/replay-file.js';
import type { State } from '../../src/engine/state/state.js';
import { fillIn } from '../../src/engine/values/texts.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { Job, model } from './good-job.js';

// A bore of 12.4 mm has 120.76 mm²: 8.281 mm of travel for 1 mL. Dose of a 2.3 mL, 19.05 mm in all, 9.52 mm a round;
// of b 1.4 mL, 11.59 mm in all, 5.80 mm a round. Arithmetic.
const whole = { a: 19.05, b: 11.59 } as const;
const round = { a: 9.52, b: 5.8 } as const;
type Place = keyof typeof whole;

function reached(job: Job, step: string, at: Place): State {
  job.upTo(step, at);
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

describe('a dose that is changed after round 1', () => {
  const changed = (job: Job, value: string, at: Place = 'a'): State => {
    const correct = { step: 'dose', at, key: 'dose_set', value, reason: 'share read again' };
    reached(job, 'race-fill', at);
    job.items.push({ correct });
    const out = job.run();
    expect(out.ok ? 'went through' : out.message).toBe('went through');
    return out.state;
  };
  it.each([
    // 80 % of 2.3 mL are 1.84 mL: 15.24 mm in all, 9.52 mm are in, 5.72 mm are left, not half of it, 7.62 mm. Arithmetic.
    // 1.84 - 1.15 mL to 9 balls from a tip of 2 mm (3.1416 mm²): 76.7 mm³ and 24.4 mm a bead, not 32.5 mm.
    ['1.84 mL', 15.24, 5.72, 24.4],
    // 110 % are 2.53 mL: 20.95 mm in all, 11.43 mm are left, not 10.48 mm; 1.38 mL to 9 balls are 48.8 mm a bead.
    ['2.53 mL', 20.95, 11.43, 48.8],
    // 1.0 mL is 8.28 mm: more than that is in.
    ['1.0 mL', 8.28, 0, undefined],
  ])('to %s leaves what round 1 moved as it was', (value, all, left, bead) => {
    const state = changed(unweighed(), value);
    if (bead === undefined) {
      expect(state.values.get('bead_now', 'a')).not.toHaveProperty('value');
      expect(fillIn(state.values, model.steps.get('race-fill')?.do ?? '', 'a')).toMatch(/^Lay no bead/);
    } else expect(mm(state, 'bead_now', 'a')).toBeCloseTo(bead, 0);
    expect(mm(state, 'travel_here', 'a')).toBeCloseTo(all, 1);
    expect(mm(state, 'still_to_push', 'a')).toBeCloseTo(left, 1);
    const then = left === 0 ? /all is in now: push no more\.$/ : /Do not use the tape mark now\.$/;
    expect(fillIn(state.values, model.steps.get('race-fill')?.do ?? '', 'a')).toMatch(then);
  });
  it('is of no account where round 1 was weighed', () => {
    // 1.08 g are 9.94 mm: 15.24 - 9.94 = 5.30 mm.
    const job = new Job().answer('weigh-half', 'a', { weigh_half: '13.02 g' });
    expect(mm(changed(job, '1.84 mL'), 'still_to_push', 'a')).toBeCloseTo(5.3, 1);
  });
  it('does not make an empty syringe of round 2 one of round 1', () => {
    // 5 mm short of the mark is round 2, since that has 5.80 mm; half of 0.98 mL would be 4.06 mm.
    const job = unweighed().before('race-fill', 'b', ...ran('b', '5 mm'));
    expect(mm(changed(job, '0.98 mL', 'b'), 'still_to_push', 'b')).toBe(0);
  });
});

describe('a ball that fell and a cage that came out', () => {
  const fell = (at: Place): ReplayItem[] => [
    { raise: 'ball-on-floor', at },
    { step: 'ball-found', at, answers: { ball_found: 'whole' } },
  ];
  const cleaned = (job: Job, at: Place): ReplayItem[] => {
    const steps = ['wash', 'rinse-bearing', 'dry', 'white-cloth', 'balls-count', 'raceway-look'];
    const out = job.again(...steps.map((s) => [s, at] as const));
    (out.find((x) => 'step' in x && x.step === 'white-cloth') as StepItem).after = '40 min';
    return [...out, { step: 'second-verdict', at, answers: { second_look: 'save' }, sign: 'MN' }];
  };
  const goal = (state: State, at: Place) => mm(state, 'target_here', at);
  it('leave the marks on the tape where nothing was filled yet', () => {
    // Between white cloth and raceway; both marks serve: 19.05 mm, and 30.64 mm for both. Arithmetic.
    const job = unweighed();
    job.before('raceway-look', 'a', ...fell('a'), ...cleaned(job, 'a').slice(0, 5));
    const state = reached(job, 'race-fill', 'a');
    expect(goal(state, 'a')).toBeCloseTo(19.05, 1);
    expect(fillIn(state.values, model.steps.get('race-fill')?.do ?? '', 'a')).toMatch(/plunger is at its mark\.$/);
  });
  it('leave them where only the other bearing was filled', () => {
    const job = unweighed();
    job.after('dose-check', 'a', ...fell('b'), ...cleaned(job, 'b'));
    expect(goal(reached(job, 'race-fill', 'b'), 'b')).toBeCloseTo(30.64, 0);
  });
  it('give them up where its weight was taken before, since grease may have left the syringe', () => {
    const job = unweighed();
    job.after('weigh-first', 'a', ...fell('a'), ...cleaned(job, 'a'), ...job.again(['weigh-first', 'a']));
    expect(reached(job, 'race-fill', 'a').values.get('target_here', 'a')).not.toHaveProperty('value');
  });
});

describe('a bearing that is cleaned and filled again after a refill', () => {
  const anew = (early: boolean): Job => {
    const job = unweighed();
    const cleaned = job.again(
      ...['wash', 'rinse-bearing', 'dry', 'white-cloth', 'balls-count', 'raceway-look'].map((s) => [s, 'a'] as const),
    );
    (cleaned.find((x) => 'step' in x && x.step === 'white-cloth') as StepItem).after = '40 min';
    const filled = job.again(...['weigh-first', 'gap-fill', 'weigh-half', 'race-fill'].map((s) => [s, 'a'] as const));
    job.before(early ? 'gap-fill' : 'race-fill', 'a', ...ran('a', early ? '12 mm' : '3 mm'));
    return job.after(
      'race-fill',
      'a',
      { raise: 'ball-on-floor', at: 'a' },
      { step: 'ball-found', at: 'a', answers: { ball_found: 'whole' } },
      ...cleaned,
      { step: 'second-verdict', at: 'a', answers: { second_look: 'save' }, sign: 'MN' },
      ...filled,
    );
  };
  /** Up to a step of the second filling. */
  const upTo = (job: Job, step: string): State => {
    job.items.length = job.items.findLastIndex((x) => 'step' in x && x.step === step && x.at === 'a');
    const out = job.run();
    expect(out.ok ? 'went through' : out.message).toBe('went through');
    return out.state;
  };
  it.each([true, false])('has both rounds to be pushed again (it ran empty in round 1: %s)', (early) => {
    expect(mm(upTo(anew(early), 'gap-fill'), 'half_now', 'a')).toBeCloseTo(9.52, 1);
    const second = upTo(anew(early), 'race-fill');
    expect(mm(second, 'still_to_push', 'a')).toBeCloseTo(9.52, 1);
    // The plunger no longer stands where the marks were made for.
    expect(second.values.get('target_here', 'a')).not.toHaveProperty('value');
    expect(fillIn(second.values, model.steps.get('race-fill')?.do ?? '', 'a')).toMatch(
      /Do not use the tape mark now\.$/,
    );
  });
  it('counts no weight of that refill', () => {
    // 14.10 - 12.05 = 2.05 g of 0.90 g/mL are 2.278 mL. With the refill, 1.70 g more, it was 4.167 mL. Arithmetic.
    const job = anew(false);
    const state = upTo(job, 'weigh-first');
    expect(state.values.get('ran_refilled', 'a')).toMatchObject({ value: 0 });
    const end = reached(anew(false), 'weigh-first', 'b');
    expect(end.values.get('dose_given', 'a')).toMatchObject({ value: expect.closeTo(2.278, 2) });
    const told = sheetOf(end).events.find((e) => e.mark === 'Syringe was empty');
    expect(told?.ended).toMatch(/^.* short, refilled for the rest\. Counts no longer/);
  });
});
