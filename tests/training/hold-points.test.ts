/** Hold points in training: the mentor signs and is somebody else; alone one checks oneself; the sheet tells them apart. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { replay } from '../../src/engine/replay/replay.js';
import { type ReplayFile, replaySchema } from '../../src/engine/replay/replay-file.js';
import { State } from '../../src/engine/state/state.js';
import { fillIn } from '../../src/engine/values/texts.js';
import { readDocument } from '../../src/procedure/document.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { toHtml } from '../../src/sheet/to-html.js';
import { toMarkdown } from '../../src/sheet/to-markdown.js';
import { modelOfRotor, rotorNamed } from './library.js';

const model = modelOfRotor(rotorNamed('quiet-one'));
const fileOf = (name: string): ReplayFile => {
  const path = new URL(`../../procedures/practice/${name}.replay.yaml`, import.meta.url);
  return readDocument<ReplayFile>(readFileSync(path, 'utf8'), name, replaySchema).value!;
};
const withMentor = fileOf('quiet-one.caught');
const alone = fileOf('quiet-one.fell');

describe('who signs', () => {
  const signedBy = (initials: string): string | undefined => {
    const steps = withMentor.steps.map((s) => ('sign' in s ? { ...s, sign: initials } : s));
    const outcome = replay(model, { ...withMentor, steps });
    return outcome.ok ? undefined : outcome.message;
  };
  it('is never the apprentice where there is a mentor, however it is written', () => {
    for (const own of ['AP', 'ap', 'Ap']) expect(signedBy(own)).toMatch(/did the work; another person, the mentor/);
  });
  it('may be any other person', () => expect(signedBy('XY')).toBeUndefined());
  it('is never left out', () => {
    const steps = withMentor.steps.map((s) => ('sign' in s ? { ...s, sign: undefined } : s));
    const outcome = replay(model, { ...withMentor, steps });
    expect(outcome.ok ? '' : outcome.message).toMatch(/hold point/);
  });
  it('is oneself, by a check in its own words, where there is no mentor', () => {
    const outcome = replay(model, alone);
    const signatures = sheetOf(outcome.state).signatures;
    expect(new Set(signatures.map((s) => s.role))).toEqual(new Set(['self-checked']));
    for (const s of signatures) expect(s.says).toMatch(/^I /);
  });
});

describe('the sheet', () => {
  const sheets = (name: string) => {
    const outcome = replay(model, fileOf(name));
    if (!outcome.ok) throw new Error(outcome.message);
    const made = sheetOf(outcome.state);
    return { markdown: toMarkdown(made), html: toHtml(made), made };
  };
  it('tells witnessed, self-checked and overruled apart', () => {
    const mentored = sheets('quiet-one.caught');
    const own = sheets('quiet-one.fell');
    const against = sheets('two-tins.fell');
    for (const format of ['markdown', 'html'] as const) {
      expect(mentored[format]).toMatch(/witnessed/i);
      expect(mentored[format]).not.toMatch(/self-checked/i);
      expect(own[format]).toMatch(/self-checked/i);
      expect(own[format]).not.toMatch(/witnessed by/i);
      expect(against[format]).toContain('the cloth was white and the blue tin is our usual');
      expect(against[format]).toMatch(/overruled|against/i);
    }
    expect(against.made.overruled[0]).toMatchObject({ now: 'in force', initials: 'MN' });
    expect(mentored.made.overruled).toEqual([]);
  });
  it('tells on page 1 and on the tag that two thickeners that are not compatible lie in one bearing', () => {
    const { front } = sheets('two-tins.fell').made;
    for (const rows of [front.rows, front.tag])
      expect(rows.find((r) => r.heading === 'MIXED AGAINST THE GUIDE')?.text).toMatch(
        /^Lithium complex on Polyurea(:|,) not compatible/,
      );
    expect(sheets('two-tins.caught').made.front.tag.map((r) => r.heading)).not.toContain('MIXED AGAINST THE GUIDE');
  });
  it('says of the syringe that one filling serves both bearings only where there are two', () => {
    expect(sheets('two-tins.fell').html).toContain('Tape the strip');
    expect(sheets('two-tins.fell').html).not.toContain('One filling serves both');
  });
  it('says PRACTICE before anything else, and which rotor', () => {
    const { markdown, html } = sheets('stage-six.caught');
    expect(markdown.split('\n')[0]).toBe('# PRACTICE');
    expect(markdown).toContain('stage-six');
    expect(html).toMatch(/<title>PRACTICE/);
    expect(html.indexOf('PRACTICE')).toBeLessThan(html.indexOf('<h1'));
  });
});

describe('a dose that the mentor worked out otherwise', () => {
  const owned = (own: string): ReplayFile => ({
    ...withMentor,
    steps: withMentor.steps.map((s) => ('step' in s && s.step === 'dose' ? { ...s, own } : s)),
  });
  const good = replay(model, withMentor).state;
  const signed = good.entries.find((e) => e.kind === 'sign' && e.step === 'dose')!;
  // 0.8655 mL are to be put in: 1.07 is 23.6 % more, 0.95 is 9.8 % more, 1.74 is 101 % more.
  it('is not signed without a reason beyond a tenth, and told with both figures', () => {
    const far = replay(model, owned('1.07 mL'));
    expect(far.ok ? '' : far.message).toMatch(/Own figure .* mL, dose to put in .* mL: 24 % apart, 10 % is allowed/);
    expect(replay(model, owned('0.95 mL')).ok).toBe(true);
    expect(replay(model, owned('about right')).ok).toBe(false);
  });
  it('stands beside what it is worked out from, and the dose that was set beside what it should be', () => {
    const { hold, show } = model.steps.get('dose')!;
    expect(fillIn(good.values, hold!.say, 'a')).toMatch(/then signs it: 5\.\d+ mL x 15 %, less 0 mL\.$/);
    expect(show?.slice(0, 3)).toEqual(['dose_due', 'dose_set', 'set_off']);
  });
  it('stands on page 1 with both figures and the reason, and the checks without one are named', () => {
    const told = (more: object) =>
      sheetOf(
        new State(
          good.model,
          good.entries.map((e) => (e === signed ? { ...e, ...more } : e)),
          good.now,
        ),
      ).front.unusual.map((u) => u.text);
    expect(told({ own: '1.74 mL', reason: 'hurry' })).toContainEqual(
      expect.stringMatching(
        /^SIGNED AGAINST THE OWN FIGURE of MN: Set the dose\. .*102 % apart.* Reason given: hurry\.$/,
      ),
    );
    expect(told({ own: '1.74 mL' })).toContainEqual(expect.stringMatching(/No reason was given\.$/));
    expect(told({}).join(' ')).toMatch(/NO OWN FINDING: 2 checks .* without one: .*Set the dose \(Drive end\)/);
  });
});
