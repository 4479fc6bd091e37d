/** The tag: its words, its size on paper (A7 by ISO 216, ID-1 by ISO/IEC 7810), and its code by an independent reader. */

import jsqr from 'jsqr';
import { describe, expect, test } from 'vitest';
import { sheetOf } from '../../src/sheet/sheet.js';
import { tagOf } from '../../src/sheet/tag.js';
import { toHtml } from '../../src/sheet/to-html.js';
import { clock } from '../../src/sheet/when.js';
import { Job } from '../shipped/good-job.js';
import { dump, lacking, printedWords } from './chromium.js';
import { readHtml } from './read-html.js';

const { state } = new Job().run();
const sheet = sheetOf(state, { number: 'fan-rotor-abcd2345', issued: '2026-03-03T13:00:00.000Z' });
const { show } = clock();
const tag = tagOf(sheet, show)!;
const long = (text: string): typeof sheet => ({
  ...sheet,
  front: { ...sheet.front, tag: sheet.front.tag.map((r) => ({ ...r, text: r.text + text })) },
});

/** Reads the code out of the drawing: every module eight pixels wide. */
function readCode(html: string, of: string): string | undefined {
  const document = readHtml(html);
  const svg = document.querySelector(`.${of} svg`);
  const size = Number(svg?.getAttribute('viewBox')?.split(' ')[3]);
  const path = svg?.querySelector('path')?.getAttribute('d') ?? '';
  const px = 8;
  const wide = size * px;
  const pixels = new Uint8ClampedArray(wide * wide * 4).fill(255);
  for (const [, x, y] of path.matchAll(/M(\d+) (\d+)h1v1h-1z/g))
    for (let j = 0; j < px; j++)
      for (let i = 0; i < px; i++) {
        const at = ((Number(y) * px + j) * wide + Number(x) * px + i) * 4;
        pixels.fill(0, at, at + 3);
      }
  return (jsqr as unknown as typeof jsqr.default)(pixels, wide, wide)?.data;
}

describe('its words', () => {
  test('are rotor, grease with thickener and oil, amounts, limit, date, next look and job number', () => {
    const said = tag.lines.map((l) => `${l.label}: ${l.text}`).join('\n');
    for (const words of [
      /^Rotor: /m,
      /Lithium complex, base oil: .*, NLGI 2/,
      /Do not mix/,
      /Put in, Drive end: 2\.050 ± 0\.014 g, .* mL/,
    ])
      expect(said).toMatch(words);
    for (const words of [/^Limit: .* rpm/m, /^Done: 3 Mar 2026, AP, MN/m, /^Next look: \d+ h of running/m])
      expect(said).toMatch(words);
    expect(said).toContain('Job: fan-rotor-abcd2345');
    // Which end, at what speed, and from when on it is looked for.
    expect(said).toMatch(
      /^Run-in, no load: Drive end 38 ± 1 °C, Non-drive end 36 ± 1 °C, room 21 ± 1 °C, at 14\s000 rpm$/m,
    );
    // More than what: room to write it on the machine, and what it was before.
    expect(said).toMatch(
      /^Write here once steady; 5 K more: find out why: drive end _+ °C, other _+ °C, room _+ °C \(before: 62/m,
    );
    expect(said).toMatch(/^Then: 500 h of running in all, /m);
    expect(tag.lines[0]?.label).toBe('PRACTICE');
  });
  test('an unfinished job says so', () => {
    const half = { ...sheet, head: { ...sheet.head, finished: false, done: 3, total: 9 } };
    expect(tagOf(half, show)?.lines.map((l) => l.label)).toContain('NOT FINISHED');
  });
});

describe('its code', () => {
  const html = toHtml(sheet, { only: 'tag' });
  test.each(['a7', 'card'])('says the same as plain text on the %s', (of) => {
    expect(readCode(html, of)).toBe(tag.plain);
    expect(tag.plain).toMatch(/^[\x20-\x7e\n]+$/);
    expect(tag.plain).toContain('+-');
  });
  test('is read also where everything is as long as can be', () => {
    const all = long(' and much more words than anybody would write on a tag that hangs on a machine'.repeat(3));
    expect(readCode(toHtml(all, { only: 'tag' }), 'card')?.length).toBeGreaterThan(300);
  });
});

describe.skipIf(lacking)('on paper', () => {
  const measure = (html: string): number[][] => {
    const script = `<script>document.body.dataset.mm=JSON.stringify([...document.querySelectorAll('.tag')].map(e=>{const r=e.getBoundingClientRect();return [r.width/96*25.4,r.height/96*25.4]}))</script></body>`;
    const page = html.replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, '').replace('</body>', () => script);
    return JSON.parse((/data-mm="([^"]*)"/.exec(dump(page))?.[1] ?? '[]').replaceAll('&quot;', '"')) as number[][];
  };
  test.each([
    ['the shipped job', sheet],
    ['long words', long(', and some more of it')],
  ])('%s fills an A7 and a card, no more', (_, made) => {
    const [a7, card] = measure(toHtml(made, { only: 'tag' }));
    expect(a7?.[0]).toBeCloseTo(105, 1);
    expect(a7?.[1]).toBeCloseTo(74, 1);
    expect(card?.[0]).toBeCloseTo(85.6, 1);
    expect(card?.[1]).toBeCloseTo(54, 1);
  });
  test('alone it is one page', () => {
    const pages = printedWords(toHtml(sheet, { only: 'tag' }), 'A4');
    expect(pages).toHaveLength(1);
    expect(pages[0]).toContain('Do not mix');
    expect(pages[0]).not.toContain('Decisions');
  });
});
