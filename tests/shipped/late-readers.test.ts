/** What somebody with late English met in the shipped procedures. */
import { describe, expect, it } from 'vitest';
import { correctable } from '../../src/engine/state/correctable.js';
import { gateSentence } from '../../src/engine/state/refusals.js';
import { modelFor } from '../procedure/library.js';
import { Job, model } from './good-job.js';

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
