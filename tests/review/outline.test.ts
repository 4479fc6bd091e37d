/** A procedure as readable text: every part of it is there, in words. */

import { describe, expect, it } from 'vitest';
import { calculators } from '../../src/calc/index.js';
import { sayOf } from '../../src/procedure/caution.js';
import { loadProcedure } from '../../src/procedure/load.js';
import { type KeyInfo, keysOf } from '../../src/procedure/model.js';
import type { Question } from '../../src/procedure/schema.js';
import { inWords } from '../../src/review/condition-words.js';
import { outline } from '../../src/review/outline.js';
import { questionDetails } from '../../src/review/question-words.js';
import { escapeMarkdown } from '../../src/text/safe-text.js';
import { content } from '../procedure/content.js';
import { shipped } from '../procedure/library.js';
import { changed, calculators as made, tables } from '../procedure/sound.js';

describe('outline', () => {
  it('says what a step wants a picture of, and what a stop offers', () => {
    const text = changed('why: Fans look alike.', 'why: Fans look alike.\n    picture: The plate of the fan').replace(
      '        say: The bore',
      '        raise: dropped\n        correct: [speed, bore]\n        say: The bore',
    );
    const { procedure, problems } = loadProcedure(text, 'p', { tables, calculators: made });
    expect(problems).toEqual([]);
    const said = procedure && outline(procedure, made);
    expect(said).toContain('**A picture, if one can be taken:** The plate of the fan');
    expect(said).toContain('Offered there: report “Dropped”; correct Speed, Bore.');
    const of = (find: string, replace: string): string[] =>
      loadProcedure(text.replace(find, replace), 'p', { tables, calculators: made }).problems.map((x) => x.message);
    expect(of('raise: dropped', 'raise: droped')).toEqual(['There is no branch “droped”.']);
    expect(of('correct: [speed, bore]', 'correct: [sped]')).toEqual(['There is no value “sped”.']);
    expect(of('correct: [speed, bore]', 'correct: [which_position]')).toEqual([
      '“which_position” is not read off here and can’t be corrected.',
    ]);
    expect(of('picture: The plate', 'picture: The {plate}')).toEqual(['There is no value “plate”.']);
  });

  it.each(content.procedures.map((p) => [p.procedure.procedure, p.procedure] as const))(
    'of %s leaves nothing out',
    (_, p) => {
      const text = outline(p, calculators);
      const has = (what: string): void => expect(text).toContain(escapeMarkdown(what).replace(/\\([[\]])/g, '$1'));
      for (const f of p.phases) has(f.title);
      for (const s of p.steps) {
        has(s.title);
        if (!s.why.includes('{')) has(s.why);
        for (const c of s.caution ?? []) if (!sayOf(c).includes('{')) has(sayOf(c));
        for (const q of s.ask ?? []) if (!q.label.includes('{')) has(q.label);
        if (s.hold && !s.hold.say.includes('{')) has(s.hold.say);
      }
      for (const b of p.branches ?? []) has(b.title);
      expect(text.match(/\*\*Gate:\*\*/g)?.length).toBe(p.steps.reduce((n, s) => n + (s.gates?.length ?? 0), 0));
      // Every figure has its name, none its key.
      expect(text).not.toMatch(/\{[a-z_\\]+\}|undefined|NaN|\[object/);
      // A caution says its condition in words, and what counts as an answer is no code.
      expect(text).not.toMatch(/\(when |counts as “[a-z]+-[a-z-]+”/);
    },
  );

  it.each([
    ["ends != 'second-only'", 'Bearings to open is not “Non-drive end only”'],
    ['in_work && any_repaired', '“Bearing is being saved” and “A seal was repaired”'],
    ['!any_repaired', 'not “A seal was repaired”'],
    ['dose_set <= 1.1 * dose_due', 'Dose set is at most (1.1 × Dose to put in)'],
    ['free_volume > 0.0', 'Free volume is more than 0 mL'],
    [
      '(work_a || work_b) && in_work',
      '(“Drive end is worked on” or “Non-drive end is worked on”) and “Bearing is being saved”',
    ],
    ["cage in ['brass', 'steel']", 'Cage is “Brass” or “Pressed steel”'],
    ["'none' in first_findings", 'What you find has “Nothing wrong”'],
    ["all_sound.exists(s, s == 'rough')", 'one of readings of Sound is “Rough”'],
    ["!all_sound.exists(s, s == 'rough' || s == 'grinding')", 'none of readings of Sound is “Rough” or “Grinding”'],
    ["first_findings.all(f, f == 'rust' || f == 'creep')", /^each of What you find is “Rust” or “Outer ring/],
    ["first_findings.filter(f, f != 'rust' && f != 'dry')", /^what in What you find is neither “Rust” nor “Dry/],
    ['at(stages, stage_due - 1.0)', /\(item Stage\)$/],
    ['topped_up ? dose_computed / 4.0 : dose_computed', '(Dose ÷ 4) if “Only topped up”, otherwise Dose'],
  ])('says %s in words', (cel, words) => {
    const keys = new Map(keysOf(shipped('regrease-in-place'), calculators).map((k) => [k.key, k]));
    if (typeof words === 'string') expect(inWords(cel, keys)).toBe(words);
    else expect(inWords(cel, keys)).toMatch(words);
  });
});

it.each(['regrease-in-place', 'inspect-after-run'])('prints no code of %s', (id) => {
  expect(outline(shipped(id), calculators).match(/`[^`]+`/g)).toBeNull();
});

it('figures of a question are said in the unit that it asks in too', () => {
  const gauge = {
    key: 'gauge',
    kind: 'quantity',
    quantity: 'pressure',
    unit: 'psi',
    kept_in: 'bar',
    label: 'Gauge',
    limits: [0, 700],
  } satisfies Question;
  const procedure = shipped('regrease-in-place');
  const [any] = keysOf(procedure, calculators);
  const step = procedure.steps[0]!;
  const info = {
    ...any!,
    key: 'gauge',
    label: 'Gauge',
    quantity: 'pressure',
    from: { by: 'question', step, question: gauge },
  } as const;
  const keys = new Map<string, KeyInfo>([['gauge', info]]);
  // 30 bar = 435.1 psi, 700 bar = 10 153 psi (1 psi = 0.0689476 bar, NIST SP 811).
  expect(inWords('gauge <= 30.0', keys)).toBe('Gauge is at most 30 bar (435.1 psi)');
  expect(questionDetails(gauge, keys)[1]).toMatch(/to 700 bar \(10\u00a0153 psi\) allowed$/);
});
