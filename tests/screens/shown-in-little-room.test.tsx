/** What an invented rotor shows is what an answer is read off: in a small window it is the last thing to be left out. */
import { afterEach, describe, expect, test } from 'vitest';
import { State } from '../../src/engine/state/state.js';
import { fillIn } from '../../src/engine/values/texts.js';
import { sayOf } from '../../src/procedure/caution.js';
import { firstSentence } from '../../src/screens/words/blocks.js';
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

/** A danger says what to do about it, and an instruction what is still to be done. */
test('weekend: at the questions and at the key of a dangerous step its dangers and what is still to be done stand there', async () => {
  const rotor = rotorNamed('weekend');
  const { model, file } = { model: modelOfRotor(rotor.file), file: rotor.file };
  const walked = walk(model, new PracticeRotor(file, model), planOf(file, 'caught'));
  const entries = walked.entries.map((e) => (e.kind === 'job' ? { ...e, name: 'Bench job' } : e));
  const cut: string[] = [];
  let seen = 0;
  for (const [step, wants] of [
    // Inside its stator nobody tries a clip.
    ['magnets', 'question'],
    ['open-machine', 'question'],
    ['run-in-plan', 'question'],
    ['run-in-plan', 'confirm'],
    ['standstill', 'question'],
  ]) {
    const i = entries.findLastIndex(
      (e) => 'step' in e && e.step === step && e.kind === (wants === 'confirm' ? 'done' : 'answer'),
    );
    const then = new State(model, entries.slice(0, i), Date.parse(entries[i]!.at));
    const view = then.view(step!, 'job')!;
    expect([step, view.wants]).toEqual([step, wants]);
    const b = await onStep({ model, entries: entries.slice(0, i), at: entries[i]!.at, cols: 60, rows: 20 });
    open.push(b);
    for (let n = 0; n < 6 && /Press +9 +I have/.test(b.screen()); n++) await b.press('9');
    const screen = flat(b.screen()).replaceAll('▲ ', '');
    const grave = view.cautions.map(sayOf).filter((c) => /^(DANGER|WARNING)/.test(c));
    const { do: whole } = view.step;
    // Before the first answer its begin is still to be done.
    const stays =
      view.answered.length || wants === 'confirm' ? whole.replace(/^.*[.!] (?=.*\.$)/s, '') : firstSentence(whole);
    const said = [stays, ...grave.map((c) => firstSentence(c))];
    for (const text of said.map((t) => fillIn(then.values, t, 'job').replace(/^[A-Z]+: /, ''))) {
      seen += 1;
      if (!screen.includes(text)) cut.push(`${step} ${wants}: ${text}\n${b.screen()}`);
    }
  }
  expect(seen).toBeGreaterThan(12);
  expect(cut).toEqual([]);
});
