/** Small things at the bench: a worn syringe, an open bearing that is left, plastic that nobody knows, solvents at the keys. */
import { describe, expect, it } from 'vitest';
import type { Question } from '../../src/procedure/questions/index.js';
import { finished, Job, model, refused } from './good-job.js';

const value = (job: Job, key: string, place = 'job'): unknown => {
  const v = job.run().state.values.get(key, place);
  return v.known ? v.value : undefined;
};

describe('a syringe without figures', () => {
  const worn = (): Job => new Job().answer('syringe', 'job', { syringe_holds: '', barrel_length: '60 mm' });
  it('holds what bore and length give', () => {
    expect(finished(worn().run())).toBe(true);
    // pi/4 x 12.4² x 60 mm = 7.25 mL. Arithmetic.
    expect(value(worn(), 'barrel_holds')).toBeCloseTo(7.25, 2);
    // pi/4 x 12.4² x 25 mm = 3.0 mL, and the filling is 2.3 + 1.4 + 0.2 mL. Arithmetic.
    expect(refused(worn().answer('syringe', 'job', { barrel_length: '25 mm' }).run())).toMatch(
      /more than the barrel holds, 3\.0/,
    );
  });
  it('without a scale has a bore that something proves', () => {
    const gate = model.steps.get('syringe')?.gates?.find((g) => g.id === 'bore-unchecked');
    const { values } = worn().answer('tools', 'job', { scale_here: 'no' }).upTo('residue-amount', 'a').run().state;
    expect(gate?.overrule).toBe('with-reason');
    expect(values.get('scale_ok', 'job')).toMatchObject({ value: false });
    expect(gate?.must).toBe('scale_ok || syringe_holds > 0.0');
  });
});

it('tells whoever leaves an open bearing to cover it, and not once it is closed', () => {
  const { left } = model.procedure.places.find((p) => p.id === 'position')!;
  const open = (job: Job, place: string): unknown => job.run().state.values.holds(left!.when, place);
  expect(open(new Job().upTo('count-open', 'a'), 'a')).not.toBe(true);
  expect(open(new Job().upTo('prove-leads', 'a'), 'a')).toBe(true);
  expect(open(new Job().upTo('seals-seated', 'a'), 'a')).not.toBe(true);
  expect(left?.say).toMatch(/Cover it with a lint-free cloth/);
});

it('asks for a drop test only of plastic that nobody knows', () => {
  const unknown = (drop: string): Job =>
    new Job().answer('surroundings', 'job', { around: 'unknown', drop_test: drop });
  expect(finished(unknown('nothing').run())).toBe(true);
  const said = refused(unknown('not-tested').run());
  expect(said).toMatch(/Nobody knows that it resists this solvent/);
  expect(said).not.toMatch(/can’t be overruled/);
});

it('has the solvent that burns easiest under the last key', () => {
  const asks = (model.steps.get('solvent-choice')?.ask ?? []) as Extract<Question, { kind: 'choice' }>[];
  expect(asks.map((q) => q.options.at(-1)?.value)).toEqual(['acetone', 'acetone']);
});
