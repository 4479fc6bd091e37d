/** Words that can be misread: what the check of words warns of, sentence by sentence. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkWords } from '../../src/procedure/check-words.js';
import { instructionsIn, sentencesOf, wordCount } from '../../src/procedure/sentences.js';
import { loadWordList } from '../../src/procedure/word-list.js';

const file = new URL('../../procedures/words/words.yaml', import.meta.url);
const { words, problems } = loadWordList(readFileSync(file, 'utf8'), 'words.yaml');
const verbs = new Set(words.filter((w) => w.is === 'do').map((w) => w.word));

describe('the word list', () => {
  it('can be read, is about 200 words long, and says what each means', () => {
    expect(problems).toEqual([]);
    expect(words.length).toBeGreaterThan(180);
    expect(new Set(words.map((w) => `${w.is} ${w.word}`)).size).toBe(words.length);
  });
  it('uses no word that it does not use', () => {
    const used = new Set(words.map((w) => w.word));
    expect(words.flatMap((w) => (w.not ?? []).filter((n) => used.has(n)))).toEqual([]);
  });
});

describe('instructions in a sentence', () => {
  it.each<[string, number]>([
    ['Set the meter to continuity (beep).', 1],
    ['Meter to continuity.', 0],
    ['Switch off, wait until nothing turns, lock out again.', 3],
    ['Prove the meter on a live source, test every terminal, prove the meter again.', 3],
    ['Lay the seal in dry, turn the ring once by hand, lift it off again, look for a rubbed spot.', 4],
    ['If there is a wire ring, take it out first.', 1],
    ['Before you open it, read the safety data sheet and put the gloves on.', 2],
    ['A wire ring is taken out first.', 0],
    ['Mask it with film and dry cloth.', 1],
    ['Wipe it and dry it.', 2],
    ['Label the rest of the syringe or throw it away.', 1],
    ['Every five minutes enter stage, temperatures and sound.', 1],
    ['Never spin a bearing with compressed air.', 1],
    ['Do not pour anything on it.', 1],
    ['DANGER: Keep your fingers away from the rotor.', 1],
    ['Reassemble as the maker says, guard included.', 1],
  ])('%s', (sentence, count) => expect(instructionsIn(sentence, verbs)).toHaveLength(count));
});

it('parts sentences at their ends and not at a figure or an abbreviation', () => {
  expect(sentencesOf('Take 0.5 mL. Stop at {mark}. {then}. See e.g. the sheet.').map((s) => s.text)).toEqual([
    'Take 0.5 mL.',
    'Stop at {mark}.',
    '{then}.',
    'See e.g. the sheet.',
  ]);
  expect(wordCount('The plunger moves {half of it}, half - of its way.')).toBe(8);
});

it('says what stands there and what to say instead, in words and not as it is looked for', () => {
  const text = 'part: x\nsteps:\n  - id: one\n    do: Turn it.\n    why: A fan takes the hand with it.\n';
  expect(checkWords(text, 'x.yaml', words).map((p) => `${p.message} ${p.cure}`)).toEqual([
    '“takes the hand with it” is not used here. Say it with “pull along” where you mean: bring with it.',
  ]);
});

describe('check of words', () => {
  const step = (lines: string): string => `part: x\nsteps:\n  - id: one\n    hazard: true\n${lines}`;
  const faults = (lines: string) => checkWords(step(lines), 'x.yaml', words).map((p) => `${p.line}: ${p.fault}`);
  it.each<[string, string, string[]]>([
    ['a plain step', '    do: Turn the ring slowly.\n    why: It tells how the raceway is.\n', []],
    ['several at once', '    do: Wipe it, then dry it.\n', ['5: several instructions']],
    [
      'several at once for who knows the job',
      '    do: Turn it.\n    brief: Wipe it, then dry it.\n',
      ['6: several instructions'],
    ],
    ['no verb', '    do: Air moving. Turn the ring.\n', ['5: no instruction']],
    ['a word that is not used', '    do: Turn the ring.\n    why: You grease a wound.\n', ['6: word not used']],
    ['a sign without its meaning', '    do: Read kappa.\n', ['5: sign unexplained']],
    ['a sign with it', '    do: Read kappa.\n    why: Kappa tells how thick the oil is against the need.\n', []],
    [
      'cautions from the lesser to the graver',
      '    do: Turn the ring.\n    caution:\n      - "WARNING: Keep hair away, it is pulled in."\n      - "DANGER: Do not touch, high voltage kills."\n',
      ['8: order of cautions'],
    ],
    [
      'a caution without a signal word that says no hazard',
      '    do: Turn the ring.\n    caution:\n      - Be careful.\n',
      ['7: signal word', '7: caution without hazard and what to do'],
    ],
    [
      'a caution that says no hazard',
      '    do: Turn the ring.\n    caution:\n      - "WARNING: Be careful. Vapour burns."\n',
      ['7: caution without hazard and what to do'],
    ],
    [
      'a caution that says what hurts, then what to do',
      '    do: Turn the ring.\n    caution:\n      - "WARNING: Chips fly at the eye: wear safety glasses."\n',
      [],
    ],
    [
      'a caution in words of its own',
      '    do: Turn the ring.\n    caution:\n      - "Mind the vapour."\n',
      ['7: signal word', '7: caution without hazard and what to do'],
    ],
    ['a long sentence', `    do: Turn the ring ${'and the ring '.repeat(7)}.\n`, ['5: long']],
  ])('%s', (_, lines, said) => expect(faults(lines)).toEqual(said));
  it('points at the sentence, says the cure, and whether the step is dangerous', () => {
    const [one] = checkWords(step('    do: Turn the ring. Wipe it, then dry it.\n'), 'x.yaml', words);
    expect(one).toMatchObject({
      line: 5,
      column: 24,
      hazard: true,
      message: 'One sentence instructs 2 things: wipe, dry.',
      cure: 'Give each a sentence, in the order of doing.',
    });
  });
});
