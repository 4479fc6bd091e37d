/** A word that is expected is picked from the words that it can be. */
import { expect, it } from 'vitest';
import { noneGiven, predictionOptions } from '../../src/engine/actions/predictable.js';
import { inspectionJob, model } from './good-job.js';

it.each([model, inspectionJob().model])('every word that is to be predicted is offered', (m) => {
  const keys = m.procedure.steps.flatMap((s) => s.predict ?? []);
  expect(keys.length).toBeGreaterThan(1);
  for (const key of keys) {
    const options = predictionOptions(m, key);
    if (m.keys.get(key)?.type !== 'string') expect(options, key).toEqual([]);
    else {
      expect(options.length, key).toBeGreaterThanOrEqual(3);
      expect(options.at(-1)?.value).toBe(noneGiven);
      // Each has a digit.
      expect(options.length, key).toBeLessThanOrEqual(9);
    }
  }
});

it('the words are those of the good job', () => {
  const words = predictionOptions(model, 'seal_soak').map((o) => o.value);
  expect(words).toEqual(expect.arrayContaining(['never', 'allowed', 'test first']));
});
