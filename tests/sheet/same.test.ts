/** Markdown, HTML and JSON hold the same sections, rows and figures; the screen tells the same. */
import type { Element } from 'jsdom';
import { marked } from 'marked';
import { describe, expect, test } from 'vitest';
import { cellText, type Section } from '../../src/sheet/section.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import type { Figure } from '../../src/sheet/sheet-data.js';
import { toHtml } from '../../src/sheet/to-html.js';
import { toJson } from '../../src/sheet/to-json.js';
import { toMarkdown } from '../../src/sheet/to-markdown.js';
import { toScreen } from '../../src/sheet/to-screen.js';
import { Job } from '../shipped/good-job.js';
import { finished, jobFile, jobText } from './fixture.js';
import { readHtml } from './read-html.js';

const dosed = new Job().answer('dose', 'a', { dose_set: '2.5 mL' });
dosed.step('dose', 'a').overrule = { gate: 'dose-near', reason: 'looked empty', initials: 'MN' };

const jobs = {
  'an invented job with everything in it': finished(),
  'one that is half done': finished(jobFile(jobText.split('  - { raise')[0] ?? '')),
  'the shipped job': new Job().run().state,
  'one with a stop that was overruled': dosed.run().state,
};

interface Told {
  readonly title: string;
  readonly rows: readonly (readonly string[])[];
}
const squeezed = (text: string | null | undefined): string => (text ?? '').replace(/\s+/g, ' ').trim();
const texts = (all: ArrayLike<Element>): string[] => Array.from(all).map((e) => squeezed(e.textContent));

/** Sections by their headings, each with the rows of its tables and the items of its lists. */
function fromDom(html: string, cut: (title: string) => string): Told[] {
  const document = readHtml(html);
  const out: { title: string; rows: string[][] }[] = [];
  for (const e of Array.from(document.querySelectorAll('h2, tbody tr, li'))) {
    // The card says the same as the larger tag.
    if (e.closest('nav, svg, ol, figure, .card')) continue;
    const last = out.at(-1);
    if (e.tagName === 'H2') out.push({ title: cut(squeezed(e.textContent)), rows: [] });
    else if (e.tagName === 'LI') last?.rows.push([squeezed(e.textContent)]);
    else last?.rows.push(texts(e.querySelectorAll('th, td')));
  }
  return out;
}

function fromSections(sections: readonly Section[]): Told[] {
  return sections.map((s) => ({
    title: s.title,
    rows: s.blocks.flatMap((b) =>
      b.is === 'table'
        ? b.rows.map((r) => (r.group ? r.cells.slice(0, 1) : r.cells).map((c) => squeezed(cellText(c))))
        : b.is === 'list'
          ? b.items.map((i) => [squeezed(cellText(i))])
          : b.is === 'strip'
            ? b.strip.marks.map((m) => [m.name, `${m.mm.toFixed(1)} mm`])
            : b.is === 'tag'
              ? b.tag.lines.map((l) => [squeezed(`${l.label}: ${l.text}`)])
              : b.is === 'ink'
                ? b.lines.map((l) => [l])
                : [],
    ),
  }));
}

/** Markdown leaves a first cell that says the same empty, and draws depth as dashes. */
function markdownRows(told: readonly Told[], like: readonly Told[]): Told[] {
  return told.map((s, i) => ({
    title: s.title,
    rows: s.rows.map((row, j) => {
      const wanted = like[i]?.rows[j] ?? [];
      const rest = row.map((c) => c.replace(/^(– )+/, '').replace(/: _{20,}$/, ''));
      const whole = rest[0] === '' ? [wanted[0] ?? '', ...rest.slice(1)] : rest;
      return wanted.length === 1 ? whole.filter((c, k) => k === 0 || c !== '') : whole;
    }),
  }));
}

describe.each(Object.entries(jobs))('%s', (_, state) => {
  const sheet = sheetOf(state);
  const json = fromSections((JSON.parse(toJson(sheet)) as { sections: readonly Section[] }).sections);

  test('has the same sections and rows in HTML as in JSON', () => {
    expect(json.length).toBeGreaterThan(5);
    expect(json.flatMap((s) => s.rows).length).toBeGreaterThan(20);
    expect(fromDom(toHtml(sheet), (t) => t)).toEqual(json);
  });

  test('and in Markdown', () => {
    // Lists of worked steps are ordered lists in HTML and plain ones here; a derivation is told by its tables.
    const bare = (all: readonly Told[]): Told[] =>
      all.map((s) => ({ ...s, rows: s.rows.filter((r) => r.length > 1 || !s.title.startsWith('How the figures')) }));
    const md = fromDom(marked.parse(toMarkdown(sheet), { async: false }), (t) => t);
    expect(markdownRows(bare(md), bare(json))).toEqual(bare(json));
  });

  test('shows each figure of the data in the sections, under its key and place', () => {
    const { sections } = JSON.parse(toJson(sheet)) as { sections: readonly Section[] };
    const cells = sections.flatMap((s) =>
      s.blocks.flatMap((b) => (b.is === 'table' ? b.rows.flatMap((r) => r.cells) : [])),
    );
    const shown = cells.flatMap((c) => (typeof c === 'string' ? [] : 'text' in c ? [c] : c)).filter((p) => p.figure);
    // A group leaves out what is known at no place.
    const known = new Set(sheet.groups.flatMap((g) => g.figures.filter((f) => f.known).map((f) => f.key)));
    const grouped = sheet.groups.flatMap((g) => g.figures.filter((f) => known.has(f.key)));
    // What a row of the first page says stands there, in its words.
    const first = sheet.front.rows;
    const above = (f: Figure): boolean =>
      first.some((r) => r.keys.includes(f.key) && (r.place === f.place || f.place === 'job'));
    for (const f of [...sheet.headline, ...grouped].filter(above))
      if (f.known) expect(first.map((r) => r.text).join('\n')).toContain(f.text);
    for (const f of [...[...sheet.headline, ...grouped].filter((g) => !above(g)), ...sheet.next])
      expect(shown).toContainEqual(
        expect.objectContaining({ figure: { key: f.key, place: f.place }, text: expect.stringContaining(f.text) }),
      );
  });

  test.each([40, 78, 118])('and on a screen of %s columns, no line wider than that', (width) => {
    const pages = toScreen(sheet);
    const lines = pages.flatMap((p) => p.lines(width, false).map((l) => l.map((s) => s.text).join('')));
    expect(lines.filter((l) => l.length > width)).toEqual([]);
    const said = squeezed(lines.join(' ')).toUpperCase();
    for (const s of json) expect(said).toContain(s.title.toUpperCase());
    expect(said).not.toContain('| ---');
  });
});

test('without the appendix the first pages are the same', () => {
  const sheet = sheetOf(jobs['the shipped job']);
  const whole = fromDom(toHtml(sheet), (t) => t);
  const short = fromDom(toHtml(sheet, { appendix: false }), (t) => t);
  expect(short.length).toBeGreaterThan(3);
  expect(short.length).toBeLessThan(whole.length);
  expect(whole.slice(0, short.length)).toEqual(short);
  expect(toMarkdown(sheet, { appendix: false })).not.toContain('## How the figures');
});
