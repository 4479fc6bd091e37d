/** The debrief names each reading that was typed otherwise than the invented rotor showed it. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { replay } from '../../src/engine/replay/replay.js';
import { type ReplayFile, replaySchema } from '../../src/engine/replay/replay-file.js';
import { debriefOf } from '../../src/training/debrief.js';
import { debriefText } from '../../src/training/debrief-lines.js';
import { misreadings } from '../../src/training/misread.js';
import { modelOfRotor, rotorNamed, rotors } from './library.js';

const fileOf = (id: string): ReplayFile => {
  const url = new URL(`../../procedures/practice/${id}.caught.replay.yaml`, import.meta.url);
  return replaySchema.parse(parse(readFileSync(fileURLToPath(url), 'utf8')));
};
const run = (id: string, file: ReplayFile) => replay(modelOfRotor(rotorNamed(id)), file).state;

describe.each(rotors.map((r) => r.id))('%s', (id) => {
  it('is told as read off where it was typed as shown', () => {
    expect(misreadings(run(id, fileOf(id)), rotorNamed(id))).toEqual([]);
  });
});

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
