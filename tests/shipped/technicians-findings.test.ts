/** What a technician ran into at the bench: each of these was so once, and must not be so again. */
import { describe, expect, it } from 'vitest';
import { vouchWords } from '../../src/engine/state/vouch.js';
import type { Gate, Step } from '../../src/procedure/schema.js';
import { modelFor } from '../procedure/library.js';
import { finished, Job, model, refused } from './good-job.js';

const { procedure } = model;
const stepOf = (id: string): Step => model.steps.get(id) as Step;
const indexOf = (id: string): number => procedure.steps.findIndex((s) => s.id === id);
const stepWith = (key: string): number => procedure.steps.findIndex((s) => s.ask?.some((q) => q.key === key));

describe('a cage that pops out', () => {
  it('is never washed before a solvent was chosen: no event takes solvents', () => {
    const wet = procedure.steps.filter((s) => s.uses?.includes('solvents') && s.id !== 'solvent-choice');
    expect(wet.filter((s) => s.branch).map((s) => s.id)).toEqual([]);
    expect(wet.filter((s) => indexOf(s.id) < indexOf('solvent-choice')).map((s) => s.id)).toEqual([]);
  });
  it('goes back in only after the wash', () => {
    const job = new Job().upTo('count-open', 'a');
    job.items.push({ raise: 'cage-popped-out', at: 'a' }, { step: 'cage-out', at: 'a', answers: { balls_out: '9' } });
    const { state } = job.run();
    expect(state.view('cage-back', 'a')?.status).toBe('later');
    expect(state.view('wash', 'a')?.status).toBe('later');
    expect(state.view('count-open', 'a')?.status).toBe('open');
  });
});

describe('a seal that stays in', () => {
  const staysIn = (): Job => new Job().backSealStays({ left_by: 'estimated', left_entered: '0.3' });
  it('has verdicts of its own in both solvents', () => {
    expect(stepOf('bearing-solvent').show).toEqual(expect.arrayContaining(['left_wipe', 'left_soak', 'left_rinse']));
    const { values } = staysIn().upTo('bearing-solvent', 'a').run().state;
    // The rows “rubber+any” of the table of uses: common practice, no source.
    expect(values.get('left_wipe', 'a')).toMatchObject({ value: 'brief wipe only' });
    expect(values.get('left_soak', 'a')).toMatchObject({ value: 'never' });
    expect(values.get('left_rinse', 'a')).toMatchObject({ value: 'never' });
    expect(values.get('left_soak', 'b').known).toBe(false);
  });
  it('keeps the drops away when the second solvent alone would attack it', () => {
    const job = staysIn().answer('solvent-choice', 'job', { rinse: 'acetone' });
    expect(refused(job.answer('bearing-solvent', 'a', { clean_way: 'drip' }).run())).toMatch(/seal left inside/);
  });
});

it('signs for what was overruled by its reason, and not as if it agreed', () => {
  const job = new Job().answer('ball-verdict', 'a', { ball_material: 'not-proven' });
  const step = job.step('ball-verdict', 'a');
  step.overrule = { gate: 'balls-proven', reason: 'meter broke', initials: 'MN' };
  const { state } = job.upTo('ball-verdict', 'b').run();
  expect(vouchWords(state, stepOf('ball-verdict'), 'a', 'self')).toMatch(
    /Except what went on against a stop here: “meter broke”\.$/,
  );
  const good = new Job().upTo('ball-verdict', 'b').run().state;
  expect(vouchWords(good, stepOf('ball-verdict'), 'a', 'self')).not.toMatch(/Except/);
});

describe('a stop', () => {
  const both = (id: string, g: Gate): string[] => {
    const { keys } = modelFor(id);
    const figure = (name: string): boolean =>
      keys.get(name)?.type === 'double' && !/^(rows|times)_/.test(name) && keys.get(name)?.quantity !== 'count';
    return [...g.must.matchAll(/\b([a-z]\w*) (?:<=|<|>=|>) ([a-z]\w*)\b(?! [*+/-])/g)]
      .flatMap((m) => ([m[1] as string, m[2] as string].every(figure) ? [m[1] as string, m[2] as string] : []))
      .filter((name) => !g.say.includes(`{${name}}`));
  };
  it.each(['regrease-in-place', 'inspect-after-run'])('of two figures tells both (%s)', (id) => {
    const told = modelFor(id).procedure.steps.flatMap((s) => (s.gates ?? []).map((g) => [g.id, ...both(id, g)]));
    expect(told.filter((t) => t.length > 1)).toEqual([]);
  });
  it('for the speed is filed under the step of the speed', () => {
    const home = procedure.steps.find((s) => s.gates?.some((g) => g.id === 'claimed-speed'));
    expect(home?.title).toBe('Speed against its limit');
  });
  it('for balls that are not proven has the ring tested again first', () => {
    const gate = stepOf('ball-verdict').gates?.find((g) => g.id === 'balls-proven');
    expect(gate?.correct?.[0]).toBe('ring_contact');
    expect(gate?.say).toMatch(/Test the ring again/);
  });
});

describe('a torn seal', () => {
  const torn = (repair: string, where: string, then: string): Job =>
    new Job().answer('seal-log', 'b.front', { seal_condition: then }).torn('b.front', { torn_where: where, repair });
  it.each([
    ['straighten', 'lip'],
    ['straighten', 'torn'],
    ['glue', 'lip'],
  ])('is not put right by %s where it is %s', (repair, where) => {
    expect(refused(torn(repair, where, 'torn').run())).toMatch(/can’t be overruled/);
  });
  it('is never whole again', () => {
    expect(refused(torn('straighten', 'bent', 'sound').run())).toMatch(/never whole again/);
    expect(finished(torn('replace', 'lip', 'sound').run())).toBe(true);
  });
});

it('takes no finding by one key: neither from another bearing nor from the guide', () => {
  const alike = procedure.steps.filter((s) => s.alike).map((s) => s.id);
  expect(alike).toEqual(['seal-make', 'caps']);
  for (const key of ['cause_is', 'cause_cured', 'inside_findings', 'first_findings', 'seal_condition', 'cloth'])
    expect(procedure.steps[stepWith(key)]?.ask?.find((q) => q.key === key)).not.toHaveProperty('suggest');
});

it('tells why a grease fits or not', () => {
  expect(stepOf('grease-fit').show?.slice(0, 2)).toEqual(['grease_overall', 'grease_reason']);
  const thin = new Job().answer('grease-figures', 'job', { nu40: '8', nu100: '2.5' }).upTo('grease-fit', 'a').run();
  expect(thin.state.values.get('grease_reason', 'a')).toMatchObject({
    value: expect.stringMatching(/viscosity (?:no|marginal)/),
  });
});

describe('weighing', () => {
  it('comes before the order to fill, and half time before the order to go on', () => {
    expect(stepWith('weigh_before')).toBeLessThan(indexOf('gap-fill'));
    expect(stepWith('weigh_before_top')).toBeLessThan(indexOf('top-up'));
    expect(stepWith('weigh_half')).toBeGreaterThan(indexOf('gap-fill'));
    expect(stepWith('weigh_half')).toBeLessThan(indexOf('race-fill'));
  });
  it('leaves round 2 out once the whole dose is in at half time', () => {
    // 14.10 - 12.10 = 2.00 g / 0.90 g/mL = 2.2 mL of a dose of 2.3 mL.
    const job = new Job().answer('weigh-half', 'a', { weigh_half: '12.10 g' });
    job.step('weigh-half', 'a').overrule = { gate: 'all-in-at-half', reason: 'too much', initials: 'MN' };
    const { state } = job.upTo('race-fill', 'a').run();
    expect(state.view('race-fill', 'a')?.status).toBe('not-needed');
    expect(state.view('dose-check', 'a')?.status).toBe('open');
  });
});

it('names gloves before old grease is touched', () => {
  for (const id of ['residue-amount', 'residue-look'])
    expect(JSON.stringify(stepOf(id).caution)).toMatch(/wear gloves/);
});

it('makes no noise of figures that nobody measured', () => {
  const job = new Job().answer('residue-amount', 'a', { residue_by: 'nothing' });
  delete job.step('residue-amount', 'a').answers?.residue_block;
  const { values } = job.upTo('dose', 'a').run().state;
  for (const key of stepOf('dose').show ?? [])
    expect(values.get(key, 'a')).not.toHaveProperty('refusal', expect.anything());
});
