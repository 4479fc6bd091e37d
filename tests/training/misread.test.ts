/** The debrief names each reading that was typed otherwise than the invented rotor showed it. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { replay } from '../../src/engine/replay/replay.js';
import { type ReplayFile, replaySchema } from '../../src/engine/replay/replay-file.js';
import { State } from '../../src/engine/state/state.js';
import { asPractised } from '../../src/training/absent.js';
import { debriefOf } from '../../src/training/debrief.js';
import { debriefText } from '../../src/training/debrief-lines.js';
import { drawnRotor } from '../../src/training/generate.js';
import { misreadings } from '../../src/training/misread.js';
import { PracticeRotor } from '../../src/training/practice-rotor.js';
import { catalogue, modelOfRotor, rotorNamed, rotors } from './library.js';
import { planOf } from './plans.js';
import { walk } from './walk.js';

const fileOf = (id: string): ReplayFile => {
  const url = new URL(`../../procedures/practice/${id}.caught.replay.yaml`, import.meta.url);
  return replaySchema.parse(parse(readFileSync(fileURLToPath(url), 'utf8')));
};
const run = (id: string, file: ReplayFile) => replay(modelOfRotor(rotorNamed(id)), file).state;

it('a speed, a yes and a rotor that were typed otherwise are listed', () => {
  const file = fileOf('ounce-syringe');
  for (const item of file.steps) {
    if (!('step' in item)) continue;
    if (item.answers && 'top_speed' in item.answers) item.answers.top_speed = '4000 rpm';
    if (item.answers && 'rotor' in item.answers) item.answers.rotor = 'another one';
  }
  const state = run('ounce-syringe', file);
  const made = debriefOf(state, rotorNamed('ounce-syringe'), rotors);
  expect(made.misread.map((m) => m.key)).toEqual(['rotor', 'top_speed']);
  expect(debriefText(made)).toMatch(/Misread: .*you typed 4\s?000 rpm, it showed 1?\d\s?000 rpm/);
});

it('a name without its mark and fewer readings than are shown are no misread ones; another sound is', () => {
  const with_ = (sounds: string[]): readonly string[] => {
    const file = fileOf('ounce-syringe');
    for (const item of file.steps) {
      if (!('step' in item) || !item.answers) continue;
      if (typeof item.answers.rotor === 'string') item.answers.rotor = item.answers.rotor.replace(' (invented)', '');
      if (item.answers.ball_probes !== undefined) item.answers.ball_probes = sounds;
    }
    return misreadings(run('ounce-syringe', file), rotorNamed('ounce-syringe')).map((m) => m.key);
  };
  expect(with_(['open', 'open', 'open'])).toEqual([]);
  expect(with_(['open', 'open', 'beep'])).toContain('ball_probes');
});

describe('what is no misread one', () => {
  const file = drawnRotor(12, catalogue)!;
  const rotor = new PracticeRotor(file, modelOfRotor(file));
  const { entries, state } = walk(rotor.model, rotor, planOf(file, 'caught'));
  const keysOf = (given: Record<string, string>) => {
    const changed = entries.map((e) => (e.kind === 'answer' && e.key in given ? { ...e, value: given[e.key]! } : e));
    return misreadings(new State(rotor.model, changed, state.now), rotor).map((m) => m.key);
  };
  it('is an honest “unknown”, where another wrong answer is one', () => {
    const key = entries.flatMap((e) => {
      const q = e.kind === 'answer' ? rotor.model.keys.get(e.key) : undefined;
      const asked = e.kind === 'answer' && rotor.model.steps.get(e.step)?.ask?.find((x) => x.key === e.key);
      const unknown = asked && asked.kind === 'choice' && asked.options.some((o) => o.value === 'unknown');
      return e.kind === 'answer' && q && unknown && e.value !== 'unknown' && e.way === undefined ? [e.key] : [];
    })[0]!;
    const options = [...rotor.model.steps.values()].flatMap((s) => s.ask ?? []).find((q) => q.key === key);
    const now = entries.find((e) => e.kind === 'answer' && e.key === key);
    const other =
      options?.kind === 'choice' &&
      options.options.find((o) => o.value !== 'unknown' && now?.kind === 'answer' && o.value !== now.value);
    expect(keysOf({ [key]: 'unknown' })).not.toContain(key);
    expect(keysOf({ [key]: other ? other.value : '' })).toContain(key);
  });
  it('tells of one that is what it did to the dose, and what it did to nothing tells nothing', () => {
    // A seal that lies deeper leaves less room for grease: 0.26 instead of 0.37 mL is 0.70 of it.
    const with_ = (key: string, value: unknown) => {
      const typed = entries.map((e) => (e.kind === 'answer' && e.key === key ? ({ ...e, value } as typeof e) : e));
      return debriefText(debriefOf(new State(rotor.model, typed, state.now), rotor));
    };
    expect(with_('seal_depth', 2.08)).toContain(
      'you typed 2.08 mm, it showed 1.3 mm\n    It made “Dose to put in” (Drive end) 0.26 mL instead of 0.37 mL: 30 % too little.',
    );
    // By the square of the bore: (8.2 / 13.12)^2 is 0.39. The dose hangs on nothing of a syringe.
    const bore = with_('syringe_bore_calliper', 13.12);
    expect(bore).toContain('“Grease that goes in” 0.14 mL instead of 0.37 mL: 61 % too little.');
    expect(bore).not.toContain('It made “Dose');
  });
  it('is another way of measuring that is there too, and no other', () => {
    expect(keysOf({ residue_by: 'weighed' })).not.toContain('residue_by');
    expect(keysOf({ residue_by: 'nothing' })).toContain('residue_by');
  });
  it('is not offered by Enter either: a machine that the rotor shows otherwise', () => {
    const shown = rotor.typed('machine', 'job', 'machine', 0, state);
    const at = { step: 'machine', place: 'job', key: 'machine', row: 0 };
    const { contradicts } = asPractised(rotor);
    expect(shown).not.toContain('Rotor number 12');
    expect(contradicts(at, 'Rotor number 12', state, undefined)).toBe(true);
    expect(contradicts(at, String(shown), state, undefined)).toBe(false);
    // Where it shows nothing the offer stands.
    expect(contradicts({ ...at, key: 'nothing' }, 'Rotor number 12', state, undefined)).toBe(false);
  });
});

it('what a better way would have shown is right by luck, and no lip is said to have been taken for another', () => {
  const trap = (n: number) => drawnRotor(n, catalogue)?.traps.find((t) => t.id === 'contact-seal');
  const number = Array.from({ length: 200 }, (_, n) => n + 1).find(trap)!;
  const file = drawnRotor(number, catalogue)!;
  const rotor = new PracticeRotor(file, modelOfRotor(file));
  const { entries, state } = walk(rotor.model, rotor, planOf(file, 'fell'));
  const at = trap(number)!.at;
  const told = (value: string) => {
    const typed = entries.map((e) =>
      e.kind === 'answer' && e.key === 'seal_kind' && e.place === at ? { ...e, value } : e,
    );
    const made = debriefOf(new State(rotor.model, typed, state.now), rotor, []);
    return { keys: made.misread.map((m) => m.key), text: debriefText(made) };
  };
  expect(told('gap').text).toContain('You took it for: A lip that stands off.');
  const lucky = told('contact');
  expect(lucky.keys).not.toContain('seal_kind');
  expect(lucky.text).toContain('You took it for: What it was, by luck: the way that you took can’t tell.');
});
