/** The two paces on the shipped job: the same values, stops, signatures and kinds of danger; only fewer confirmations. */
import { expect, test } from 'vitest';
import { replay } from '../../src/engine/replay/replay.js';
import type { State } from '../../src/engine/state/state.js';
import { cautionsAt } from '../../src/engine/steps/cautions.js';
import { kindOfCaution } from '../../src/procedure/caution.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { modelFor } from '../procedure/library.js';
import { practiceFile, readReplay } from '../pty/drive.js';

const file = readReplay(practiceFile);
const model = modelFor(file.procedure);
const done = (pace: 'learning' | 'brisk'): State => {
  const out = replay(model, { ...file, pace });
  expect(out.ok ? 'finished' : out.message).toBe('finished');
  return out.state;
};
const [learning, brisk] = [done('learning'), done('brisk')];

test('both end with every value the same', () => {
  const all = (s: State) =>
    [...model.keys.keys()].flatMap((key) =>
      model.places.flatMap((p) => {
        if (p.kind !== model.keys.get(key)?.at) return [];
        const v = s.values.get(key, p.id);
        // Minutes of a log count from the clock, which moves on with each entry.
        return /^elapsed_/.test(key) || !v.known ? [] : [[`${key}@${p.id}`, v.value] as const];
      }),
    );
  const moved = (value: unknown): unknown =>
    typeof value === 'number' ? Number(value.toPrecision(3)) : Array.isArray(value) ? value.map(moved) : value;
  expect(all(brisk).map(([k, v]) => [k, moved(v)])).toEqual(all(learning).map(([k, v]) => [k, moved(v)]));
});

test('the same readings, signatures and stops', () => {
  const of = (s: State) => ({
    answers: s.entries
      .flatMap((e) => (e.kind === 'answer' ? [`${e.step}@${e.place}:${e.key}=${String(e.value)}`] : []))
      .sort(),
    signs: s.entries.flatMap((e) => (e.kind === 'sign' ? [`${e.step}@${e.place}`] : [])),
    overrules: s.entries.flatMap((e) => (e.kind === 'overrule' ? [e.gate] : [])),
  });
  expect(of(brisk)).toEqual(of(learning));
});

test('every kind of danger that can happen is confirmed in both, in the brisk pace less often', () => {
  const kinds = (s: State) =>
    new Set(
      s.entries.flatMap((e) => {
        const step = e.kind === 'caution' && !e.known ? model.steps.get(e.step) : undefined;
        return step && 'place' in e ? cautionsAt(s.values, step, e.place).map(kindOfCaution) : [];
      }),
    );
  expect([...kinds(brisk)].sort()).toEqual([...kinds(learning)].sort());
  const count = (s: State): number => s.entries.filter((e) => e.kind === 'caution' && !e.known).length;
  expect(count(brisk)).toBeLessThan(count(learning));
});

test('the sheet says the same of the rotor', () => {
  const figures = (s: State) => sheetOf(s).headline.map((f) => [f.key, f.place, f.text]);
  expect(figures(brisk)).toEqual(figures(learning));
});
