/** Small things at the bench: a worn syringe, an open bearing that is left, plastic that nobody knows, solvents at the keys. */
import { describe, expect, it } from 'vitest';
import { correctable } from '../../src/engine/state/correctable.js';
import { fillIn } from '../../src/engine/values/texts.js';
import { sayOf } from '../../src/procedure/caution.js';
import type { Question } from '../../src/procedure/questions/index.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { closed } from './closures.js';
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
  const unknown = (drop: string, waited = '10 min'): Job =>
    new Job()
      .answer('surroundings', 'job', { around: 'unknown' })
      .after('vapour', 'job', { step: 'drop-test', after: waited, answers: drop === '' ? {} : { drop_test: drop } })
      .after('vapour', 'job', { step: 'drop-set' });
  expect(finished(unknown('nothing').run())).toBe(true);
  const said = refused(unknown('not-tested').run());
  expect(said).toMatch(/Nobody knows that it resists this solvent/);
  expect(said).not.toMatch(/can’t be overruled/);
  // Ten minutes are kept, and what swelled is known: it does not resist.
  expect(refused(unknown('nothing', '9 min').run())).toMatch(/wet swab on the spot/);
  const swelled = refused(unknown('changed').run());
  expect(swelled).toMatch(
    /does not resist what the swab was wet with, n-heptane or isopropanol\. Correct the solvent/i,
  );
  expect(swelled).not.toMatch(/Nobody knows/);
  const test = model.steps.get('drop-test')!;
  // A wet swab goes on giving off vapour wherever it lies.
  expect(test.do).toMatch(/^Put the swab into the lidded metal bin\./);
  expect(test.uses).toEqual(expect.arrayContaining(['lidded metal bin', 'safety glasses']));
  const near = model.steps.get('surroundings')!.ask!.find((q) => q.key === 'around')!;
  expect([near.label, near.help].join()).toMatch(/^What lies under.*,More than one: take the lowest/);
  expect(test.gates?.find((g) => g.id === 'drop-attacked')?.answer_stands).toBe(true);
  expect((test.caution ?? []).map(sayOf).join()).toMatch(/safety glasses and gloves/);
  // Nothing said is no “As before”, and a drop of another solvent proves nothing of this one.
  expect(refused(unknown('').run())).toMatch(/The spot after|Nobody knows/);
  const other = { step: 'solvent-choice', key: 'solvent', value: 'white-spirit', reason: 'misread' };
  const later = unknown('nothing').after('drop-test', 'job', { correct: other } as never);
  expect(
    later
      .run()
      .state.remedies.map((r) => r.text)
      .join(),
  ).toMatch(/^The drop was .*now white spirit/);
  // What was on the spot stays what it was, whatever is picked then.
  const anew = unknown('changed').upTo('seal-solvent', 'a.front');
  anew.step('drop-test').held = 'drop-attacked';
  anew.items.push({ correct: other } as never);
  const outcome = anew.run();
  expect(outcome.ok ? '' : outcome.message).toBe('');
  const { state } = outcome;
  expect(state.values.get('drop_tried', 'job')).toMatchObject({ value: 'n-heptane or isopropanol' });
  expect(state.values.get('drop_of', 'job')).toMatchObject({ value: expect.stringContaining('white spirit') });
  const drop = model.steps.get('drop-set')!;
  expect(drop.do).toMatch(
    /^Lay a swab wet with \{drop_of\} on that plastic or paint: off the film, .*Keep the swab wet\.$/,
  );
  expect(drop.wait?.meanwhile).toBe('Keep the swab wet. Close the bottle each time.');
  expect((drop.caution ?? []).map(sayOf).join()).toMatch(/ventilation.*safety glasses and gloves/);
  const order = model.procedure.steps.map((s) => s.id);
  expect(order.slice(order.indexOf('vapour') + 1).slice(0, 2)).toEqual(['drop-set', 'drop-test']);
  // No other material is tested: its film keeps each drop off, and nothing else is said of it.
  const varnish = new Job().answer('surroundings', 'job', { around: 'winding-varnish' });
  expect(value(varnish, 'around_verdict')).toBe('not proven - keep it dry');
});

it('says what must not be touched before the edge of a small window cuts the line', () => {
  const lines = [...model.steps.values()].flatMap((s) =>
    (s.ask ?? []).flatMap((q) => ('options' in q ? (q.options ?? []) : []).map((o) => `${o.label}  (${o.note ?? ''})`)),
  );
  const warned = lines.filter((line) => /do not touch/.test(line));
  expect(warned.length).toBeGreaterThanOrEqual(3);
  // 60 columns, less the edge, the digit and the mark of a cut.
  for (const line of warned) expect(line.indexOf('do not touch') + 'do not touch'.length).toBeLessThanOrEqual(52);
});

it('has the solvent that burns easiest under the last key', () => {
  const asks = (model.steps.get('solvent-choice')?.ask ?? []) as Extract<Question, { kind: 'choice' }>[];
  expect(asks.map((q) => q.options.at(-1)?.value)).toEqual(['acetone', 'acetone']);
});

it('says what to look for where nothing is known of the cause, behind shields too', () => {
  const job = closed({ front: 'shield', back: 'shield' });
  const { state } = job.upTo('cause', 'a').run();
  const said = fillIn(state.values, model.steps.get('cause')!.do, 'a');
  expect(said).not.toMatch(/\(what proves it\)|Nothing yet/);
});

it('lets nothing drip where nothing may drip', () => {
  const wash = (way: string): string => {
    const job = new Job().answer('bearing-solvent', 'a', { clean_way: way }).upTo('wash', 'a');
    return fillIn(job.run().state.values, model.steps.get('wash')!.do, 'a');
  };
  expect(wash('swab')).toMatch(/no drops.*When a stick is dirty, take a fresh one/);
  expect(wash('swab')).not.toMatch(/drip/);
  expect(wash('drip')).toMatch(/Let dirty solvent drip into the tray/);
});

describe('a bore that meters too coarsely', () => {
  const coarse = (by: string): Job => {
    const job = new Job();
    job.step('syringe').answers = {
      ...job.step('syringe').answers,
      syringe_by: by,
      ...(by === 'ruler' ? { syringe_bore_ruler: '12.5 mm' } : { syringe_bore_calliper: '40 mm' }),
    };
    if (by === 'ruler') delete job.step('syringe').answers?.syringe_bore_calliper;
    return job;
  };
  it('is told with the dose that is off, and no calliper is asked for that was used', () => {
    const said = refused(coarse('calliper').run());
    expect(said).toMatch(/the dose of 1\.4 mL can be off by [^.]*\. Take a narrower syringe/);
    expect(said).not.toMatch(/Measure it with a calliper/);
  });
  it('offers only the reading that counts', () => {
    const job = new Job().before('marks', 'job', {
      correct: { step: 'syringe', at: 'job', key: 'syringe_by', value: 'ruler', reason: 'no calliper' },
    });
    job.before('marks', 'job', { step: 'syringe', answers: { syringe_bore_ruler: '12.5 mm' } }).upTo('marks');
    const { state } = job.run();
    const gate = model.steps.get('marks')!.gates!.find((g) => g.id === 'meters-closely')!;
    const keys = correctable(state, gate, 'job').readings.map((r) => r.question.key);
    expect(keys).toContain('syringe_bore_ruler');
    expect(keys).not.toContain('syringe_bore_calliper');
  });
});

it('shows stages only to who runs in by stages', () => {
  const known = (drive: string, key: string): boolean => {
    const job = new Job().answer('run-in-plan', 'job', { drive_way: drive }).upTo('defect-tones', 'a');
    return job.run().state.values.get(key, 'job').known;
  };
  expect([known('full', 'stages_told'), known('full', 'runs_told')]).toEqual([true, false]);
  expect([known('bursts', 'stages_told'), known('bursts', 'runs_told')]).toEqual([false, true]);
});

describe('the first page', () => {
  it('calls a bearing topped up that was only topped up', () => {
    const { state } = closed({ front: 'shield', back: 'shield' }).run();
    expect(state.finished).toBe(true);
    expect(JSON.stringify(sheetOf(state).front.verdict)).toMatch(/in part only topped up/);
    expect(JSON.stringify(sheetOf(new Job().run().state).front.verdict)).toMatch(/Regreased by hand and run in to/);
  });
  it('calls no guess a measurement', () => {
    const { state } = new Job().backSealStays({ left_by: 'no-idea' }).run();
    const told = sheetOf(state).front.unusual.map((l) => l.text);
    expect(told).toContainEqual(expect.stringMatching(/Nobody knows how much old grease is behind it, .* is assumed/));
  });
});
