/** The sheet of the shipped, invented practice job: whole, and its strip right by arithmetic of our own. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { textDrawing } from '../../src/drawing/text-drawing.js';
import { replay } from '../../src/engine/replay/replay.js';
import { replaySchema } from '../../src/engine/replay/replay-file.js';
import { fillIn, showKey } from '../../src/engine/values/texts.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { toHtml } from '../../src/sheet/to-html.js';
import { toMarkdown } from '../../src/sheet/to-markdown.js';
import { modelFor } from '../procedure/library.js';
import { lacking, printedWords } from './chromium.js';

const read = (path: string): string => readFileSync(new URL(`../../procedures/${path}`, import.meta.url), 'utf8');

function shipped() {
  const model = modelFor('regrease-in-place');
  const run = replay(model, replaySchema.parse(parse(read('practice/college-30kw.replay.yaml'))));
  if (!run.ok) throw new Error(run.message);
  return run.state;
}
const state = shipped();
const sheet = sheetOf(state);

describe('the sheet of the practice job', () => {
  test('is finished, and is marked PRACTICE', () => {
    expect(sheet.head.finished).toBe(true);
    expect(toMarkdown(sheet)).toContain('# PRACTICE');
  });
  test('knows every figure that it shows at a glance', () => {
    expect(sheet.headline.filter((f) => !f.known).map((f) => `${f.label}: ${f.text}`)).toEqual([]);
    expect(sheet.headline.length).toBeGreaterThan(10);
  });
  test('says what kind of arithmetic it is, as the calculator itself does', () => {
    const text = toMarkdown(sheet);
    expect(text).toContain('Source: arithmetic: volume of a cylinder');
    expect(text).not.toMatch(/Source: arithmetic$/m);
  });
  test('shows every hold point with a signature that stands', () => {
    const holds = state.views.filter((v) => v.step.hold && v.status === 'done').length;
    expect(sheet.signatures.filter((s) => s.stands).length).toBe(holds);
  });
  test('marks follow 1000 V / (pi/4 bore^2), added up', () => {
    const bore = sheet.headline.find((f) => f.key === 'syringe_bore')?.value as number;
    const doses = sheet.headline.filter((f) => f.key === 'dose_set').map((f) => f.value as number);
    const expected = doses.map(
      (_, i) => (1000 * doses.slice(0, i + 1).reduce((sum, dose) => sum + dose, 0)) / ((Math.PI / 4) * bore ** 2),
    );
    const marks = sheet.strip?.marks.map((m) => m.mm) ?? [];
    expect(marks).toHaveLength(doses.length);
    marks.forEach((m, i) => {
      expect(m).toBeCloseTo(expected[i] ?? 0, 6);
    });
    expect(new Set(sheet.strip?.marks.map((m) => m.name)).size).toBe(marks.length);
  });
  test('shows the same mark to the same digit in words, in the drawings and on the strip', () => {
    const marks = state.values.get('syringe_marks', 'job');
    const shown = (marks.known ? (marks.value as readonly number[]) : []).map((mm) => `${mm.toFixed(1)} mm`);
    expect(shown).not.toEqual([]);
    const values = { bore: 14.5, marks: marks.known ? (marks.value as readonly number[]) : [] };
    const drawn = textDrawing('syringe', values, { width: 80, height: 20, ascii: false }).join(' ');
    for (const text of shown) {
      expect(showKey(state.values, 'syringe_marks', 'job', true)).toContain(text);
      expect(fillIn(state.values, '{syringe_marks}', 'job')).toContain(text);
      expect(drawn).toContain(text);
      expect(sheet.strip?.marks.map((m) => m.label).join()).toContain(text);
      expect(toMarkdown(sheet)).toContain(`| ${text} |`);
      expect(toHtml(sheet)).toContain(`>${text}<`);
    }
  });
  test('derives the dose of both bearings and draws what was done', () => {
    expect(sheet.derivations.filter((d) => d.worked.some((w) => /mL/.test(w))).length).toBeGreaterThan(3);
    expect(new Set(sheet.pictures.map((p) => p.picture)).size).toBe(5);
    expect(toMarkdown(sheet)).not.toMatch(/\{[a-z_]+\}|undefined|NaN/);
    expect(toHtml(sheet)).not.toMatch(/undefined|NaN/);
  });
  describe.skipIf(lacking).each(['A4', 'letter'] as const)('printed on %s', (paper) => {
    const made = sheetOf(state, {
      number: 'practice-rotor-abcd2345',
      issued: '2026-03-03T13:00:00.000Z',
      check: '0123456789abcdef',
    });
    const pages = printedWords(toHtml(made, { appendix: false }), paper);

    test('has its first page on one', () => {
      // What comes next begins the second.
      expect(pages[1]).toContain('Decisions and signatures');
    });
    test('takes at most four pages without the appendix', () => {
      expect(pages.length).toBeGreaterThan(1);
      expect(pages.length).toBeLessThanOrEqual(4);
    });
    test('bears job number, date of issue and page of pages on each', () => {
      pages.forEach((page, i) => {
        expect(page).toContain('practice-rotor-abcd2345');
        expect(page).toContain('3 Mar 2026');
        expect(page.replaceAll(' ', '')).toContain(`${i + 1}/${pages.length}`);
      });
    });
    test('answers on its first page what the next owner asks first', () => {
      const first = pages[0]?.replace(/\s+/g, ' ') ?? '';
      const grams = sheet.front.rows.filter((r) => r.keys.includes('dose_given'));
      expect(grams.map((r) => r.text)).toHaveLength(2);
      for (const r of grams) expect(first).toContain(r.text.replaceAll('\u00a0', ' '));
      for (const r of grams) expect(r.text).toMatch(/\d ± [\d.]+ g, .*\d ± [\d.]+ mL/);
      for (const words of [
        /thickener/,
        /base oil/,
        /Do not mix/,
        /AP/,
        /MN/,
        /hours of running/,
        /2026 (if it runs|at [\d.]+ h a day)/,
      ])
        expect(first).toMatch(words);
      for (const heading of [
        'Out of the ordinary',
        'At a glance',
        'Next look',
        'Watch and listen for',
        'Signed in ink',
      ])
        expect(first).toContain(heading);
    });
  });
  test.skipIf(lacking)('begins no page for tags that fit below what comes before them', () => {
    const { strip: _, ...bare } = sheet;
    const decisions = Array(3).fill(sheet.decisions).flat();
    expect(printedWords(toHtml({ ...bare, decisions }, { appendix: false }), 'A4')).toHaveLength(4);
  });
  test.skipIf(lacking)('on Letter has its first page on one with three times as much out of the ordinary', () => {
    const front = { ...sheet.front, unusual: Array(3).fill(sheet.front.unusual).flat() };
    const pages = printedWords(toHtml({ ...sheet, front }, { appendix: false }), 'letter');
    expect(pages[1]).toContain('Decisions and signatures');
    expect(pages.length).toBeLessThanOrEqual(4);
  });
});
