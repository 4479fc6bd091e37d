/**
 * The strip of marks as it comes out of a printer: the page is printed to PDF by headless Chromium and the lines are
 * measured in the PDF. Expected distances: travel = 1000 V / (pi/4 bore^2) (arithmetic); bore 14.5 mm gives 6.056 mm
 * for each mL, bore 8.66 mm 16.978 mm.
 */

import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { beforeAll, describe, expect, test } from 'vitest';
import { sheetOf } from '../../src/sheet/sheet.js';
import type { Sheet, Strip } from '../../src/sheet/sheet-data.js';
import { toHtml } from '../../src/sheet/to-html.js';
import { dump, lacking, printed } from './chromium.js';
import { finished } from './fixture.js';

if (lacking) console.log(`print checks skipped: ${lacking}`);
const MM = 72 / 25.4;
const sheet = sheetOf(finished());
const strip = (mm: readonly number[]): Strip => ({
  title: 'Strip',
  say: 'Lay it on.',
  marks: mm.map((m, i) => ({ mm: m, name: `bearing ${i + 1}`, label: `bearing ${i + 1}` })),
});
const pageWith = (mm: readonly number[], more: Partial<Sheet> = {}): string =>
  toHtml({ ...sheet, ...more, strip: strip(mm) });

interface Line {
  readonly width: number;
  readonly length: number;
  readonly from: readonly [number, number];
}
/** Straight lines of a page in mm; `width` is the stroke in mm as drawn. */
function linesOf(svg: string): Line[] {
  const path =
    /<path [^>]*stroke-width:([\d.]+)[^>]* d="M ([\d.e-]+) ([\d.e-]+) L ([\d.e-]+) ([\d.e-]+) " transform="matrix\(([^)]*)\)"/g;
  return [...svg.matchAll(path)].map((m) => {
    const [width = 0, x1 = 0, y1 = 0, x2 = 0, y2 = 0] = m.slice(1, 6).map(Number);
    const [a = 1, b = 0, c = 0, d = 1, e = 0, f = 0] = (m[6] ?? '').split(',').map(Number);
    const at = (x: number, y: number) => [(a * x + c * y + e) / MM, (b * x + d * y + f) / MM] as const;
    const from = at(x1, y1);
    const to = at(x2, y2);
    return { width: (width * Math.hypot(a, b)) / MM, length: Math.hypot(to[0] - from[0], to[1] - from[1]), from };
  });
}
const near = (x: number, y: number, by: number): boolean => Math.abs(x - y) < by;

const startOf = (lines: readonly Line[]): Line | undefined =>
  lines.find((l) => near(l.width, 0.5, 0.02) && near(l.length, 26, 0.3));

/** Distances of the marks from the start line, along the strip, on each page that holds one whole. */
function measured(pages: readonly string[]): { marks: number[]; bar: number[] }[] {
  return pages.map(linesOf).flatMap((lines) => {
    const start = startOf(lines);
    if (!start) return [];
    const marks = lines
      .filter((l) => near(l.width, 0.25, 0.02) && near(l.length, 26, 0.3))
      .map((l) => Math.hypot(l.from[0] - start.from[0], l.from[1] - start.from[1]));
    return [{ marks, bar: lines.filter((l) => near(l.width, 0.6, 0.05)).map((l) => l.length) }];
  });
}

describe.skipIf(lacking)('the printed strip', () => {
  const cases: readonly [string, readonly number[]][] = [
    ['1 mL and 1 mL from a bore of 14.5 mm', [6.056, 12.112]],
    ['1 mL and 1 mL from a bore of 8.66 mm', [16.978, 33.956]],
    ['marks close together', [2.5, 4.1, 9.87]],
    ['as long as lies across the page', [60, 150]],
    ['longer, standing', [80.5, 200]],
  ];
  // A whole sheet, and of the others their strips behind it in one print: to start the browser for each takes most of the time.
  const sheets = cases.map(([, mm]) => pageWith(mm));
  const stripOf = (html: string): string =>
    /<section[^>]*class="[^"]*\bstrip\b[\s\S]*?<\/section>/.exec(html)?.[0] ?? '';
  const together = sheets[0]!
    .replace(stripOf(sheets[0]!), () => sheets.map(stripOf).join(''))
    // A page for each.
    .replace('</style>', '.strip{break-before:page}</style>');
  for (const paper of ['A4', 'letter'] as const)
    describe(`on ${paper}`, () => {
      let strips: ReturnType<typeof measured> = [];
      beforeAll(() => {
        strips = measured(printed(together, paper, 'START'));
      });
      test.each(cases.map(([name, mm], i) => [name, mm, i] as const))('%s', (_, mm, n) => {
        expect(strips).toHaveLength(cases.length);
        const { marks, bar } = strips[n]!;
        expect(marks).toHaveLength(mm.length);
        marks.forEach((m, i) => {
          expect(Math.abs(m - (mm[i] ?? 0))).toBeLessThan(0.1);
        });
        expect(bar).toHaveLength(1);
        expect(Math.abs((bar[0] ?? 0) - 50)).toBeLessThan(0.1);
      });
    });

  test('long words elsewhere do not shrink the page', () => {
    const long = 'x'.repeat(480);
    const head = { ...sheet.head, job: long, procedureTitle: long };
    const notes = [{ kind: 'note', place: 'job', where: long, text: long, at: 'x', by: long } as const];
    const derivations = sheet.derivations.map((d) => ({ ...d, formula: long, worked: [long] }));
    const pages = printed(pageWith([6.056, 12.112], { head, notes, derivations }), 'A4', 'START');
    const [{ marks, bar } = { marks: [], bar: [] }] = measured(pages);
    expect(Math.abs((marks[1] ?? 0) - 12.112)).toBeLessThan(0.1);
    expect(Math.abs((bar[0] ?? 0) - 50)).toBeLessThan(0.1);
  });

  test('PRACTICE stands on each page', () => {
    const pages = printed(toHtml(sheet), 'A4');
    expect(pages.length).toBeGreaterThan(1);
    // The watermark is the only text of this colour and opacity on later pages.
    for (const page of pages) expect(page).toMatch(/opacity:0?\.1|opacity="0?\.1/);
  });
});

test('a strip too long for paper says so instead of being scaled', () => {
  const html = pageWith([100, 300]);
  expect(html).toContain('too long for one page');
  expect(html).not.toContain('START');
});

describe.skipIf(lacking)('in a browser', () => {
  test('axe-core finds nothing, contrast included', () => {
    const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
    const script = `<script>${axe.replaceAll('</script', '<\\/script')}</script><script>
      axe.run(document, { resultTypes: ['violations'] }).then((r) => {
        const pre = document.createElement('pre');
        pre.id = 'found';
        pre.textContent = JSON.stringify({ ran: r.passes.length, bad: r.violations.map((v) => [v.id, v.nodes.map((n) => n.html)]) });
        document.body.append(pre);
      });</script></body>`;
    const page = toHtml(sheet).replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, '');
    const out = dump(page.replace('</body>', () => script));
    const found = /<pre id="found">([\s\S]*?)<\/pre>/.exec(out)?.[1];
    expect(found).toBeDefined();
    const result = JSON.parse((found ?? '{}').replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&amp;', '&'));
    expect(result.bad).toEqual([]);
    expect(result.ran).toBeGreaterThan(10);
  });
});
