/** What somebody with late English met in the shipped procedures. */
import { describe, expect, it } from 'vitest';
import { correctable } from '../../src/engine/state/correctable.js';
import { gateSentence } from '../../src/engine/state/refusals.js';
import { modelFor } from '../procedure/library.js';
import { Job, model, refused } from './good-job.js';

describe('a stop whose figure cannot be worked out', () => {
  // Catalogue figures that contradict each other: a seal is said to allow more than the open bearing.
  const job = (): Job => {
    const j = new Job().answer('seal-make', 'a.front', { seal_kind: 'contact' });
    j.after('seal-make', 'a.back', {
      step: 'sealed-speed',
      at: 'a',
      answers: { sealed_limit: '14000 rpm' },
      held: 'claimed-speed',
    });
    j.items.length = j.items.findIndex((x) => 'step' in x && x.step === 'sealed-speed') + 1;
    return j;
  };
  it('says why, and what is to be corrected, not the names of figures', () => {
    const { state } = job().run();
    const view = state.view('sealed-speed', 'a');
    if (!view) throw new Error('the step is not there');
    const said = gateSentence(state, view);
    expect(said).not.toMatch(/\((?:limiting|top) speed/i);
    // As they were typed.
    expect(said).toMatch(/^This cannot be judged yet\. A seal never makes a bearing faster: 14000 rpm .* 12500 rpm/);
    expect(said).toMatch(/Correct the wrong figure\./);
    const gate = view.gates[0]?.gate;
    const keys = gate ? correctable(state, gate, 'a').readings.map((r) => r.question.key) : [];
    expect(keys.slice(0, 3).sort()).toEqual(['open_limit', 'sealed_limit', 'top_speed']);
  });
});

describe('something unforeseen', () => {
  const found = (id: string, typed: string): string[] =>
    (modelFor(id).procedure.branches ?? [])
      .filter((b) => b.title.toLowerCase().includes(typed) || b.words?.some((w) => w.startsWith(typed)))
      .map((b) => b.id);
  const everywhere = ['hot', 'heat', 'burn', 'smoke', 'fire', 'spill', 'cut', 'hurt', 'noise', 'loud', 'smell', 'leak'];
  const here = ['drop', 'fell', 'lost', 'rust', 'dirt', 'metal', 'too much', 'label', 'break', 'battery', 'stuck'];
  it.each([
    ...everywhere.map((w) => ['inspect-after-run', w] as const),
    ...[...everywhere, ...here].map((w) => ['regrease-in-place', w] as const),
  ])('in %s “%s” finds more than “Something else”', (id, typed) => {
    expect(found(id, typed)).not.toEqual([]);
  });
  it('has plain words for each of its events', () => {
    for (const id of ['regrease-in-place', 'inspect-after-run'])
      for (const b of modelFor(id).procedure.branches ?? [])
        expect([b.id, b.words?.length ?? 0]).not.toEqual([b.id, 0]);
  });
  it('with a fire or somebody hurt stops the work until the person responsible allows it, and the sheet tells of it', () => {
    const gate = model.steps.get('emergency-stop')?.gates?.[0];
    expect(gate).toMatchObject({ must: 'emergency_over', overrule: 'never' });
    expect(model.procedure.sheet?.front?.unusual?.some((u) => u.when === 'event_emergency')).toBe(true);
  });
});

describe('which rotor this is', () => {
  it('is compared on the shaft, once it is safe, and another one stops the work', () => {
    const said = refused(new Job().answer('size', 'a', { shaft_number: 'no' }).run());
    expect(said).toMatch(/This is another rotor\. Correct/);
    const { steps } = model.procedure;
    const at = (id: string): number => steps.findIndex((s) => s.id === id);
    expect(at('size')).toBeGreaterThan(at('prove-dead'));
    const asked = model.steps.get('size')?.ask?.find((q) => q.key === 'shaft_number');
    expect(asked?.label).toContain('{rotor}');
  });
});

describe('a side that cannot be seen yet', () => {
  const job = (): Job => {
    const j = new Job().answer('seal-make', 'a.back', { seal_kind: 'unseen' });
    delete j.step('seal-make', 'a.back').answers?.seal_rubber;
    return j;
  };
  const value = (j: Job, key: string, place: string): unknown => {
    const v = j.run().state.values.get(key, place);
    return v.known ? v.value : undefined;
  };
  it('counts as a rubber that touches and that nobody knows', () => {
    const j = job();
    j.items.length = j.items.findIndex((x) => 'step' in x && x.step === 'history');
    expect(value(j, 'rubber_here', 'a.back')).toBe('unknown');
    expect(value(j, 'has_contact', 'a')).toBe(true);
    expect(value(j, 'covered', 'a.back')).toBe(true);
  });
  it('has to be said before that seal is pushed out', () => {
    const gate = model.steps.get('open-back')?.gates?.find((g) => g.id === 'back-seen');
    expect(gate).toMatchObject({ at: 'enter', must: '!back_unseen', overrule: 'never' });
  });
  it('is never the front', () => {
    const j = new Job().answer('seal-make', 'a.front', { seal_kind: 'unseen' });
    delete j.step('seal-make', 'a.front').answers?.seal_rubber;
    expect(refused(j.run())).toMatch(/The front is the side that you can see/);
  });
});

describe('words that stood there without a meaning', () => {
  it('are said in plain ones', () => {
    const verdict = model.procedure.facts?.find((f) => f.key === 'vapour_verdict');
    expect(JSON.stringify(verdict)).toMatch(/below the limit for a working day \(REL\)/);
    expect(JSON.stringify(verdict)).toMatch(/dangerous at once \(above IDLH\)/);
    expect(model.keys.get('kappa')?.label).toMatch(/1 or more: thick enough/);
    expect(model.keys.get('ndm')?.label).toMatch(/speed x mean diameter/);
  });
});
