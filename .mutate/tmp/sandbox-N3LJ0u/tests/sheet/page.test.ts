/** The page stands alone and can be used without eyes: checked by axe-core in jsdom. */
// @ts-nocheck


import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { type Element, JSDOM } from 'jsdom';
import { describe, expect, test } from 'vitest';
import { sheetOf } from '../../src/sheet/sheet.js';
import { toHtml } from '../../src/sheet/to-html.js';
import { finished, jobFile, jobText } from './fixture.js';

const page = toHtml(sheetOf(finished()));
const { document } = new JSDOM(page).window;
const all = (selector: string): Element[] => Array.from(document.querySelectorAll(selector));

describe('the page', () => {
  test('has a language, a title and one first heading', () => {
    expect(document.querySelector('html')?.getAttribute('lang')).toBe('en');
    expect(document.title).toBe('PRACTICE, Job sheet: Test pump');
    expect(all('h1')).toHaveLength(1);
  });
  test('has no script and asks for nothing from outside', () => {
    expect(all('script, link, iframe, img, object, embed, form')).toEqual([]);
    expect(page.match(/https?:\/\/[^"\s]*/g)?.filter((u) => u !== 'http://www.w3.org/2000/svg')).toEqual([]);
    expect(document.querySelector('meta[http-equiv]')?.getAttribute('content')).toContain("default-src 'none'");
  });
  test('ids are unique and every link leads somewhere', () => {
    const ids = all('[id]').map((e) => e.getAttribute('id'));
    expect(new Set(ids).size).toBe(ids.length);
    for (const a of all('a[href]')) expect(ids).toContain(a.getAttribute('href')?.slice(1));
  });
  test('every table names its columns and rows, and every drawing is described', () => {
    for (const table of all('table')) {
      expect(table.querySelectorAll('thead th[scope=col]').length).toBeGreaterThan(1);
      for (const row of Array.from(table.querySelectorAll('tbody tr')))
        expect(row.querySelector('th[scope]')).not.toBeNull();
    }
    for (const svg of all('figure svg, .strip > svg')) {
      expect(svg.getAttribute('role')).toBe('img');
      expect(svg.querySelector('title')?.textContent?.length).toBeGreaterThan(10);
    }
  });
  test('tells how to measure the strip before trusting it', () => {
    expect(document.querySelector('#strip')?.textContent).toContain('Before you trust the strip');
    expect(document.querySelector('#strip')?.textContent).toContain('50 mm');
  });

  test.each([
    ['a finished job', page],
    ['an unfinished one', toHtml(sheetOf(finished(jobFile(jobText.split('  - { raise')[0] ?? ''))))],
  ])('axe-core finds nothing in %s', async (_, html) => {
    const source = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
    const { window } = new JSDOM(html, { runScripts: 'outside-only' });
    window.eval(source);
    // jsdom has no layout, so contrast is checked in the browser (print.test.ts).
    const run = window.eval(
      `axe.run(document, { rules: { 'color-contrast': { enabled: false } } }).then((r) => JSON.stringify({ ran: r.passes.length, bad: r.violations.map((v) => [v.id, v.nodes.map((n) => n.html)]) }))`,
    ) as Promise<string>;
    const result = JSON.parse(await run);
    expect(result.bad).toEqual([]);
    expect(result.ran).toBeGreaterThan(10);
  });
});
