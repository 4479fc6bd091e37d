/** How each practice rotor is worked on: once with open eyes, once into its trap. */
import type { State } from '../../src/engine/state.js';
import type { Plan } from './walk.js';

const of =
  (key: string, place = 'a') =>
  (state: State): string => {
    const v = state.values.get(key, place);
    return v.known ? String(v.value) : '';
  };
const number = (state: State, key: string, place = 'a'): number => Number(of(key, place)(state));

/** Decisions of somebody who does as the guide says. */
export const sensible: Plan = {
  mentor: 'MN',
  answers: {
    first_look: 'save',
    ball_material: of('ball_verdict'),
    seal_way: 'dry',
    clean_way: 'drip',
    second_look: 'save',
    grease_fits: 'yes',
    // Within the band, and less than is suggested at this speed.
    share_set: '15 %',
    dose_set: (s) => `${Number(number(s, 'dose_due').toFixed(2))} mL`,
    log_stage: (s) => of('stage_due', 'job')(s) || '1',
    accepted: 'yes',
    inspect_set: (s) => String(Math.floor(number(s, 'inspect_after', 'job'))),
    hours_a_day: '8',
    weigh_half: '',
    instrument_numbers: '',
    remarks: 'Invented job, for practice.',
  },
  rowMinutes: (s, row) => (row === 0 || number(s, 'stage_due', 'job') !== number(s, 'log_stage', 'job') ? 1 : 5),
};

const like = (more: Partial<Plan>): Plan => ({
  ...sensible,
  ...more,
  answers: { ...sensible.answers, ...more.answers },
});

const steel = (s: State): string => (of('event_balls_are_steel')(s) === 'true' ? 'scrap' : 'save');

export const plans: Readonly<Record<string, { readonly caught: Plan; readonly fell: Plan }>> = {
  'quiet-one': {
    caught: like({ ways: { cloth: ['all-round', 'again'] }, gates: { 'cloth-white': { raise: 'not-clean' } } }),
    fell: like({ mentor: undefined, ways: { cloth: ['one-place'] }, predict: { dose_due: '8.7 mL' } }),
  },
  'paper-hybrid': {
    caught: like({
      ways: { ball_probes: ['bare'], magnet: ['thread'] },
      answers: { first_look: steel },
      gates: { 'steel-raised': { raise: 'balls-are-steel' } },
      predict: { ball_verdict: 'ceramic' },
    }),
    fell: like({ ways: { ball_probes: ['papers'], magnet: ['leave'] }, predict: { dose_due: '0.087 mL' } }),
  },
  'film-on-a-ball': {
    caught: like({
      ways: { leads: ['touch', 'new-lead'], ball_probes: ['bare'], magnet: ['thread'] },
      answers: { first_look: steel },
      gates: { 'steel-raised': { raise: 'balls-are-steel' } },
      predict: { ball_verdict: 'not proven' },
    }),
    fell: like({ ways: { leads: ['touch', 'new-lead'], ball_probes: ['as-is'], magnet: ['leave'] } }),
  },
  'brown-seal': {
    caught: like({
      ways: { seal_rubber: ['marking'] },
      gates: { 'oil-untested': { overrule: 'a cut lay in the warm oil over the weekend and did not swell' } },
      predict: { dose_due: '0.43 mL' },
    }),
    fell: like({ ways: { seal_rubber: ['hearsay'] }, answers: { 'seal_way@a.front': 'soak' } }),
  },
  'two-tins': {
    caught: like({
      ways: { old_thickener: ['sheet'], grease_name: ['white'] },
      answers: { clean_way: 'swab' },
      gates: {
        'back-open': { raise: 'back-seal-stays' },
        'dose-doubtful': { overrule: 'it can be no more than that behind one seal' },
      },
      predict: { dose_due: '0.87 mL' },
    }),
    fell: like({
      ways: { old_thickener: ['sheet'], grease_name: ['blue'] },
      answers: { clean_way: 'swab' },
      gates: {
        'back-open': { raise: 'back-seal-stays' },
        'dose-doubtful': { overrule: 'it can be no more than that behind one seal' },
        'thickener-behind': { overrule: 'the cloth was white and the blue tin is our usual' },
      },
    }),
  },
  glitter: {
    caught: like({
      ways: { residue_glitter: ['paper'], inside_findings: ['magnifier'] },
      answers: { second_look: 'scrap' },
      gates: { 'glitter-raised': { raise: 'grease-glitters' } },
    }),
    fell: like({ ways: { residue_glitter: ['glance'], inside_findings: ['eye'] } }),
  },
  'ounce-syringe': {
    caught: like({ ways: { residue_measured: ['print'] }, predict: { syringe_travel: '0.2 in' } }),
    fell: like({
      ways: { residue_measured: ['number'] },
      gates: { 'residue-agrees': { overrule: 'most of it must have run out before' } },
      predict: { dose_due: '25.6 mL' },
    }),
  },
  'stage-six': {
    caught: like({
      raise: (s) =>
        of('run_in_says', 'job')(s) === 'back-off' &&
        number(s, 'rows_run_in_log', 'job') > 0 &&
        of('event_temperature_spike', 'job')(s) !== 'true'
          ? { branch: 'temperature-spike', at: 'job' }
          : undefined,
    }),
    fell: like({
      answers: {
        log_stage: (s) => String(Math.max(number(s, 'stage_due', 'job') || 1, number(s, 'log_stage', 'job') || 1)),
      },
      gates: { 'stage-open': { overrule: 'it will settle by itself' }, 'temp-limit': 'end' },
    }),
  },
};
