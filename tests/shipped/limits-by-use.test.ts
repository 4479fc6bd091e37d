/** Inputs that the guide asks only where they count: the old oil, minutes in the vapour, a second test of the balls, a spare that is weighed. */
import { describe, expect, it } from 'vitest';
import { showKey } from '../../src/engine/values/texts.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { closed } from './closures.js';
import { finished, Job, refused } from './good-job.js';

const cut = (job: Job, step: string, at?: string): Job => {
  job.items.length = job.items.findIndex((x) => 'step' in x && x.step === step && x.at === at);
  return job;
};
const value = (job: Job, key: string, place = 'job'): unknown => {
  const v = job.run().state.values.get(key, place);
  return v.known ? v.value : undefined;
};
const asked = (job: Job, step: string, place: string): string[] => {
  const { state } = job.run();
  const { ask = [] } = state.model.steps.get(step) ?? {};
  return ask.filter((q) => !q.when || state.values.holds(q.when, place) === true).map((q) => q.key);
};

describe('the base oil of the old grease', () => {
  /** Old and new thickener are one, and a white cloth was never seen. */
  const uncleaned = (oil: string): Job => {
    const job = new Job()
      .answer('history', 'a', { old_oil: oil })
      .answer('grease-kind', 'job', { new_thickener: 'lithium' });
    const cloth = job.step('white-cloth', 'a');
    cloth.answers = { ...cloth.answers, cloth: 'stained' };
    cloth.overrule = { gate: 'cloth-white', reason: 'no time', initials: 'MN' };
    return cut(job, 'grease-fit', 'a');
  };
  it.each([
    // Mineral, PAO and ester oils mix with each other, silicone with nothing else (usual, from memory).
    ['mineral', 'marginal'],
    ['unknown', 'marginal'],
    ['silicone', 'no'],
  ])('%s, not cleaned: the same thickener is %s, never ok', (oil, verdict) => {
    const job = uncleaned(oil);
    expect(value(job, 'grease_thickener', 'a')).toBe(verdict);
    expect(value(job, 'grease_overall', 'a')).not.toBe('ok');
  });
  it('counts no more where the new grease is the very product that was in', () => {
    const job = closed({ front: 'shield', back: 'shield' });
    expect(value(cut(job, 'dose', 'a'), 'grease_thickener', 'a')).toBe('marginal');
    const same = closed({ front: 'shield', back: 'shield' }).answer('grease-same', 'a', { same_product: 'yes' });
    expect(value(cut(same, 'dose', 'a'), 'grease_thickener', 'a')).toBe('ok');
  });
  it('is not asked where the thickener is not known: all of it must come out then', () => {
    const job = cut(new Job(), 'history', 'a');
    job.items.push({ step: 'history', at: 'a', answers: { got_in: ['dust'], old_thickener: 'unknown' } });
    expect(job.run().ok).toBe(true);
    expect(asked(job, 'history', 'a')).not.toContain('old_oil');
  });
});

describe('vapour of a short job', () => {
  // 1 mL in 1 m3 of still air is 333 ppm of acetone: 30 x 333 / 30 = 333 ppm, over the 250 ppm of a shift and under the 750 ppm
  // of 15 minutes (NIOSH Pocket Guide, P).
  const small = (more: Record<string, string>): Job => {
    const job = new Job()
      .answer('solvent-choice', 'job', { solvent: 'acetone', rinse: 'none' })
      .drop((x) => x.step === 'rinse-bearing')
      .answer('vapour', 'job', { solvent_volume: '30 +- 1 mL', room: '30 +- 1 m3', ...more });
    delete (job.step('vapour').answers as Record<string, unknown>).rinse_volume;
    job.step('vapour').overrule =
      Number.parseFloat(more.vapour_minutes ?? '') < 20 && !more.vapour_minutes?.endsWith('h')
        ? { gate: 'stay-whole', reason: 'the room is left while it dries', initials: 'MN' }
        : undefined;
    return job;
  };
  it('is not asked for its minutes under the limit of a shift', () => {
    expect(asked(cut(new Job(), 'seal-solvent', 'a.front'), 'vapour', 'job')).not.toContain('vapour_minutes');
  });
  it('passes by the 15-minute limit only where it is so short', () => {
    for (const minutes of ['', '16 min', '2 h'])
      expect(refused(small({ vapour_minutes: minutes }).run())).toMatch(
        /Over the limit that fits this work \(250 ppm, shift mean\)/,
      );
    const brief = cut(small({ vapour_minutes: '10 min' }), 'seal-solvent', 'a.front');
    expect(brief.run().ok).toBe(true);
    expect(value(brief, 'vapour_verdict')).toBe('below the limit for 15 minutes');
  });
  it('never lets through what is over it, however short', () => {
    // 90 mL: 999 ppm.
    const much = small({ solvent_volume: '90 +- 1 mL', vapour_minutes: '5 min' });
    expect(refused(much.run())).toMatch(/Over the limit that fits this work \(750 ppm, 15-minute limit\)/);
  });
});

describe('balls that are silent', () => {
  /** Silent balls, and the rings too near for the magnet. */
  const silent = (probes: number, more: Record<string, string>): Job =>
    cut(
      new Job()
        .answer('probe-balls', 'a', { ball_probes: Array.from({ length: probes }, () => 'open') })
        .answer('magnet', 'a', { magnet: 'skipped', ...more }),
      'ball-verdict',
      'a',
    );
  it.each([
    [4, { second_range: 'skipped' }, 'not proven'],
    [4, { second_range: 'beep' }, 'not proven'],
    [4, { second_range: 'open' }, 'ceramic'],
    // All nine that were counted when it was opened.
    [9, { second_range: 'skipped' }, 'ceramic'],
  ])('%i tried, second test %j: %s', (probes, more, verdict) => {
    const job = silent(probes, more);
    expect(job.run().ok).toBe(true);
    expect(value(job, 'ball_verdict', 'a')).toBe(verdict);
  });
  it('are asked for a second range only where the magnet told nothing', () => {
    expect(asked(cut(new Job(), 'ball-verdict', 'a'), 'magnet', 'a')).not.toContain('second_range');
  });
});

describe('the free volume', () => {
  const computed = (): Job => new Job().answer('volume-known', 'a', { volume_by: 'computed' });
  it('is the room between the seals, and says what was taken off', () => {
    const job = computed();
    // Its arithmetic stands in closures.test.ts.
    expect(value(job, 'free_volume', 'a')).toBeCloseTo(11.302, 2);
    expect(value(job, 'taken_off', 'a')).toBe('seals 3.5 mL, chamfers 0.21 mL, cage 0.96 mL');
  });
  it('gets surer by the depth of a seal that was measured', () => {
    const half = (job: Job): number => {
      const v = job.run().state.values.get('free_volume', 'a');
      return v.known && typeof v.plusMinus === 'number' ? v.plusMinus : Number.NaN;
    };
    // 2 x (1.28 - 1.10) mm x 13.74 cm2 = 0.49 mL more.
    const measured = computed().answer('volume-known', 'a', { seal_depth: '1.1 +- 0.1 mm' });
    expect(value(measured, 'free_volume', 'a')).toBeCloseTo(11.796, 2);
    expect(half(measured)).toBeLessThan(half(computed()));
  });
  it('of both ends on unlike ways is said, at the step and on the sheet, and on one way is not', () => {
    const unlike = new Job().run().state;
    expect(showKey(unlike.values, 'same_basis', 'b')).toBe('no');
    expect(JSON.stringify(sheetOf(unlike))).toMatch(/Its free volume is only worked out/);
    const like = new Job().answer('volume-known', 'b', { volume_by: 'computed' });
    like.step('volume-known', 'b').answers = { volume_by: 'computed' };
    like.answer('dose', 'b', { dose_set: '1.3 mL' });
    expect(finished(like.run())).toBe(true);
    expect(JSON.stringify(sheetOf(like.run().state))).not.toMatch(/only worked out/);
  });
  it('weighed with an open spare is asked about', () => {
    // A 6204 up to its faces holds 6.3 mL: 6.3 x 0.85 = 5.4 g. Arithmetic.
    expect(refused(new Job().answer('volume-known', 'b', { spare_filled: '111.6 g' }).run())).toMatch(
      /more than such a size has/,
    );
  });
  it('of two weights the wrong way round there is none', () => {
    expect(refused(new Job().answer('volume-known', 'b', { spare_filled: '101 g' }).run())).toMatch(
      /must weigh more than dry|There is no free volume yet/,
    );
  });
});
