/** How a practice rotor is gone about: by the plans of its own file, and here and there with an expectation of its own. */
import { joinPlans } from '../../src/training/plan.js';
import type { PracticePlan, Rotor } from '../../src/training/rotor-file.js';
import type { Walk } from './walk.js';

export type How = 'caught' | 'fell';

/** Expectations that show what a debrief says of slips; nobody signs in one. */
const more: Readonly<Record<string, Partial<Record<How, Walk>>>> = {
  'quiet-one': { fell: { mentor: undefined, predict: { dose_due: '8.7 mL' } } },
  'paper-hybrid': { caught: { predict: { ball_verdict: 'ceramic' } }, fell: { predict: { dose_due: '0.087 mL' } } },
  'film-on-a-ball': { caught: { predict: { ball_verdict: 'not proven' } } },
  'brown-seal': { caught: { predict: { dose_due: '0.43 mL' } } },
  'two-tins': { caught: { predict: { dose_due: '0.87 mL' } } },
  'ounce-syringe': { caught: { predict: { syringe_travel: '0.2 in' } }, fell: { predict: { dose_due: '25.6 mL' } } },
};

/** How somebody goes about it who wants to be done: what the careful one raises is not seen. */
const carelessPlan = ({ careful, careless }: Rotor): PracticePlan => ({
  ...joinPlans([careful, careless]),
  raise: careless?.raise ?? [],
});

export const planOf = (rotor: Rotor, how: How): Walk => ({
  mentor: 'MN',
  ...(how === 'caught' ? rotor.careful : carelessPlan(rotor)),
  ...more[rotor.rotor]?.[how],
});
/** The same of a rotor that was read. */
export const planFor = (rotor: { readonly file: Rotor }, how: How): Walk => planOf(rotor.file, how);
