/** Every mistake has a place, a sentence and a cure, and the sound procedure has none. */
import { describe, expect, it } from 'vitest';
import { cases } from './cases.js';
import { eachRule } from './each-rule.js';
import { changed, says, sound } from './sound.js';

describe('check of procedures', () => {
  it('finds nothing in a sound one', () => {
    expect(says(sound)).toEqual([]);
  });

  it.each(cases.map((c) => [c.name, c] as const))('%s', (_, c) => {
    expect(c.says.length).toBeGreaterThan(0);
    expect(says(changed(c.find, c.replace))).toEqual(c.says);
  });

  it('says all mistakes of a file at once, in the order of the lines', () => {
    let text = changed('why: Fans look alike.', 'why:');
    text = changed('must: bore > 10.0', 'must: boor > 10.0', text);
    text = changed('    caution:\n      - The spring flies.\n', '', text);
    text = changed('calc: dose,', 'calc: doze,', text);
    expect(says(text)).toEqual([
      '25:9: “why” is empty in the step “start”. Give it text, or take the line out.',
      '43:15: There is no value “boor”. Did you mean “bore”?',
      '46:9: The step “open” is marked as hazardous but has no caution. Add “caution:” with what can hurt and how to prevent it.',
      '77:13: There is no calculator “doze”. Did you mean “dose”?',
    ]);
  });

  it('finds the word inside folded text and behind quotes', () => {
    expect(
      says(changed('must: bore > 10.0', "must: >-\n          grease == 'good' &&\n          boor > 10.0"))[0],
    ).toMatch(/^45:11: There is no value “boor”/);
    expect(says(changed('must: bore > 10.0', 'must: "grease != \'bad\' && boor > 10.0"'))[0]).toMatch(/^43:35: /);
  });

  it.each([
    ['', 'The file is empty.'],
    ['# only a remark', 'The file is empty.'],
    ['- a\n- b', 'The file holds no “name: value” lines at its outer level.'],
    ['just words', 'The file holds no “name: value” lines at its outer level.'],
    ['a\0b', 'The file is not text.'],
    ['['.repeat(100_000), 'The file is nested too deeply.'],
    [`a:\n  ${'- '.repeat(5000)}x`, 'The file is nested too deeply.'],
    ['x'.repeat(1_000_001), 'The file is too large.'],
    [
      'a: &a [x]\nb: &b [*a,*a,*a,*a,*a,*a,*a,*a,*a]\nc: &c [*b,*b,*b,*b,*b,*b,*b,*b,*b]\nd: [*c,*c,*c,*c,*c]',
      'A reference (*name) can’t be read.',
    ],
  ])('refuses what is no procedure: %#', (text, sentence) => {
    expect(says(text)[0]).toContain(sentence);
  });

  it('says nothing of a billion cases, only of those it can try', () => {
    const many = Array.from({ length: 30 }, (_, i) => `      - { key: k${i}, kind: yes-no, label: K }`).join('\n');
    const all = Array.from({ length: 30 }, (_, i) => `k${i}`).join(' && ');
    const text = changed(
      'physical: true',
      `when: "${all} && !k0"\n    physical: true`,
      changed('    ask:\n      - { key: name_a', `    ask:\n${many}\n      - { key: name_a`),
    );
    expect(says(text)).toEqual([]);
  });

  it('says at once when a procedure is far too large', () => {
    const questions = (from: number): string =>
      Array.from(
        { length: 39 },
        (_, i) => `      - { key: q${from + i}, kind: yes-no, label: L, when: q${from + i + 1} }\n`,
      ).join('');
    const steps = Array.from(
      { length: 45 },
      (_, i) =>
        `  - id: x${i}\n    phase: look\n    at: job\n    title: T\n    do: D\n    why: W\n    ask:\n${questions(i * 39)}`,
    ).join('');
    expect(says(changed('  - id: start\n', `${steps}  - id: start\n`))).toEqual([
      '19:1: There are 1762 questions in all, more than 1500. Split the procedure in two.',
    ]);
    const places = Array.from(
      { length: 9 },
      (_, i) =>
        `  - { id: k${i}, within: ${i ? `k${i - 1}` : 'seal'}, name: K, instances: [ { id: a, label: A }, { id: b, label: B } ] }\n`,
    ).join('');
    expect(says(changed('phases:\n', `${places}phases:\n`))[0]).toMatch(/There are \d+ places in all, more than 60\./);
  });
});

eachRule();
