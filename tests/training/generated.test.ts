/**
 * Rotors drawn by chance, each played by a careful person and by one who wants to be done: the careful one never falls,
 * the other falls into each trap that was set, and the debrief names its true cause.
 */
import { describe, expect, it } from 'vitest';
import { debriefOf } from '../../src/training/debrief.js';
import { debriefText } from '../../src/training/debrief-lines.js';
import { drawnRotor } from '../../src/training/generate.js';
import { PracticeRotor } from '../../src/training/practice-rotor.js';
import type { Rotor } from '../../src/training/rotor-file.js';
import { size } from '../setup/size.js';
import { catalogue, modelOfRotor } from './library.js';
import { planOf } from './plans.js';
import { walk } from './walk.js';

const drawn = (n: number): Rotor => drawnRotor(n, catalogue)!;
const model = modelOfRotor(catalogue[0]!);
describe('the catalogue', () => {
  it('has at least 14 kinds of trap, each with a plan, a skill and its causes', () => {
    const traps = catalogue.flatMap((r) => r.traps);
    expect(new Set(traps.map((t) => t.id)).size).toBeGreaterThanOrEqual(14);
    for (const r of catalogue) expect(r.careful && r.careless, r.rotor).toBeDefined();
    for (const t of traps)
      for (const k of ['skill', 'seen', 'taken_for', 'was'] as const) expect(t[k], `${t.id} ${k}`).toBeTruthy();
  });
});

describe('drawing', () => {
  it('gives the same for the same number, and another for another', () => {
    expect(drawn(7)).toEqual(drawn(7));
    const all = Array.from({ length: 50 }, (_, i) => JSON.stringify({ ...drawn(i + 1), rotor: '', title: '' }));
    expect(new Set(all).size).toBe(50);
  });
  it('gives the same from a catalogue that was written and read back, as the program has it', () => {
    const back = JSON.parse(JSON.stringify(catalogue)) as typeof catalogue;
    for (const n of [20, 41, 54, 138]) {
      const [one, other] = [drawn(n), drawnRotor(n, back)!];
      expect(other.careful, `${n}`).toEqual(one.careful);
      // What nothing else than the plain rotor plans for does not come before what its traps ask for.
      const ways = new Set(one.readings.flatMap((r) => (r.key === 'cloth' ? (r.ways ?? []) : [])).map((w) => w.way));
      for (const way of ways.size ? (one.careful?.ways?.cloth ?? []) : []) expect([...ways], `${n}`).toContain(way);
    }
  });
  it('sets every trap of the catalogue sooner or later', () => {
    const seen = new Set(Array.from({ length: 200 }, (_, i) => drawn(i + 1).traps.map((t) => t.id)).flat());
    expect([...seen].sort()).toEqual(catalogue.flatMap((r) => r.traps.map((t) => t.id)).sort());
  });
  it('asks how to go about it at more steps than those with a trap', () => {
    for (let n = 1; n <= 20; n++) {
      const rotor = drawn(n);
      const asked = new Set(rotor.readings.filter((r) => r.ways).map((r) => `${r.at}:${r.key}`));
      expect(asked.size, `${n}`).toBeGreaterThan(rotor.traps.length + 2);
    }
  });
});

const numbers = Array.from({ length: size(2, 200) }, (_, i) => i + 1);
describe.each(numbers)('rotor number %i', (n) => {
  const file = drawn(n);
  const rotor = new PracticeRotor(file, model);
  const last = file.traps.every((t) => !['run-in', 'power'].includes(t.skill ?? ''));
  it('never catches the careful one', () => {
    const { state } = walk(model, rotor, planOf(file, 'caught'));
    const made = debriefOf(state, rotor);
    expect(made.traps.map((t) => [t.id, t.end])).toEqual(file.traps.map((t) => [t.id, 'caught']));
    expect(made.finished).toBe(true);
    // Care always pays: every mark.
    expect(made.care?.marks).toBe(made.care?.of);
    expect(made.misread).toEqual([]);
  });
  it('catches the careless one in each trap, and the debrief names the cause', () => {
    const plan = planOf(file, 'fell');
    // What was done before shows in the run-in; it need not be gone through each time.
    const { state } = walk(model, rotor, {
      ...plan,
      end: (_, v) => last && v.step.id === 'run-in-log',
    });
    const made = debriefOf(state, rotor);
    const owed = file.traps.filter((t) => t.id !== 'meter-not-proven');
    const ends = new Map(made.traps.map((t) => [t.id, t.end]));
    for (const t of owed) {
      expect(ends.get(t.id), t.id).toBe('fell');
      expect(debriefText(made)).toContain(t.was);
    }
  });
});
