/** Nobody is asked for a figure that an invented rotor shows nowhere. */
import { describe, expect, it } from 'vitest';
import { propose } from '../../src/engine/actions/propose.js';
import type { Entry } from '../../src/engine/journal/entry.js';
import { State } from '../../src/engine/state/state.js';
import { absentWords } from '../../src/training/absent.js';
import { drawnRotor } from '../../src/training/generate.js';
import { keysOfReading, PracticeRotor } from '../../src/training/practice-rotor.js';
import { catalogue, modelOfRotor, rotorNamed, rotors } from './library.js';
import { planOf } from './plans.js';
import { walk } from './walk.js';

const model = modelOfRotor(catalogue[0]!);
const drawn = Array.from({ length: 40 }, (_, i) => new PracticeRotor(drawnRotor(i + 1, catalogue)!, model));
const figures = new Set(['number', 'quantity', 'dimensions', 'counter']);
/** Asked only after another answer than the one that the rotor shows: there the guide says so. */
const elsewhere = new Set(
  'run_to_stage burst_a burst_b coast_from coast_1 coast_2 coast_3 coast_before weigh_before_top quarters temp_b barrel_length'.split(
    ' ',
  ),
);

describe.each([...rotors, ...drawn].map((r) => [r.id, r] as const))('%s', (_, rotor) => {
  it('shows every figure that is asked, at the step that asks it', () => {
    const log = rotor.file.run_in?.log;
    const simulated = new Set([...Object.keys(log?.rings ?? {}), log?.stage, log?.sound]);
    const columns = new Set((rotor.file.logs ?? []).flatMap((l) => l.columns));
    const missing = model.procedure.steps.flatMap((s) => {
      if (s.decision || s.branch !== undefined) return [];
      const places = ['job', 'a', 'a.front', 'a.back'].filter((p) => model.place.get(p)?.kind === s.at || p === s.at);
      return (s.ask ?? []).flatMap((q) => {
        if (!figures.has(q.kind) || q.suggest !== undefined || elsewhere.has(q.key)) return [];
        if (simulated.has(q.key) || columns.has(q.key)) return [];
        return places
          .filter(
            (p) => !rotor.file.readings.some((r) => r.step === s.id && r.at === p && keysOfReading(r).includes(q.key)),
          )
          .map((p) => `${s.id}@${p} ${q.key}`);
      });
    });
    expect(missing).toEqual([]);
  });
});

describe('what is asked only since something was misread', () => {
  const rotor = rotorNamed('quiet-one');
  const upTo = (step: string): State =>
    walk(model, rotor, { ...planOf(rotor.file, 'caught'), end: (_, v) => v.step.id === step }).state;
  const with_ = (s: State, step: string, place: string, key: string, text: string): State => {
    const p = propose(s, { do: 'answer', step, place, key, text }, 'AP');
    if (!p.ok) throw new Error(p.message);
    const at = new Date(s.now).toISOString();
    const more = p.drafts.map((d, i) => ({ ...d, seq: s.entries.length + i + 1, at }) as Entry);
    return new State(model, [...s.entries, ...more], s.now + 1000);
  };
  it('blames no answer, and says the way back', () => {
    const both = with_(upTo('ends'), 'ends', 'job', 'ends', 'both');
    const said = absentWords(rotor, both, { step: 'size', place: 'b', key: 'bearing_size', row: 0 });
    expect(said).toBe('It shows nothing for your answers here: u goes back.');
  });
  it('says nothing where a figure is shown, where something is decided, and where a word is free', () => {
    const state = upTo('ends');
    for (const [step, place, key] of [
      ['size', 'a', 'bearing_size'],
      ['dose', 'a', 'dose_set'],
      ['statement', 'job', 'remarks'],
    ] as const)
      expect(absentWords(rotor, state, { step, place, key, row: 0 })).toBeUndefined();
  });
  it('weighs the lump too where somebody puts it on the scale', () => {
    expect(rotor.typed('residue-amount', 'a', 'residue_mass', 0)).toBe('0.50 g');
  });
});

it('a strip held to a bearing whose drying was cut short is wet, until the time is over', () => {
  const rotor = rotorNamed('quiet-one');
  const { state } = walk(model, rotor, { ...planOf(rotor.file, 'caught'), end: (_, v) => v.step.id === 'white-cloth' });
  const dried = state.entries.findLastIndex((e) => e.kind === 'done' && e.step === 'dry');
  const entries = state.entries.slice(0, dried + 1);
  const at = Date.parse(entries.at(-1)?.at ?? '');
  const waiting = new State(model, entries, at + 60_000);
  expect(waiting.view('dry', 'a')?.status).toBe('waiting');
  const p = propose(
    waiting,
    { do: 'overrule', step: 'dry', place: 'a', gate: 'wait', reason: 'no time', initials: 'MN' },
    'AP',
  );
  if (!p.ok) throw new Error(p.message);
  const more = p.drafts.map((d, i) => ({ ...d, seq: dried + 2 + i, at: new Date(at + 60_000).toISOString() }) as Entry);
  const shown = (minutes: number) =>
    rotor.typed('white-cloth', 'a', 'dry_now', 0, new State(model, [...entries, ...more], at + minutes * 60_000));
  expect(shown(2)).toBe('no');
  expect(shown(24 * 60)).toBe('yes');
});
