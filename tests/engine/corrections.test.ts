/** Corrections, remedies, reopened decisions, settling, undo, branches, and what each would change. */
import { describe, expect, it } from 'vitest';
import { type Action, propose } from '../../src/engine/actions/propose.js';
import type { Draft } from '../../src/engine/journal/entry.js';
import { derivation } from '../../src/engine/state/derivation.js';
import { impact } from '../../src/engine/state/impact.js';
import { Bench, built, finished, measured, modelFrom, prepared, pumpText, readyToFill } from './pump.js';

const filled = () => readyToFill().done('fill', 'a').answer('screws', 'a', { screws: 4 });
/** Half of pi/4 x 40^2 x 50 mm3 = 31.416 mL; of 36 mm bore 25.447 mL. */
const AT_40 = (Math.PI / 4) * 40 * 40 * 50 * 1e-3 * 0.5;
const AT_36 = (Math.PI / 4) * 36 * 36 * 50 * 1e-3 * 0.5;

describe('corrections', () => {
  it('need a reason, a reading to correct, and leave the old one in the journal', () => {
    const bench = filled();
    const correct = { do: 'correct', step: 'bore', place: 'a', key: 'bore', text: '36' } as const;
    expect(bench.try({ ...correct, reason: '' })).toMatch(/reason in words/);
    expect(bench.try({ ...correct, key: 'wear', reason: 'read wrongly' })).toMatch(/asks no “wear”/);
    expect(bench.try({ ...correct, place: 'b', text: 'x', reason: 'read wrongly' })).toMatch(/Bore/);
    const before = bench.entries;
    bench.do({ ...correct, reason: 'read wrongly' });
    expect(bench.entries.slice(0, before.length)).toEqual(before);
    expect(bench.value('bore', 'a')).toBe(36);
  });

  it('flag physical work with old, new and difference', () => {
    const bench = filled().correct('bore', 'a', 'bore', '36');
    const [remedy] = bench.state.remedies;
    expect(remedy?.view.step.id).toBe('fill');
    // 25.45 mL instead of 31.42 mL, 5.97 mL less.
    expect(remedy?.text).toBe('Now 25.4 mL, it was 31.4 mL. Add or take out −6.0 mL.');
    expect(remedy?.changed[0]).toMatchObject({ key: 'oil_due', old: '31.4 mL', now: '25.4 mL' });
    expect(bench.state.view('fill', 'a')?.changed[0]).toEqual({
      key: 'oil_due',
      old: expect.closeTo(AT_40, 9),
      now: expect.closeTo(AT_36, 9),
    });
  });

  it('a change under 1 % flags nothing', () => {
    expect(filled().correct('bore', 'a', 'bore', '40.1').state.remedies).toEqual([]);
  });

  it('several small changes add up', () => {
    const bench = filled().correct('bore', 'a', 'bore', '40.1').correct('bore', 'a', 'bore', '40.3');
    expect(bench.state.remedies).toHaveLength(1);
  });

  it('settling takes the new figures as those of the work', () => {
    const bench = filled().correct('bore', 'a', 'bore', '36');
    const settle = { do: 'settle', step: 'fill', place: 'a' } as const;
    expect(bench.try({ ...settle, reason: ' ' })).toMatch(/what was done/);
    bench.do({ ...settle, reason: 'took 6 mL out' });
    expect(bench.state.remedies).toEqual([]);
    expect(bench.try({ ...settle, reason: 'again' })).toMatch(/nothing to settle/);
    bench.correct('bore', 'a', 'bore', '40');
    expect(bench.state.remedies[0]?.text).toMatch(/it was 25.4 mL/);
  });

  it('reopen a decision, which is then taken again', () => {
    const bench = filled().correct('bore', 'a', 'bore', '36');
    expect(bench.status('decide', 'a')).toBe('reopened');
    expect(bench.status('decide', 'b')).toBe('done');
    bench.answer('decide', 'a', { keep: 'keep' });
    expect(bench.status('decide', 'a')).toBe('done');
  });

  it('to a corrected reading and back leave no mark but in the journal', () => {
    const bench = filled();
    const before = bench.state.views.map((v) => [v.step.id, v.place, v.status]);
    bench.correct('bore', 'a', 'bore', '36').correct('bore', 'a', 'bore', '40');
    expect(bench.state.views.map((v) => [v.step.id, v.place, v.status])).toEqual(before);
    expect(bench.state.remedies).toEqual([]);
    expect(bench.state.ledger.corrections).toHaveLength(2);
  });

  it('want a hold signed again when what was signed changed', () => {
    const bench = finished();
    expect(bench.status('witness', 'job')).toBe('done');
    bench.correct('witness', 'job', 'looks', 'no');
    expect(bench.state.view('witness', 'job')?.wants).toBe('sign');
    expect(bench.status('run', 'job')).toBe('done');
    expect(bench.state.finished).toBe(false);
    bench.do({ do: 'sign', step: 'witness', place: 'job', initials: 'ZZ' });
    expect(bench.state.finished).toBe(true);
  });

  it('are told for work done although a gate now stops the step', () => {
    const gated = modelFrom(
      pumpText.replace(
        '    predict: [oil_due]',
        '    predict: [oil_due]\n    gates:\n      - { id: holds, must: oil_due < 40.0, say: Too much., overrule: never }',
      ),
    );
    const bench = readyToFill(new Bench(gated)).done('fill', 'a').correct('bore', 'a', 'bore', '60');
    expect(bench.state.board.own(gated.steps.get('fill')!, 'a').status).toBe('stopped');
    expect(bench.state.remedies.map((r) => r.view.step.id)).toEqual(['fill']);
  });

  it('a decision of two questions is asked wholly again', () => {
    const two = modelFrom(
      pumpText.replace(
        '        options: [ { value: keep, label: Keep }, { value: replace, label: Replace } ]',
        '        options: [ { value: keep, label: Keep }, { value: replace, label: Replace } ]\n      - { key: sure, kind: yes-no, label: Sure }',
      ),
    );
    const bench = prepared(new Bench(two), 'one');
    bench.answer('outlet-there', 'a', { has_outlet: 'no' });
    bench.answer('bore', 'a', { bore: '40', stroke: '50', lid: '80x60' });
    bench.answer('valve-look', 'a.inlet', { seat: 'good' }).answer('decide', 'a', { keep: 'keep', sure: 'yes' });
    bench.correct('bore', 'a', 'bore', '36');
    expect(bench.state.view('decide', 'a')).toMatchObject({ status: 'reopened', question: { key: 'keep' } });
    bench.answer('decide', 'a', { keep: 'keep' });
    expect(bench.state.view('decide', 'a')).toMatchObject({ status: 'reopened', question: { key: 'sure' } });
    bench.answer('decide', 'a', { sure: 'yes' });
    expect(bench.status('decide', 'a')).toBe('done');
  });

  it('a decision made by hand is taken again, and is no work to be put right', () => {
    const text = pumpText.replace(
      '    decision: true',
      '    decision: true\n    physical: true\n    remedy: Put it right.',
    );
    const bench = prepared(new Bench(modelFrom(text)), 'one').answer('outlet-there', 'a', { has_outlet: 'no' });
    bench
      .answer('bore', 'a', { bore: '40', stroke: '50', lid: '80x60' })
      .answer('valve-look', 'a.inlet', { seat: 'good' });
    bench.answer('decide', 'a', { keep: 'keep' }).done('decide', 'a').correct('bore', 'a', 'bore', '36');
    expect(bench.state.view('decide', 'a')).toMatchObject({ status: 'reopened', changed: [{ key: 'swept' }] });
    expect(bench.state.remedies).toEqual([]);
  });

  it('a hazardous decision is taken and confirmed again', () => {
    const text = pumpText.replace('    decision: true', '    decision: true\n    hazard: true\n    caution: [Sharp.]');
    const bench = prepared(new Bench(modelFrom(text)), 'one');
    bench.answer('outlet-there', 'a', { has_outlet: 'no' });
    bench.answer('bore', 'a', { bore: '40', stroke: '50', lid: '80x60' });
    bench.answer('valve-look', 'a.inlet', { seat: 'good' }).do({ do: 'caution', step: 'decide', place: 'a' });
    bench.answer('decide', 'a', { keep: 'keep' }).done('decide', 'a').correct('bore', 'a', 'bore', '36');
    expect(bench.status('decide', 'a')).toBe('reopened');
    bench.answer('decide', 'a', { keep: 'keep' });
    expect(bench.state.view('decide', 'a')?.wants).toBe('confirm');
    bench.done('decide', 'a');
    expect(bench.status('decide', 'a')).toBe('done');
  });

  it('under a group that is begun never lock the job', () => {
    // The decision is reopened in the middle of filling, and needs a signature as well.
    const held = modelFrom(
      pumpText.replace(
        '    rests_on: [swept]',
        '    rests_on: [swept]\n    hold: { say: Mentor looks, self_check: Mine. }',
      ),
    );
    const bench = prepared(new Bench(held));
    for (const head of ['a', 'b']) {
      measured(bench, head).do({ do: 'sign', step: 'decide', place: head, initials: 'ZZ' });
    }
    bench.answer('oil-kind', 'job', { oil: 'thin' }).done('fill', 'a');
    bench.correct('bore', 'a', 'bore', '36').correct('bore', 'b', 'bore', '36');
    for (const head of ['a', 'b']) bench.answer('decide', head, { keep: 'keep' });
    expect(bench.state.available().length).toBeGreaterThan(0);
    bench.do({ do: 'sign', step: 'decide', place: 'a', initials: 'ZZ' }).answer('screws', 'a', { screws: 4 });
    bench.do({ do: 'sign', step: 'decide', place: 'b', initials: 'ZZ' });
    expect(bench.status('fill', 'b')).toBe('open');
  });
});

describe('undo', () => {
  it('takes back the last thing, then the one before', () => {
    const bench = readyToFill();
    const state = bench.state;
    bench.done('fill', 'a').do({ do: 'undo' });
    expect(bench.status('fill', 'a')).toBe('open');
    expect(bench.state.views.map((v) => v.status)).toEqual(state.views.map((v) => v.status));
    bench.do({ do: 'undo' });
    expect(bench.status('oil-kind', 'job')).toBe('open');
  });

  it('takes back a correction and a raised branch', () => {
    const bench = filled().correct('bore', 'a', 'bore', '36').do({ do: 'undo' });
    expect(bench.value('bore', 'a')).toBe(40);
    expect(bench.state.remedies).toEqual([]);
    bench.do({ do: 'raise', branch: 'ring-dropped', place: 'a' });
    expect(bench.value('bore', 'a')).toBeUndefined();
    bench.do({ do: 'undo' });
    expect(bench.value('bore', 'a')).toBe(40);
  });

  it('ends at the beginning of the job', () => {
    expect(new Bench().try({ do: 'undo' })).toMatch(/nothing left to undo/);
  });

  it('never takes back a signature of another person silently: it is one entry like any other', () => {
    const bench = built()
      .answer('witness', 'job', { looks: 'yes' })
      .do({ do: 'sign', step: 'witness', place: 'job', initials: 'ZZ' });
    bench.do({ do: 'undo' });
    expect(bench.state.view('witness', 'job')?.wants).toBe('sign');
    expect(bench.entries.some((e) => e.kind === 'sign')).toBe(true);
  });
});

describe('unforeseen branches', () => {
  it('put their steps first, reopen others at that place only', () => {
    const bench = readyToFill().do({ do: 'raise', branch: 'ring-dropped', place: 'a', text: 'piston ring' });
    expect(bench.value('event_ring_dropped', 'a')).toBe(true);
    expect(bench.value('event_ring_dropped', 'b')).toBe(false);
    expect(bench.value('any_dropped', 'job')).toBe(true);
    expect(bench.status('pick-up', 'a')).toBe('open');
    expect(bench.status('pick-up', 'b')).toBe('not-needed');
    expect(bench.status('bore', 'a')).toBe('later');
    expect(bench.status('decide', 'b')).toBe('done');
    bench.answer('pick-up', 'a', { ring_found: 'no' });
    expect(bench.status('pick-up', 'a')).toBe('stopped');
    bench.answer('pick-up', 'a', { ring_found: 'yes' });
    expect(bench.status('bore', 'a')).toBe('open');
    expect(bench.value('bore', 'a')).toBeUndefined();
    bench.answer('bore', 'a', { bore: '40', stroke: '50', lid: '80x60' }).answer('decide', 'a', { keep: 'keep' });
    expect(bench.status('fill', 'a')).toBe('open');
  });

  it('raised a second time, ask again', () => {
    const raise: Action = { do: 'raise', branch: 'ring-dropped', place: 'a' };
    const bench = readyToFill().do(raise).answer('pick-up', 'a', { ring_found: 'yes' }).do(raise);
    expect(bench.status('pick-up', 'a')).toBe('open');
  });

  it('are found from a place below, refused elsewhere', () => {
    const bench = readyToFill();
    expect(bench.state.branches('a.inlet').map((b) => b.id)).toEqual(['ring-dropped']);
    expect(bench.state.branches('job')).toEqual([]);
    bench.do({ do: 'raise', branch: 'ring-dropped', place: 'a.inlet' });
    expect(bench.state.ledger.raised[0]?.place).toBe('a');
    expect(bench.try({ do: 'raise', branch: 'ring-dropped', place: 'job' })).toMatch(/name which one/);
    expect(bench.try({ do: 'raise', branch: 'ring-droped', place: 'a' })).toMatch(/did you mean “ring-dropped”/);
  });

  it('can’t be raised at a place that takes no part', () => {
    const bench = measured(prepared(new Bench(), 'one'), 'a');
    expect(bench.try({ do: 'raise', branch: 'ring-dropped', place: 'b' })).toMatch(/takes no part/);
  });
});

describe('impact', () => {
  const ifCorrected = (bench: Bench, key: string, text: string, step = 'bore', place = 'a') => {
    const p = propose(bench.state, { do: 'correct', step, place, key, text, reason: 'read wrongly' }, 'AP');
    if (!p.ok) throw new Error(p.message);
    return impact(bench.state, p.drafts as Draft[]);
  };

  it('tells values, work with its remedy, and decisions, and records nothing', () => {
    const bench = filled();
    const entries = bench.entries;
    const i = ifCorrected(bench, 'bore', '36');
    expect(bench.entries).toBe(entries);
    expect(i.values.map((v) => `${v.key}@${v.place}`).sort()).toEqual(
      ['bore@a', 'dues@job', 'oil_due@a', 'oil_total@job', 'swept@a'].sort(),
    );
    expect(i.values[0]).toMatchObject({ shown: true });
    expect(i.values.find((v) => v.key === 'oil_due')).toMatchObject({ where: 'Left head', label: 'Oil to pour' });
    expect(i.remedies.map((r) => r.text)).toEqual(['Now 25.4 mL, it was 31.4 mL. Add or take out −6.0 mL.']);
    expect(i.steps).toEqual([
      { step: 'decide', place: 'a', where: 'Left head', title: 'Keep or replace', what: 'reopened' },
    ]);
  });

  it('tells gates that close and open', () => {
    const bench = built();
    const closing = ifCorrected(bench, 'gauge', '7', 'pressure', 'job');
    expect(closing.gates).toEqual([
      expect.objectContaining({ gate: 'no-pressure', what: 'closes', say: 'The gauge shows 7. Bleed on.' }),
    ]);
    bench.correct('pressure', 'job', 'gauge', '7');
    const opening = ifCorrected(bench, 'gauge', '0', 'pressure', 'job');
    expect(opening.gates).toEqual([expect.objectContaining({ gate: 'no-pressure', what: 'opens' })]);
    expect(opening.steps).toEqual([expect.objectContaining({ step: 'pressure', what: 'released' })]);
  });

  it('tells steps that become needed or fall away', () => {
    const bench = built();
    const i = ifCorrected(bench, 'seat', 'worn', 'valve-look', 'a.inlet');
    expect(i.steps).toContainEqual(expect.objectContaining({ step: 'lap', place: 'a.inlet', what: 'needed' }));
    expect(i.steps).toContainEqual(expect.objectContaining({ step: 'valve-look', what: 'open again' }));
    const away = ifCorrected(bench, 'heads', 'one', 'start', 'job');
    expect(away.steps.filter((s) => s.what === 'no longer needed').every((s) => s.place.startsWith('b'))).toBe(true);
    expect(away.steps).toContainEqual(expect.objectContaining({ step: 'fill', place: 'b', what: 'no longer needed' }));
  });

  it('of a correction that changes nothing is empty', () => {
    expect(ifCorrected(filled(), 'bore', '40')).toEqual({ values: [], steps: [], gates: [], remedies: [] });
  });
});

it('a decision that was settled and then given anew counts with the figures under it', () => {
  const bench = measured(prepared(new Bench(), 'one'), 'a');
  const status = () => bench.status('decide', 'a');
  expect([status(), bench.correct('bore', 'a', 'bore', '36') && status()]).toEqual(['done', 'reopened']);
  bench.do({ do: 'settle', step: 'decide', place: 'a', reason: 'looked again' });
  expect([status(), bench.correct('bore', 'a', 'bore', '38') && status()]).toEqual(['done', 'reopened']);
  expect(bench.answer('decide', 'a', { keep: 'keep' }).status('decide', 'a')).toBe('done');
  // What was settled no longer counts: back at its figures the decision is open again.
  expect(bench.correct('bore', 'a', 'bore', '36').status('decide', 'a')).toBe('reopened');
});

describe('derivation', () => {
  it('goes down to readings, table row and formula with numbers', () => {
    const bench = filled();
    const d = derivation(bench.state, 'oil_due', 'a');
    expect(d).toMatchObject({
      kind: 'rule',
      label: 'Oil to pour',
      where: 'Left head',
      formula: 'swept * share / 100.0',
      sources: [{ tag: 'CP', says: 'common practice, no source' }],
    });
    expect(d.shown).toMatch(/^31\.4 ± 0\.4 mL$|^31\.42 ± 0\.35 mL$|^31\.4/);
    const swept = d.inputs.find((i) => i.key === 'swept')!;
    expect(swept).toMatchObject({ kind: 'calculation', formula: 'V = pi/4 b^2 s', sources: [{ tag: 'A' }] });
    expect(swept.worked).toEqual(['V = pi/4 x 40^2 x 50 = 62832 mm3']);
    expect(swept.inputs.map((i) => i.key)).toEqual(['bore', 'stroke']);
    expect(swept.inputs[0]).toMatchObject({ kind: 'reading', step: 'Measure the cylinder', by: 'AP', typed: '40' });
    expect(swept.inputs[0]?.at).toMatch(/^2026-03-02T08:00/);
    const share = d.inputs.find((i) => i.key === 'share')!;
    expect(share.sources).toEqual([{ tag: 'P', says: 'An oil table, 1999', row: 'oils: thin' }]);
  });

  it('tells which reading dominates the uncertainty', () => {
    // 2 x 0.1/40 = 0.5 % by the bore, 0.5/50 = 1 % by the stroke.
    const d = derivation(filled().state, 'oil_due', 'a');
    expect(d.dominant).toEqual({ key: 'swept', label: 'Swept volume', reading: 'Stroke' });
  });

  it('never cites what is from memory', () => {
    const bench = measured(prepared(new Bench(), 'one'), 'a').answer('oil-kind', 'job', { oil: 'thick' });
    const share = derivation(bench.state, 'oil_due', 'a').inputs.find((i) => i.key === 'share')!;
    expect(share.sources).toEqual([{ tag: 'M', says: 'usual, verify', row: 'oils: thick' }]);
    expect(share.inputs[0]?.sources[0]?.says).toBe('usual, verify');
  });

  it('of a corrected reading tells the old one and the reason', () => {
    const d = derivation(filled().correct('bore', 'a', 'bore', '36').state, 'bore', 'a');
    expect(d).toMatchObject({ kind: 'corrected', before: '40 mm', reason: 'read wrongly', shown: '36.0 ± 0.1 mm' });
  });

  it('of an unknown value tells what is missing', () => {
    const d = derivation(prepared().state, 'oil_due', 'a');
    expect(d).toMatchObject({ kind: 'unknown', value: undefined });
    expect(d.shown).toBe('not known: needs Bore, Stroke, Oil');
    expect(derivation(prepared().state, 'no_such_key', 'a').shown).toMatch(/no “no_such_key”/);
  });

  it('gathers from every place, and names what was assumed', () => {
    const d = derivation(filled().state, 'oil_total', 'job');
    expect(d.inputs[0]?.inputs.map((i) => i.place)).toEqual(['a', 'b']);
    expect(derivation(filled().state, 'name_a', 'job').kind).toBe('assumed');
  });
});
