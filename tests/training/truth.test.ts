/** Predictions held against what the rotor is, whatever the guide was told; and against what was said first. */
import { describe, expect, it } from 'vitest';
import type { Entry } from '../../src/engine/journal/entry.js';
import { State } from '../../src/engine/state/state.js';
import { predictionWords } from '../../src/engine/values/texts.js';
import { debriefOf } from '../../src/training/debrief.js';
import { debriefText } from '../../src/training/debrief-lines.js';
import { judgeInWords } from '../../src/training/expected.js';
import { modelOfRotor, rotorNamed } from './library.js';
import { planFor } from './plans.js';
import { walk } from './walk.js';

const silent = rotorNamed('film-on-a-ball');
const model = modelOfRotor(silent);
const fell = walk(model, silent, planFor(rotorNamed('film-on-a-ball'), 'fell')).state;

describe('judged by the truth', () => {
  const made = debriefOf(fell, silent);
  const balls = made.predictions.find((p) => p.key === 'ball_verdict');
  it('does not praise ceramic on steel balls', () => {
    expect(balls).toMatchObject({
      verdict: 'wrong',
      byFalseReadings: { verdict: 'right' },
    });
    const text = debriefText(made);
    expect(text).toMatch(/! Right by false readings only: Balls, by the tests/);
    expect(text).not.toMatch(/\+ Right: Balls, by the tests/);
  });
  it('takes a reading that was typed otherwise than it showed for false too', () => {
    const rotor = rotorNamed('quiet-one');
    const plan = planFor(rotorNamed('quiet-one'), 'caught');
    const { state } = walk(model, rotor, {
      ...plan,
      answers: { ...plan.answers, bearing_size: '6206' },
    });
    const dose = debriefOf(state, rotor).predictions.find((p) => p.key === 'dose_due');
    expect(dose?.byFalseReadings?.verdict).toBe('right');
    expect(dose?.verdict).not.toBe('right');
  });
  it('leaves a true one as it was', () => {
    const rotor = rotorNamed('quiet-one');
    const { state } = walk(model, rotor, planFor(rotorNamed('quiet-one'), 'caught'));
    for (const p of debriefOf(state, rotor).predictions) expect(p.byFalseReadings, p.key).toBeUndefined();
  });
});

describe('what was said first', () => {
  const at = fell.entries.findIndex((e) => e.kind === 'predict' && e.key === 'ball_verdict');
  const first = fell.entries[at]! as Extract<Entry, { kind: 'predict' }>;
  const then = fell.entries.slice(0, at);
  const stamp = { at: first.at, by: 'AP' };
  const entries = [
    ...then,
    { ...first, value: 'steel', typed: 'steel' },
    { ...stamp, seq: first.seq + 1, kind: 'undo', of: first.seq },
    { ...first, seq: first.seq + 2, value: 'ceramic', typed: 'ceramic' },
  ] as Entry[];
  const made = debriefOf(new State(model, entries, fell.now), undefined).predictions.filter(
    (p) => p.key === 'ball_verdict',
  );
  it('counts, and what is said after the answer was seen does not', () => {
    expect(made).toMatchObject([
      { typed: 'steel', verdict: 'wrong', takenBack: true },
      { typed: 'ceramic', verdict: 'not-judged', again: true },
    ]);
  });
});

it('is judged on the screen as in the debrief: by what the guide knew when it was said', () => {
  const rotor = rotorNamed('quiet-one');
  const { state } = walk(rotor.model, rotor, planFor(rotor, 'caught'));
  const depth = state.entries.find((e) => e.kind === 'answer' && e.key === 'seal_depth' && e.place === 'a');
  if (depth?.kind !== 'answer') throw new Error('no depth');
  const last = state.entries.at(-1)!;
  const stamp = { seq: last.seq + 1, at: last.at, by: 'AP', reason: 'Read the far lip.' };
  const changed: Entry = { ...depth, ...stamp, kind: 'correct', value: 3, typed: '3 mm', of: depth.seq } as Entry;
  const then = new State(rotor.model, [...state.entries, changed], state.now);
  const [before, after] = [state, then].map((s) => judgeInWords(s, 'dose_due', 'a', '0.87'));
  expect(before).toEqual({ verdict: 'right', why: '' });
  expect(after).toMatchObject({
    verdict: 'right',
    why: expect.stringMatching(/^The guide said 0\.87 ± .* mL then\.$/),
  });
  expect(predictionWords(rotor.model, { key: 'dose_due', value: '0.87' })).toBe('0.87 mL');
});

describe('the same seal on both sides', () => {
  it('is asked once', () => {
    const asked = fell.entries.flatMap((e) => (e.kind === 'predict' && e.key === 'seal_soak' ? [e.place] : []));
    expect(asked).toHaveLength(1);
  });
  it('is asked twice where the rubbers differ', () => {
    const { entries } = walk(model, rotorNamed('brown-seal'), planFor(rotorNamed('brown-seal'), 'fell'));
    expect(entries.filter((e) => e.kind === 'predict' && e.key === 'seal_soak')).toHaveLength(2);
  });
});

it('the scale of a rotor weighs what was truly pushed: a bore that was misread shows', () => {
  const rotor = rotorNamed('quiet-one');
  const { entries, state } = walk(rotor.model, rotor, planFor(rotor, 'caught'));
  const weighed = (bore: number) => {
    const typed = entries.map((e) =>
      e.kind === 'answer' && e.key === 'syringe_bore_calliper' ? { ...e, value: bore } : e,
    );
    const then = new State(rotor.model, typed, state.now);
    const dose = then.values.get('dose_set', 'a');
    return [rotor.typed('dose-check', 'a', 'weigh_after', 0, then), dose.known && dose.value, then] as const;
  };
  // 12.60 g, less 0.98 of 0.87 mL of 0.90 g/mL; by 14.2 for 12.4 mm less (12.4 / 14.2)^2 = 0.7625 of that.
  expect(weighed(12.4).slice(0, 2)).toEqual(['11.83 g', 0.87]);
  const [weight, dose, then] = weighed(14.2);
  expect([weight, dose]).toEqual(['12.01 g', 0.87]);
  // 0.7625 of 0.87 mL.
  expect(debriefText(debriefOf(then, rotor))).toContain(
    'It made “Grease that goes in” 0.66 mL instead of 0.87 mL: 24 % too little.',
  );
});
