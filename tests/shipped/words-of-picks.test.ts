/** What was picked is told by its label, and an unknown figure inside a sentence by its name. */
import { expect, it } from 'vitest';
import { derivation } from '../../src/engine/state/derivation.js';
import { fillIn } from '../../src/engine/values/texts.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { Job, model } from './good-job.js';

it('no sentence of a step holds “not known yet” or a bare key before anything is known', () => {
  const job = new Job();
  job.items.splice(1);
  const { state } = job.run();
  for (const step of model.procedure.steps)
    for (const text of [step.do, step.why, step.otherwise, step.tell, ...(step.gates ?? []).map((g) => g.say)]) {
      const place = model.places.find((p) => p.kind === step.at)?.id ?? 'job';
      expect(fillIn(state.values, text ?? '', place)).not.toMatch(/not known|[{}]/);
    }
});

it('a series is told by its labels', () => {
  const { state } = new Job().run();
  const told = derivation(state, 'ball_probes', 'a');
  expect(told.shown).not.toMatch(/open,open/);
  expect(told.typed).toBeUndefined();
  const readings = sheetOf(state).findings.flatMap((f) => f.phases.flatMap((p) => p.steps.flatMap((s) => s.answers)));
  const line = readings.find((a) => a.key === 'ball_probes');
  expect(`${line?.text} ${line?.typed ?? ''}`).not.toMatch(/open, ?open/);
});
