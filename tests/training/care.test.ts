/** Whoever goes about it carelessly is told and loses marks where nothing came of it too; whoever is careful has them all. */
import { describe, expect, it } from 'vitest';
import { propose } from '../../src/engine/actions/propose.js';
import type { Entry } from '../../src/engine/journal/entry.js';
import { State } from '../../src/engine/state/state.js';
import { type Debrief, debriefOf } from '../../src/training/debrief.js';
import { debriefText } from '../../src/training/debrief-lines.js';
import { drawnRotor } from '../../src/training/generate.js';
import { PracticeRotor } from '../../src/training/practice-rotor.js';
import { attemptOf, progressOf, skillsOf } from '../../src/training/progress.js';
import type { Rotor } from '../../src/training/rotor-file.js';
import { catalogue, modelOfRotor, rotorNamed } from './library.js';
import { planOf } from './plans.js';
import { type Walk, walk } from './walk.js';

const model = modelOfRotor(catalogue[0]!);
const early: Walk['end'] = (_, v) => v.step.id === 'run-in-log';
const played = (file: Rotor, plan: Walk): Debrief => {
  const rotor = new PracticeRotor(file, model);
  return debriefOf(walk(model, rotor, { ...plan, end: early }).state, rotor);
};

describe('the catalogue', () => {
  it('marks each way of a careless plan that no careful one takes', () => {
    for (const r of catalogue)
      for (const [key, ways] of Object.entries(r.careless?.ways ?? {}))
        for (const way of ways.filter((w) => !r.careful?.ways?.[key]?.includes(w))) {
          const all = r.readings.flatMap((x) => (x.key === key ? (x.ways ?? []) : [])).filter((w) => w.way === way);
          // Which of two tins is the usual one is no carelessness by itself.
          if (key !== 'grease_name')
            expect(
              all.every((w) => w.careless),
              `${r.rotor} ${key} ${way}`,
            ).toBe(true);
        }
  });
  it('leaves a careful way to each question of how to go about it', () => {
    for (const r of catalogue)
      for (const x of r.readings)
        if (x.ways)
          expect(
            x.ways.some((w) => !w.careless),
            `${r.rotor} ${x.key}`,
          ).toBe(true);
  });
});

describe.each([5, 9])('drawn rotor %i', (n) => {
  const file = drawnRotor(n, catalogue)!;
  const set = new Set(file.traps.map((t) => t.id));
  /** Careless ways behind which nothing stands here. */
  const lazy = file.readings.flatMap((r) =>
    (r.ways ?? []).flatMap((w) => (w.careless && !set.has(w.careless) && r.when === undefined ? [{ r, w }] : [])),
  );
  const careful = planOf(file, 'caught');
  it('gives the careful one full marks', () => {
    const made = played(file, careful);
    expect(made.care?.marks).toBe(made.care?.of);
    expect(made.care?.of).toBeGreaterThan(file.traps.length);
    expect(debriefText(made)).not.toContain('Careless:');
  });
  it('names each careless way of which nothing came, what it would have cost, and takes its mark', () => {
    expect(lazy.length).toBeGreaterThan(1);
    const ways = { ...careful.ways, ...Object.fromEntries(lazy.map(({ r, w }) => [r.key, [w.way]])) };
    const made = played(file, { ...careful, ways });
    const text = debriefText(made);
    const named = made.ways.filter((w) => w.careless);
    expect(named.map((w) => w.way).sort()).toEqual(lazy.map(({ w }) => w.label).sort());
    for (const { w } of lazy) {
      const trap = file.elsewhere?.find((t) => t.id === w.careless);
      expect(text).toContain(`“${w.label}”`);
      expect(text).toContain(trap?.would_have.trim());
    }
    expect(made.traps.every((t) => t.end !== 'fell')).toBe(true);
    expect(made.care?.marks).toBe((made.care?.of ?? 0) - named.length);
    // It counts against the skill, and nothing is mastered so.
    const kept = { 'practice j': attemptOf('j', { ...made, finished: true })?.value ?? '' };
    expect(progressOf(kept)[0]?.mastered).toBe(false);
    for (const w of named)
      expect(skillsOf(kept).find((s) => s.skill === w.careless?.skill)?.careless).toBeGreaterThanOrEqual(1);
  });
});

describe('who does not wait', () => {
  const rotor = rotorNamed('quiet-one');
  it('is told what that can cost, and loses a mark', () => {
    // Alone: where there is a mentor it is the mentor who answers for going on.
    const plan = { ...planOf(rotor.file, 'caught'), mentor: undefined };
    const before = walk(model, rotor, { ...plan, end: (s) => s.waiting.length > 0 });
    const act = (s: State) => {
      const p = propose(
        s,
        { do: 'overrule', step: 'dry', place: 'a', gate: 'wait', reason: 'coffee is over', initials: 'AP' },
        'AP',
      );
      if (!p.ok) throw new Error(p.message);
      const at = new Date(s.now + 1000).toISOString();
      const more = p.drafts.map((d, i) => ({ ...d, seq: s.entries.length + i + 1, at }) as Entry);
      return new State(model, [...s.entries, ...more], s.now + 2000);
    };
    const waiting = walk(model, rotor, { ...plan, end: (_, v) => v.step.id === 'dry' });
    const done = propose(waiting.state, { do: 'done', step: 'dry', place: 'a' }, 'AP');
    const state = before.state.waiting.length
      ? before.state
      : new State(
          model,
          [
            ...waiting.state.entries,
            ...(done.ok ? done.drafts : []).map(
              (d, i) =>
                ({
                  ...d,
                  seq: waiting.state.entries.length + i + 1,
                  at: new Date(waiting.state.now).toISOString(),
                }) as Entry,
            ),
          ],
          waiting.state.now + 1000,
        );
    const [patient, hasty] = [debriefOf(state, rotor), debriefOf(act(state), rotor)];
    expect(hasty.care?.of).toBe((patient.care?.of ?? 0) + 1);
    expect(hasty.care?.marks).toBe(patient.care?.marks);
    expect(debriefText(hasty)).toContain('The solvent washes the oil out of the new grease');
  });
});
