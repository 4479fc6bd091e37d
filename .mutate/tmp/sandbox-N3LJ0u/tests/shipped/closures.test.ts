/**
 * The six usual closures as whole jobs: a 6206 closed so at the drive end, rubber at the other end, one run-in for both.
 * Room between the rings of a 6206: pi/4 x 16 x (62² - 30²) = 37.0 mL, less 199 g / 7.81 g/mL = 25.5 mL leaves 11.5 mL
 * (boundary dimensions ISO 15; mass from memory). 15 % of it is 1.73 mL. A bore of 12.4 mm is 120.8 mm², 8.28 mm a mL.
 */
// @ts-nocheck

import { describe, expect, it } from 'vitest';
import type { ReplayItem } from '../../src/engine/replay-file.js';
import { fillIn } from '../../src/engine/texts.js';
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
};

describe.each([
  // What closes front and back, the dose in mL, whether it is washed, and what is taken off and closed again.
  ['rubber on both sides', { front: 'gap', back: 'gap' }, 1.73, true, ['open-front', 'open-back', 'refit-back']],
  ['two shields held by rings', { front: 'shield-ring', back: 'shield-ring' }, 1.73, true, ['open-front', 'open-back']],
  ['rubber in front, a pressed shield behind', { front: 'gap', back: 'shield' }, 1.73, true, ['open-front']],
  ['one pressed shield, one open side', { front: 'none', back: 'shield' }, 1.73, true, []],
  ['nothing, with caps and a nipple', open, 1.73, true, []],
  // The suggested quarter of the room is 2.88 mL, and a quarter of that goes in.
  ['two pressed shields', pressed, 0.72, false, []],
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
    expect(number(job, 'travel_here')).toBeCloseTo(5.96, 2);
    expect(number(job, 'share_set')).toBeNaN();
    const sheet = JSON.stringify(sheetOf(job.run().state));
    expect(sheet).not.toMatch(/15 %[^"]*11\.5 mL/);
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
    expect(said).toMatch(/can't be washed out from behind a shield/);
  });
  it('take no thickener that clashes, and an unknown one only where somebody vouches for it', () => {
    expect(refused(closed(pressed).answer('grease-kind', 'job', { new_thickener: 'polyurea' }).run())).toMatch(
      /turn each other to soup.*can’t be overruled/,
    );
    const said = refused(closed(pressed).answer('history', 'a', { old_thickener: 'unknown' }).run());
    expect(said).toMatch(/nobody has proven that these two get on/);
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
      { step: 'shield-stop', at: 'a.front', answers: { shield_locked: 'bench' } },
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
    // n dm 14 000 x 46 = 644 000: 30 % of 30 mL = 9.0 mL, 8.1 g. Nipple: 0.005 x 62 x 16 = 4.96 g. Arithmetic.
    expect(number(job, 'cap_dose')).toBeCloseTo(9, 6);
    expect(number(job, 'cap_grams')).toBeCloseTo(8.1, 6);
    expect(number(job, 'nipple_grams')).toBeCloseTo(4.96, 6);
    const left = closed(open).answer('caps-clean', 'a', { caps_clean: 'left' });
    expect(refused(left.run())).toMatch(/comes back into the bearing/);
  });
  it('is not greased through a nipple that has no way out', () => {
    const job = closed({ ...open, caps: { cap_room: 'cap', cap_volume: '30 mL', nipple: 'no-drain' } });
    expect(finished(job.run())).toBe(true);
    expect(needed(job, 'nipple-tag')).toBe(false);
  });
});
