/** Every practice rotor worked on both ways: with the trap seen through, and into it. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { replay } from '../../src/engine/replay/replay.js';
import { type ReplayFile, replaySchema } from '../../src/engine/replay/replay-file.js';
import type { State } from '../../src/engine/state/state.js';
import { showKey } from '../../src/engine/values/texts.js';
import { readDocument } from '../../src/procedure/document.js';
import { pageFit } from '../../src/sheet/page-fit.js';
import { told } from '../../src/sheet/sections.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { toMarkdown } from '../../src/sheet/to-markdown.js';
import { type Debrief, debriefOf } from '../../src/training/debrief.js';
import { debriefText } from '../../src/training/debrief-lines.js';
import { misreadings } from '../../src/training/misread.js';
import { asYaml } from './as-yaml.js';
import { modelOfRotor, rotorNamed, rotors } from './library.js';
import { planFor } from './plans.js';
import { walk } from './walk.js';

const folder = new URL('../../procedures/practice/', import.meta.url);
const textOf = (rotor: string, kind: string): string =>
  readFileSync(new URL(`${rotor}.${kind}.replay.yaml`, folder), 'utf8');

const states = new Map<string, State>();
/** A state is only looked at, so each file is replayed once. */
function replayed(rotor: string, kind: 'caught' | 'fell'): State {
  const done = states.get(`${rotor} ${kind}`);
  if (done) return done;
  const read = readDocument<ReplayFile>(textOf(rotor, kind), `${rotor}.${kind}.replay.yaml`, replaySchema);
  if (!read.value) throw new Error(JSON.stringify(read.problems));
  const outcome = replay(modelOfRotor(rotorNamed(rotor)), read.value);
  if (!outcome.ok) throw new Error(`item ${outcome.item}: ${outcome.message}`);
  states.set(`${rotor} ${kind}`, outcome.state);
  return outcome.state;
}

const debriefs = new Map<string, Debrief>();
/** So is each debrief made once. */
function debriefed(rotor: string, kind: 'caught' | 'fell'): Debrief {
  const made = debriefs.get(`${rotor} ${kind}`) ?? debriefOf(replayed(rotor, kind), rotorNamed(rotor), rotors);
  debriefs.set(`${rotor} ${kind}`, made);
  return made;
}

it('has at least six rotors, each reached from the first', () => {
  expect(rotors.length).toBeGreaterThanOrEqual(6);
  for (const [i, r] of rotors.slice(0, -1).entries()) expect(r.next).toBe(rotors[i + 1]?.id);
});

/** The first number of a figure as it is shown, such as 4.51 of `4.51 ± 0.98 mL`. */
const read = (state: State, key: string, place: string): number =>
  Number.parseFloat(showKey(state.values, key, place, true));

it.each(rotors.flatMap((r) => (['caught', 'fell'] as const).map((kind) => [r.id, kind] as const)))(
  '%s, %s: the dose is redone on paper from what is shown, to one in twenty',
  (id, kind) => {
    const state = replayed(id, kind);
    for (const place of ['a', 'b']) {
      const { values } = state;
      if (!values.get('dose_set', place).known) continue;
      // Free volume times share, less what stays behind; behind a shield a quarter of it. (A)
      const whole = (read(state, 'free_volume', place) * read(state, 'share_taken', place)) / 100;
      const topped = values.get('topped_up', place);
      const left = values.get('left_told', place).known ? read(state, 'left_told', place) : 0;
      const dose = topped.known && topped.value === true ? whole / 4 : whole - left;
      const shown = read(state, 'dose_due', place);
      expect(Math.abs(dose / shown - 1), `${place}: ${dose} mL by hand, ${shown} mL shown`).toBeLessThanOrEqual(0.05);
    }
  },
);

describe.each(rotors.map((r) => r.id))('%s', (id) => {
  const rotor = rotorNamed(id);
  /** Traps that the fall is about; a rotor with two may have one seen through. */
  const fallen = { 'film-on-a-ball': ['grease-film'] }[id] ?? rotor.file.traps.map((t) => t.id);

  it('names the trap as caught', () => {
    const made = debriefed(id, 'caught');
    expect(made.traps.map((t) => [t.id, t.end])).toEqual(rotor.file.traps.map((t) => [t.id, 'caught']));
    const text = debriefText(made);
    for (const t of rotor.file.traps) expect(text).toContain(`Caught: ${t.title}`);
    if (rotor.next) expect(made.next?.id).toBe(rotor.next);
    expect(made.finished).toBe(true);
  });

  it('is told as read off where it was typed as shown', () => {
    expect(misreadings(replayed(id, 'caught'), rotor)).toEqual([]);
  });

  it('names the trap as missed, what it would have done, and says once more', () => {
    const made = debriefed(id, 'fell');
    expect(made.traps.filter((t) => t.end === 'fell').map((t) => t.id)).toEqual(fallen);
    const text = debriefText(made);
    for (const t of rotor.file.traps.filter((x) => fallen.includes(x.id))) {
      expect(text).toContain(`Missed: ${t.title}`);
      expect(text).toContain(t.would_have.trim());
      expect(text).toContain(t.lesson);
    }
    expect(made.next?.id).toBe(id);
  });

  it('can’t be mistaken for a real job on disk and on paper', () => {
    for (const kind of ['caught', 'fell'] as const) {
      const state = replayed(id, kind);
      expect(state.ledger.job?.practice).toBe(id);
      const sheet = sheetOf(state);
      expect(toMarkdown(sheet)).toMatch(/^# PRACTICE\n/);
      // On Letter page 1 is one page, its letters a tenth smaller at most.
      const all = told(sheet);
      const front = all.sections.filter((s) => s.part === 'front');
      expect(pageFit(all, front)).toBeGreaterThanOrEqual(0.9);
      // A list in a stop stands under “Stops met”, where one and half a line do.
      for (const u of sheet.front.unusual) expect(u.text.length).toBeLessThan(500);
      expect(textOf(id, kind)).toMatch(/^#.*invented/);
    }
  });

  // When a procedure or a rotor has changed: run these tests with -u, and look at what became of the files.
  it.each([
    ['caught', 'The trap seen through'],
    ['fell', 'The trap fallen into'],
  ] as const)('shows today what its replay file (%s) was typed from', async (kind, words) => {
    const { file } = walk(modelOfRotor(rotor), rotor, planFor(rotor, kind));
    const head = `${words}: work on the invented practice rotor “${rotor.title}”. No number here was measured on a real machine.`;
    await expect(asYaml(file, head)).toMatchFileSnapshot(fileURLToPath(new URL(`${id}.${kind}.replay.yaml`, folder)));
  });
});

describe('predictions in them', () => {
  const slipsOf = (id: string, kind: 'caught' | 'fell') =>
    debriefed(id, kind).predictions.flatMap((p) => (p.slip ? [p.slip.slip] : []));
  it.each([
    ['quiet-one', 'fell', 'decimal-point'],
    ['paper-hybrid', 'fell', 'decimal-point'],
    ['brown-seal', 'caught', 'factor-of-two'],
    ['two-tins', 'caught', 'step-short'],
    ['ounce-syringe', 'fell', 'fluid-ounce-for-millilitre'],
  ] as const)('%s, %s: %s', (id, kind, slip) => expect(slipsOf(id, kind)).toEqual([slip]));

  it('tells the worked solution of a wrong one with this job’s numbers', () => {
    const made = debriefed('quiet-one', 'fell');
    const wrong = made.predictions.find((p) => p.verdict === 'wrong');
    // n dm of 25 x 52 at 14 000 rpm: 14000 (25 + 52) / 2 = 539 000 (A).
    expect(wrong?.worked.join('\n')).toContain('539000');
    expect(wrong?.worked.at(-1)).toContain(wrong?.actual);
  });
  it('shows of a dose the line that counts, and what was set in it', () => {
    const wrong = debriefed('brown-seal', 'caught').predictions.find((p) => p.key === 'dose_due');
    const doses = wrong?.worked.filter((l) => l.includes(': dose = ')) ?? [];
    // 5.77 x 0.15 is 0.8655.
    expect(doses).toEqual(['Dose: dose = 5.77 mL x 15 % (as set) = 0.8655 mL']);
  });
  it('count no mark against the apprentice for what the mentor went on with', () => {
    const made = debriefed('stage-six', 'fell');
    expect(made.overrules.map((o) => [o.initials, o.careless])).toEqual([['MN', undefined]]);
    expect(debriefText(made)).toContain('    MN went on: it will settle by itself\n');
    expect(debriefText(made)).not.toContain('gone on against advice');
  });
  it('tell of a reading at which the mentor went on what it showed, and what the next one did', () => {
    const told = sheetOf(replayed('stage-six', 'fell')).front.unusual.map((u) => u.text);
    expect(told).toContainEqual(
      expect.stringMatching(
        /^OVERRULED by MN: .*Read then: Stage it runs at 6, Drive end, outer ring 63\.8 °C\..*next reading: .* 66\.6 °C\)\.$/,
      ),
    );
  });
});

describe('a trap that is put right', () => {
  const model = modelOfRotor(rotorNamed('quiet-one'));
  const rotor = rotorNamed('ounce-syringe');
  const correction = {
    step: 'residue-amount',
    at: 'a',
    key: 'residue_measured',
    value: '0.05 fl oz',
    reason: 'the scale is in US fl oz',
  };
  const endOf = (before: string): string | undefined => {
    const plan = { ...planFor(rotorNamed('ounce-syringe'), 'fell'), correct: { [before]: correction } };
    return debriefOf(walk(model, rotor, plan).state, rotor, rotors).traps[0]?.end;
  };
  it('counts as caught late when it was in time', () => expect(endOf('marks')).toBe('caught-late'));
  it('stays a fall when the work was done', () => expect(endOf('refit')).toBe('fell'));
  it('is not given away while it is still ahead', () => {
    const early = walk(model, rotor, {
      ...planFor(rotorNamed('ounce-syringe'), 'fell'),
      end: (_, v) => v.step.id === 'residue-amount',
    });
    const made = debriefOf(early.state, rotor, rotors);
    expect(made.traps[0]?.end).toBe('not-met');
    expect(debriefText(made)).not.toContain(rotor.file.traps[0]!.title);
  });
});

describe('the meter check left out', () => {
  const rotor = rotorNamed('film-on-a-ball');
  it('is silent on bare steel too, so that nothing is proven', () => {
    const plan = {
      ...planFor(rotorNamed('film-on-a-ball'), 'fell'),
      ways: { leads: ['skip'] },
      answers: {
        ...planFor(rotorNamed('film-on-a-ball'), 'fell').answers,
        ball_material: "'not-proven'",
        magnet: "'skipped'",
      },
      gates: {
        'balls-proven': { overrule: 'the balls look like ceramic' },
        'bearing-speed': { overrule: 'it has always run so' },
      },
      end: (_: State, view: { step: { id: string } }) => view.step.id === 'next-inspection',
    };
    const { state } = walk(modelOfRotor(rotor), rotor, plan);
    const made = debriefOf(state, rotor, rotors);
    expect(state.values.get('ring_contact', 'a')).toMatchObject({ value: 'open' });
    expect(made.traps.map((t) => t.end)).toEqual(['fell', 'fell']);
    expect(made.overrules.map((o) => o.reason)).toEqual(['the balls look like ceramic', 'it has always run so']);
    expect(debriefText(made)).toContain('the balls look like ceramic');
  });
});
