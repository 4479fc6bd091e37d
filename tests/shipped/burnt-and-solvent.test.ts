/** Burnt rubber stops the job before a hand is on it, and no solvent is in the room when power comes. */
import { describe, expect, it } from 'vitest';
import { sayOf } from '../../src/procedure/caution.js';
import { modelFor } from '../procedure/library.js';
import { Job, refused } from './good-job.js';

const { steps } = modelFor('regrease-in-place').procedure;
const at = (id: string): number => steps.findIndex((s) => s.id === id);
const says = (id: string): string[] => (steps[at(id)]?.caution ?? []).map(sayOf);
const stops = /Do not touch it.*Call the person responsible.*can’t be overruled/;

describe('what is burnt or melted', () => {
  it('is warned of before the first hand is on a seal', () => {
    expect(says('seal-make').join()).toMatch(/burns to the bone: do not touch/);
    expect(at('seal-make')).toBeLessThan(at('clean-outside'));
  });
  it('stops the job, and nobody overrules it', () => {
    const seal = new Job();
    seal.step('seal-make', 'a.front').answers = { seal_kind: 'burnt' };
    expect(refused(seal.run())).toMatch(stops);
    const grease = new Job();
    grease.step('residue-amount', 'a').answers = { residue_by: 'burnt' };
    expect(refused(grease.run())).toMatch(stops);
  });
});

it('takes the solvent out before the rotor is put together and driven', () => {
  for (const later of ['hand-turns', 'reassemble', 'run-in-plan', 'run-in-log'])
    expect(at('solvent-out')).toBeLessThan(at(later));
  expect(at('solvent-out')).toBeGreaterThan(at('wash'));
});

it('says who separates the leads before it says to put the rotor in', () => {
  const said = says('reassemble').find((c) => c.includes('licensed')) ?? '';
  expect(said).toMatch(/put it in only with motor lead ends apart and covered\. Only a licensed person works on them/);
});
