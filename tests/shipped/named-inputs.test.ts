/** Where a number comes from: which reading, or a figure of the procedure itself; never one under the other's name. */
import { describe, expect, test } from 'vitest';
import { derivation } from '../../src/engine/state/derivation.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { Job } from './good-job.js';

const run = new Job().run();
if (!run.ok) throw new Error(run.message);
const { state } = run;

describe('the density that a figure rests on', () => {
  test('is the one of the data sheet where grease is weighed out', () => {
    const d = derivation(state, 'dose_mass', 'a');
    const density = d.inputs.find((i) => i.key === 'grease_density');
    const read = state.values.get('grease_density', 'job');
    expect(read.known && read.value).toBe(density?.value);
    expect(density?.shown).toMatch(/^0\.9\d? ± /);
  });
  test('follows from the old thickener for the recovered grease, which nobody has a data sheet of', () => {
    const given = derivation(state, 'residue_volume', 'a').run?.given ?? [];
    expect(given.find((g) => /density/i.test(g.label))).toBeUndefined();
    expect(given.find((g) => g.names.includes('old_thickener'))).toBeDefined();
    const lines = sheetOf(state).derivations.flatMap((d) => d.inputs.filter((i) => i.text === '0.9 g/mL'));
    expect(lines.filter((line) => line.from === 'fixed in the procedure')).toEqual([]);
  });
});
