/** What an invented rotor shows is what an answer is read off: in a small window it is the last thing to be left out. */
import { afterEach, describe, expect, test } from 'vitest';
import { State } from '../../src/engine/state/state.js';
import { asPractised } from '../../src/training/absent.js';
import { drawnRotor } from '../../src/training/generate.js';
import { PracticeRotor } from '../../src/training/practice-rotor.js';
import { catalogue, modelOfRotor, rotorNamed } from '../training/library.js';
import { planOf } from '../training/plans.js';
import { walk } from '../training/walk.js';
import { type Bench, onStep } from './bench.js';

const open: Bench[] = [];
afterEach(() => {
  for (const b of open.splice(0)) b.end();
});
const flat = (text: string): string => text.replace(/[│┃|\n]/g, ' ').replace(/\s+/g, ' ');
const STEPS = ['seal-make', 'cause', 'run-in-plan', 'run-in-log', 'standstill', 'raceway-look', 'residue-look'];

describe.each([
  ['quiet-one', rotorNamed('quiet-one').file],
  ['number 403', drawnRotor(403, catalogue)!],
])('%s', (_, file) => {
  const rotor = new PracticeRotor(file, modelOfRotor(file));
  const { entries } = walk(rotor.model, rotor, planOf(file, 'caught'));
  /** Before each answer of these steps that is read off, the first of each question. */
  const stands = entries.flatMap((e, i) => {
    if (e.kind !== 'answer' || !STEPS.includes(e.step) || e.way !== undefined) return [];
    if (entries.findIndex((o) => o.kind === 'answer' && o.key === e.key && o.place === e.place) !== i) return [];
    const then = new State(rotor.model, entries.slice(0, i), Date.parse(e.at));
    const shown = rotor.shows(e.step, e.place, e.key, 0, then);
    return shown === undefined ? [] : [{ at: `${e.step}@${e.place} ${e.key}`, i, shown, when: e.at }];
  });

  test('shows it at 60 columns and 20 lines', async () => {
    expect(stands.length).toBeGreaterThan(12);
    const hidden: string[] = [];
    for (const s of stands) {
      const b = await onStep({
        model: rotor.model,
        entries: entries.slice(0, s.i).map((e) => (e.kind === 'job' ? { ...e, name: 'Bench job' } : e)),
        at: s.when,
        cols: 60,
        rows: 20,
        app: { basisOf: () => ({ model: rotor.model, practice: asPractised(rotor) }) },
      });
      open.push(b);
      // A notice or a danger may stand before it.
      for (let n = 0; n < 6 && /Press +9 +/.test(b.screen()); n++) await b.press('9');
      if (!flat(b.screen()).includes(flat(s.shown).slice(0, 40))) hidden.push(`${s.at}: ${s.shown}\n${b.screen()}`);
    }
    expect(hidden).toEqual([]);
  });
});
