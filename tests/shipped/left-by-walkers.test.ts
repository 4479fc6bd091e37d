/** Order, dangers and things that people at real screens missed. */
import { describe, expect, it } from 'vitest';
import { fillIn } from '../../src/engine/values/texts.js';
import { sayOf, whenOf } from '../../src/procedure/caution.js';
import { Job, model, outAgain, refused } from './good-job.js';

const step = (id: string) => model.steps.get(id)!;

describe('coast-down times', () => {
  const standing = (more: Record<string, string>) => {
    const job = new Job().answer('run-in-plan', 'job', more);
    if (more.drive_way === 'by-hand') delete (job.step('run-in-plan').answers as Record<string, unknown>).fit_to_drive;
    const { state } = job.run();
    return fillIn(state.values, step('standstill').do, 'job');
  };
  it('are taken before it is switched off and locked', () => {
    expect(standing({})).toMatch(/^Switch off\. If you time it, do so three times, from one low speed\./);
  });
  it.each(['by-hand', 'bursts'])('are not taken where it cannot be driven at a low speed: %s', (drive_way) => {
    expect(standing({ drive_way })).toMatch(/^Switch off\./);
  });
});

it.each(['hold-rotor', 'cage-out', 'cage-back', 'reassemble'])('%s warns whoever helps of the magnets', (id) => {
  const said = (step(id).caution ?? []).filter((c) => whenOf(c) === 'has_magnets').map(sayOf);
  expect(said.join(' ')).toMatch(/pacemakers.*: with an implant stay 1 m away, helpers too\./);
});

it('lays out a can with a lid for waste solvent, and has it closed', () => {
  expect(step('kit').lays_out!.flatMap((g) => g.things)).toContain('lidded waste can');
  expect(step('solvent-out').uses).toContain('lidded waste can');
  expect(step('solvent-out').do).toContain('into its can. Close it.');
});

it('draws a line halfway for round 1', () => {
  expect(step('marks').do).toContain('For round 1 draw a short line halfway between two.');
});

describe('a seal that pops off damaged', () => {
  const at = 'a.front';
  const torn = [
    { raise: 'seal-torn', at },
    { step: 'torn-what', at, answers: { torn_where: 'bent', repair: 'replace' } },
  ];
  const popped = [
    { raise: 'seal-popped-off', at },
    { step: 'popped-stop', at, answers: { popped_locked: 'locked', popped_dead: 'proven' } },
  ];
  const why = { step: 'popped', at, answers: { popped_why: 'damaged' } };
  const job = (...items: object[]): Job => {
    const bent = new Job().upTo('standstill');
    bent.items.push(...(items as Job['items']));
    return bent;
  };
  const went = (one: Job): true | string => {
    const out = one.run();
    return out.ok ? true : out.message;
  };
  it('is reported torn each time anew', () => {
    const again = [...popped, { ...why, held: 'damaged-raised' }, ...torn];
    const first = [...popped, ...outAgain, ...again.slice(popped.length)];
    for (const before of [[], first, [...first, ...again]]) {
      expect(went(job(...before))).toBe(true);
      expect(refused(job(...before, ...popped, ...(before.length ? [] : outAgain), why).run())).toMatch(
        /Report "Seal torn, bent or swollen" for this seal/,
      );
    }
  });
});
