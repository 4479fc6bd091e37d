/** What got into a bearing has to come out, is looked for before power comes back, and brings the next look nearer. */
import { describe, expect, it } from 'vitest';
import type { State } from '../../src/engine/state/state.js';
import { labelAt } from '../../src/engine/values/texts.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { toMarkdown } from '../../src/sheet/to-markdown.js';
import { finished, Job, refused } from './good-job.js';

const coolant = (solvents: Record<string, string>): Job =>
  new Job()
    .answer('history', 'a', { got_in: ['coolant'] })
    .answer('solvent-choice', 'job', solvents)
    // One that nobody cured or proved wet: the insulation is measured before power, and the look comes sooner.
    .before('run-in-plan', 'job', {
      step: 'winding-dry',
      answers: { rated_volts: '400 V', ir_reading: '180 Mohm', ir_temp: '21 C' },
    })
    .answer('next-inspection', 'job', { inspect_set: '200' });

it('test voltage and discharge time stand where the winding is measured, as soon as the rated voltage is known', () => {
  const job = coolant({});
  job.items.length = job.items.indexOf(job.step('winding-dry')) + 1;
  job.answer('winding-dry', 'job', { ir_reading: undefined as never, ir_temp: undefined as never });
  const { values } = job.run().state;
  expect(labelAt(values, 'ir_reading', 'job')).toBe(
    'Winding to earth (frame) after 1 min at 500 V, then discharged 4 min',
  );
});

describe('two solvents', () => {
  it('are needed where coolant was inside: a hydrocarbon leaves it there', () => {
    // n-Heptane is 28.4 MPa^0.5 from glycol, isopropanol 11.0 (tests/outside/cleaning-power.test.ts).
    const one = coolant({ rinse: 'none' });
    one.drop((x) => x.step === 'rinse-bearing');
    expect(refused(one.run())).toMatch(/and what is picked leaves it there\. Rinse with isopropanol/);
  });
  it('acetone takes water out, but not the coolant', () => {
    // Glycol: isopropanol 11.0 MPa^0.5, acetone 19.2; water: acetone inside its sphere (tests/outside/cleaning-power.test.ts).
    const rinsed = (got_in: string): State =>
      coolant({ rinse: 'acetone' })
        .answer('history', 'a', { got_in: [got_in] })
        .run().state;
    expect(
      rinsed('coolant')
        .view('solvent-choice', 'job')
        ?.gates.map((g) => g.gate.id),
    ).toEqual(['takes-coolant']);
    expect(rinsed('water').view('solvent-choice', 'job')?.gates).toEqual([]);
  });
  it('are both on the sheet, and neither is the other once more', () => {
    const text = toMarkdown(sheetOf(coolant({}).run().state));
    expect(text).toMatch(/\| Solvent \| n-Heptane \|/);
    expect(text).toMatch(/\| Second solvent, for the last rinse of the bearing \| Isopropanol \|/);
    expect(refused(new Job().answer('solvent-choice', 'job', { rinse: 'n-heptane' }).run())).toMatch(
      /The rinse is the wash again/,
    );
  });
  it('a second one that is added later touches no seal that met the first alone', () => {
    const job = new Job();
    job.items.push({
      correct: { step: 'solvent-choice', key: 'rinse', value: 'acetone', reason: 'the other bottle was taken' },
    });
    const { remedies } = job.run().state;
    expect(remedies.map((r) => r.view.step.id)).not.toContain('seal-clean');
  });
});

describe('coolant that was inside', () => {
  it('goes to its end once the winding was measured, and not before', () => {
    expect(finished(coolant({}).run())).toBe(true);
    const unmeasured = coolant({}).drop((x) => x.step === 'winding-dry');
    expect(refused(unmeasured.run())).toMatch(/is not next: “Insulation before power”/);
  });
  it('halves the hours to the next look', () => {
    const hours = (job: Job): unknown => {
      const v = job.run().state.values.get('inspect_hours', 'a');
      return v.known ? Number(v.value) : undefined;
    };
    // lg t = 6.12 - 1.4 x - (0.018 - 0.006 x) T at x = 14 000 / (12 500 x 1.2) = 0.933 and T = 70: 3.945, 8817 h; a quarter is
    // 2204 h, rounded down 2200; halved 1102, so 1100.
    expect([hours(new Job()), hours(coolant({}))]).toEqual([2200, 1100]);
  });
});
