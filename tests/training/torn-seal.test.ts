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

it.each([
  ['taken out', 0.75, 'taken-out', 'all_out_mass', [0.09]],
  ['added', 1, 'added', 'all_added_mass', [0.13]],
])('grease that is to be %s after a corrected dose is shown as the guide asks for it', (_, dose, moved, key, grams) => {
  const rotor = rotorNamed('quiet-one');
  const plan = planFor(rotor, 'caught');
  const { state } = walk(rotor.model, rotor, {
    ...plan,
    gates: { ...plan.gates, 'dose-near': { overrule: 'as the maker says' } },
    correct: { refit: { step: 'dose', at: 'a', key: 'dose_set', value: `${dose} mL`, reason: 'as the maker says' } },
    raise: [{ branch: 'dose-wrong', at: 'a', when: '!event_dose_wrong && asked_far' }],
  });
  expect(state.finished).toBe(true);
  expect(state.values.get('all_moved', 'a')).toMatchObject({ value: [moved] });
  expect(state.values.get(key, 'a')).toMatchObject({ value: grams });
  // What was weighed before is weighed so again.
  expect(misreadings(state, rotor)).toEqual([]);
});
