/** What a calculator warns of is told though it could have been asked more: a question that does not apply is waited for by nobody. */
import { expect, it } from 'vitest';
import { warningsAt } from '../../src/screens/step/warnings.js';
import { Job } from '../shipped/good-job.js';

it('tells the fire first where the minutes in the room need not be asked', () => {
  const { state } = new Job().run();
  const view = state.view('vapour', 'job');
  expect(view?.ledger?.answers.has('vapour_minutes')).toBe(false);
  expect(view && warningsAt(state, view)[0]).toMatch(/has the lowest flash point, -4 °C: it burns from any spark/);
});
