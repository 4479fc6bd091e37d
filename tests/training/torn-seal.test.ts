/** Who tears a seal of the plain rotor reads a torn one from then on, and the job goes to its end with a repair. */
import { expect, it } from 'vitest';
import { misreadings } from '../../src/training/misread.js';
import { PracticeRotor } from '../../src/training/practice-rotor.js';
import { modelOfRotor, rotorNamed } from './library.js';
import { planFor } from './plans.js';
import { walk } from './walk.js';

it.each([
  ['as it is pushed out', 'back_out'],
  ['after it was looked at', "seal_condition == 'sound'"],
])('a rotor-side seal that tears %s is glued, never replaced', (_, when) => {
  const { file } = rotorNamed('quiet-one');
  const rotor = new PracticeRotor(file, modelOfRotor(file));
  const plan = planFor(rotor, 'caught');
  const { state } = walk(rotor.model, rotor, {
    ...plan,
    // What a torn seal is asked again for.
    answers: { ...plan.answers, seal_condition: "event_seal_torn ? 'torn' : 'sound'" },
    raise: [...(plan.raise ?? []), { branch: 'seal-torn', at: 'a.back', when: `(${when}) && !event_seal_torn` }],
  });
  expect(state.finished).toBe(true);
  const said = ['seal_condition', 'repair', 'clearance'].map((key) => state.values.get(key, 'a.back'));
  expect(said.map((v) => (v && 'value' in v ? v.value : v))).toEqual(['torn', 'glue', 'clear']);
  expect(misreadings(state, rotor)).toEqual([]);
});
