/**
 * The six usual closures as whole jobs: a 6207 closed so at the drive end, rubber at the other end, one run-in for both.
 * Room of a 6207 to its faces: pi/4 x 17 x (72² - 35²) = 52.86 mL, less 288 g / 7.81 g/mL = 36.88 mL leaves 15.98 mL
 * (boundary dimensions ISO 15; mass from memory). Off it: chamfers 0.25 x 1.105² x 2 pi x 107 = 0.21 mL, a moulded cage 6 %,
 * 0.96 mL, and for each cover its depth times the ring from 47.03 to 62.94 mm, 13.74 cm²: rubber 0.6 + 0.04 x 17 = 1.28 mm,
 * 1.76 mL; a shield 0.3 + 0.03 x 17 = 0.81 mm, 1.11 mL (this guide's usual depths, no source).
 * Left: open 14.82, one shield 13.71, two 12.59, two of rubber 11.30 mL. A bore of 12.4 mm is 120.8 mm², 8.28 mm a mL.
 */
import { describe, expect, it } from 'vitest';
import type { ReplayItem } from '../../src/engine/replay/replay-file.js';
import { fillIn } from '../../src/engine/values/texts.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { type Closure, closed } from './closures.js';
import { finished, type Job, model, refused } from './good-job.js';

const number = (job: Job, key: string): number => {
  const v = job.run().state.values.get(key, 'a');
  return v.known ? Number(v.value) : Number.NaN;
};
const needed = (job: Job, step: string, place = 'a'): boolean =>
  job.run().state.view(step, place)?.status !== 'not-needed';
const pressed: Closure = { front: 'shield', back: 'shield' };
const open: Closure = {
  front: 'none',
  back: 'none',
  caps: { cap_room: 'cap', cap_volume: '30 mL', nipple: 'with-drain' },
  // 3.0 mL x 0.90 g/mL = 2.70 g, then 1.25 g.
  dosed: ['3.0 mL', '11.40 g', '10.15 g'],
};
// 2.5 mL are 2.25 g, 2.7 mL are 2.43 g.
const rings: Closure = { front: 'shield-ring', back: 'shield-ring', dosed: ['2.5 mL', '11.85 g', '10.60 g'] };
const half: Closure = { front: 'none', back: 'shield', dosed: ['2.7 mL', '11.67 g', '10.42 g'] };

describe.each([
  // What closes front and back, the dose in mL, whether it is washed, and what is taken off and closed again.
  // 20 % of the room that is left.
  ['rubber on both sides', { front: 'gap', back: 'gap' }, 2.26, true, ['open-front', 'open-back', 'refit-back']],
  ['two shields held by rings', rings, 2.519, true, ['open-front', 'open-back']],
  // Both are taken as deep as rubber, which leaves the smaller room.
  ['rubber in front, a pressed shield behind', { front: 'gap', back: 'shield' }, 2.26, true, ['open-front']],
  ['one pressed shield, one open side', half, 2.741, true, []],
  ['nothing, with caps and a nipple', open, 2.964, true, []],
  // The suggested 22 % of the room is 2.77 mL, and a quarter of that goes in.
  ['two pressed shields', pressed, 0.6926, false, []],
] as const)('%s', (_, closure, dose, washed, off) => {
  it('goes through as one job to its end', () => {
    const job = closed(closure as Closure);
    expect(finished(job.run())).toBe(true);
    expect(number(job, 'dose_due')).toBeCloseTo(dose, 2);
    expect(needed(job, 'wash')).toBe(washed);
    expect(needed(job, 'raceway-look')).toBe(washed);
    for (const step of ['open-front', 'open-back', 'refit-back'])
      expect(needed(job, step), step).toBe(
        (off as readonly string[]).includes(step) ||
          (step === 'refit-back' && (off as readonly string[]).includes('open-back')),
      );
  });
});

describe('a shield held by a wire ring', () => {
  it('is taken out by its ring', () => {
    const { values } = closed({ front: 'shield-ring', back: 'none' }).run().state;
    expect(fillIn(values, model.steps.get('open-front')?.do ?? '', 'a')).toMatch(/^Lift the end of the wire ring out/);
  });
});

describe('two pressed shields', () => {
  it('get a top-up of a quarter, told as that and never as a share', () => {
    const job = closed(pressed);
    expect(number(job, 'travel_here')).toBeCloseTo(5.714, 2);
    expect(number(job, 'share_set')).toBeNaN();
    const sheet = JSON.stringify(sheetOf(job.run().state));
    expect(sheet).not.toMatch(/2[02] %[^"]*1[2-6]\.?\d* mL/);
  });
  it('never take more, whatever the reason', () => {
    const job = closed(pressed).answer('dose', 'a', { dose_set: '1.5 mL' });
    job.step('dose', 'a').overrule = { gate: 'dose-near', reason: 'looked empty', initials: 'MN' };
    expect(refused(job.run())).toMatch(/more can never be taken back.*can’t be overruled/);
  });
  it('prove nothing of the balls', () => {
    const job = closed(pressed).answer('ball-verdict', 'a', { ball_material: 'ceramic' });
    expect(refused(job.run())).toMatch(/No ball can be reached behind two shields.*can’t be overruled/);
    // As steel the open limit of 13 000 rpm is too little for 14 000 rpm. Arithmetic.
    expect(refused(closed(pressed).answer('make', 'a', { open_limit: '13000' }).run())).toMatch(/above 13.000 rpm/);
  });
  it('are not greased on water or crumbs without a reason', () => {
    const said = refused(closed(pressed).answer('residue-look', 'a', { residue_water: 'yes' }).run());
    expect(said).toMatch(/Nothing can be washed out from behind a shield/);
  });
  it('take no thickener that clashes, and an unknown one only where somebody vouches for it', () => {
    const other = closed(pressed).drop((x) => x.step === 'grease-same');
    expect(refused(other.answer('grease-kind', 'job', { new_thickener: 'polyurea' }).run())).toMatch(
      /make each other liquid.*can’t be overruled/,
    );
    const unknown = closed(pressed).drop((x) => x.step === 'grease-same');
    unknown.step('history', 'a').answers = { got_in: ['dust'], old_thickener: 'unknown' };
    const said = refused(unknown.run());
    expect(said).toMatch(/nobody has proven that these two are compatible/);
    expect(said).not.toMatch(/can’t be overruled/);
  });
  it('end where no needle goes in', () => {
    const job = closed(pressed);
    job.step('top-up', 'a').answers = { needle_goes: 'too-thick' };
    expect(refused(job.run())).toMatch(/no grease gets in here.*can’t be overruled/);
  });
  it('are washed, looked at and filled once a shield was taken off', () => {
    const job = closed(pressed);
    const i = job.items.findIndex((x) => 'step' in x && x.step === 'top-up');
    job.items.length = i;
    const off: ReplayItem[] = [
      { raise: 'shield-moved', at: 'a.front' },
      { step: 'shield-what', at: 'a.front', answers: { shield_state: 'off' } },
    ];
    job.items.push(...off);
    for (const step of ['count-open', 'wash', 'white-cloth', 'raceway-look', 'gap-fill'])
      expect(needed(job, step), step).toBe(true);
    expect(needed(job, 'top-up')).toBe(false);
  });
});

describe('a shield that moved in the run-in', () => {
  it('is reached for only after the power was proven dead', () => {
    const job = closed(pressed);
    const log = job.step('run-in-log');
    log.rows = (log.rows ?? []).slice(0, 5);
    job.after(
      'run-in-log',
      'job',
      { raise: 'shield-moved', at: 'a.front' },
      { step: 'shield-what', at: 'a.front', answers: { shield_state: 'flat' } },
    );
    expect(refused(job.run())).toMatch(/is not next: “Stop it and prove it dead again”/);
  });
});

describe('an open bearing', () => {
  it('has its caps emptied and filled a third at this speed, and its nipple tagged', () => {
    const job = closed(open);
    // n dm 14 000 x 53.5 = 749 000: 30 % of 30 mL = 9.0 mL, 8.1 g. Nipple: 0.005 x 72 x 17 = 6.12 g. Arithmetic.
    expect(number(job, 'cap_dose')).toBeCloseTo(9, 6);
    expect(number(job, 'cap_grams')).toBeCloseTo(8.1, 6);
    expect(number(job, 'nipple_grams')).toBeCloseTo(6.12, 6);
    const left = closed(open).answer('caps-clean', 'a', { caps_clean: 'left' });
    expect(refused(left.run())).toMatch(/flows back into the bearing/);
  });
  it('is not greased through a nipple that has no way out', () => {
    const job = closed({ ...open, caps: { cap_room: 'cap', cap_volume: '30 mL', nipple: 'no-drain' } });
    expect(finished(job.run())).toBe(true);
    expect(needed(job, 'nipple-tag')).toBe(false);
  });
});
