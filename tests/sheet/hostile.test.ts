/** Names, notes and readings of any content do no harm in any format. */
import fc from 'fast-check';
import type { Element } from 'jsdom';
import { marked } from 'marked';
import { describe, expect, test } from 'vitest';
import type { Entry } from '../../src/engine/journal/entry.js';
import { State } from '../../src/engine/state/state.js';
import { sheetOf } from '../../src/sheet/sheet.js';
import { toHtml } from '../../src/sheet/to-html.js';
import { toJson } from '../../src/sheet/to-json.js';
import { toMarkdown } from '../../src/sheet/to-markdown.js';
import { anyCharacter } from '../setup/any-character.js';
import { size } from '../setup/size.js';
import { finished } from './fixture.js';
import { readHtml } from './read-html.js';

const state = finished();
/** Elements that a page may hold; everything else came from a text. */
const usual = new Set(
  (
    'html head meta title style body p strong span div header h1 h2 h3 dl dt dd nav ul li a main section table caption ' +
    'colgroup col thead tbody tr th td ol code em figure figcaption svg text line rect circle g polyline path'
  )
    .split(' ')
    .map((t) => t.toLowerCase()),
);

/** Attributes that fetch or send something. */
const loading = new Set(['src', 'srcset', 'action', 'formaction', 'data', 'poster']);

/** The journal with every free text replaced. */
function soiled(words: string): State {
  const entries = state.entries.map((e): Entry => {
    const next: Record<string, unknown> = { ...e, by: words };
    for (const k of ['name', 'practice', 'mentor', 'apprentice', 'reason', 'text', 'initials', 'typed'])
      if (k in next) next[k] = words;
    if (
      e.kind === 'answer' &&
      typeof e.value === 'string' &&
      (e.key === 'pump' || e.key === 'name_l' || e.key === 'leak_at')
    )
      next.value = words;
    return next as unknown as Entry;
  });
  return new State(state.model, entries, state.now);
}

const all = (root: Element, selector: string): Element[] => Array.from(root.querySelectorAll(selector));

function checkHtml(html: string): void {
  const document = readHtml(html);
  const odd: string[] = [];
  for (const e of all(document, '*')) {
    const tag = e.tagName.toLowerCase();
    if (!usual.has(tag)) odd.push(tag);
    for (const name of e.getAttributeNames()) {
      if (/^on/i.test(name) || loading.has(name)) odd.push(`${tag} ${name}`);
      const to = e.getAttribute(name) ?? '';
      if ((name === 'href' || name === 'xlink:href') && !/^#[a-z0-9-]+$/.test(to)) odd.push(`${tag} ${name} ${to}`);
    }
  }
  expect(odd).toEqual([]);
  expect(all(document, 'style').length).toBe(1);
  const style = [
    document.querySelector('style')?.textContent,
    ...all(document, '[style]').map((e) => e.getAttribute('style')),
  ];
  expect(style.join('\n')).not.toMatch(/url\(|@import|expression/i);
}

function checkMarkdown(md: string): void {
  const document = readHtml(marked.parse(md, { async: false }));
  expect(
    all(document, 'script, img, iframe, a, style, object, embed, form, input, svg').map((e) => e.outerHTML),
  ).toEqual([]);
  for (const table of all(document, 'table')) {
    const rows = all(table, 'tr').map((r) => r.children.length);
    expect(new Set(rows).size).toBe(1);
  }
}

const payloads = [
  '<script>alert(1)</script>',
  '"><img src=x onerror=alert(1)>',
  "' onmouseover='alert(1)",
  '</style><script>alert(1)</script>',
  '</title></svg><svg onload=alert(1)>',
  '&lt;script&gt; &#x3C;b&#x3E;',
  'a | b | c\n| --- | --- |\n# heading',
  '[click](javascript:alert(1)) ![x](http://a.invalid/y.png) <http://a.invalid>',
  '```\ncode\n``` `x` **bold** _it_ ~~no~~',
  '\u001b]0;title\u0007\u001b[31mred\u001b[0m\u0000',
  '\u202Eevil\u202C \u200Bzero',
  'www.a.invalid http://a.invalid mail@a.invalid',
  '{dose} {{x}} $' + '{y} {name_l}',
  'x'.repeat(480),
  '\\| \\` \\',
  '- list\n1. one\n> quote\n    code',
];

describe('hostile texts', () => {
  test.each(payloads)('%j', (words) => {
    const sheet = sheetOf(soiled(words));
    const html = toHtml(sheet);
    const md = toMarkdown(sheet);
    checkHtml(html);
    checkMarkdown(md);
    expect(() => JSON.parse(toJson(sheet))).not.toThrow();
    expect(`${html}${md}`).not.toMatch(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e]/);
  });

  test('whatever is typed', () => {
    const piece = fc.constantFrom(
      '<',
      '>',
      '"',
      "'",
      '|',
      '`',
      '\\',
      '&',
      '\n',
      '](',
      '![',
      '-->',
      '<!--',
      '{',
      '}',
      '=',
      '\u0000',
    );
    const words = fc
      .array(
        fc.oneof(piece, fc.string({ unit: anyCharacter, maxLength: 8 }), fc.string({ unit: 'grapheme', maxLength: 8 })),
        { maxLength: 12 },
      )
      .map((p) => p.join(''));
    fc.assert(
      fc.property(words, (w) => {
        const sheet = sheetOf(soiled(w));
        checkHtml(toHtml(sheet));
        checkMarkdown(toMarkdown(sheet));
      }),
      { numRuns: size(8, 400) },
    );
  });

  test('plain words come through unchanged', () => {
    fc.assert(
      fc.property(fc.stringMatching(/^[A-Za-zäöüß][A-Za-z0-9 äöüß<>&"'*_.-]{0,28}[a-z]$/), (w) => {
        const sheet = sheetOf(soiled(w));
        const page = readHtml(toHtml(sheet));
        expect(page.querySelector('h1')?.textContent).toBe(`Job sheet: ${w}`);
        const md = readHtml(marked.parse(toMarkdown(sheet), { async: false }));
        const squeezed = (t: string | undefined) => t?.replace(/\s+/g, ' ');
        expect(squeezed(all(md, 'h1').at(-1)?.textContent)).toBe(squeezed(`Job sheet: ${w}`));
      }),
      { numRuns: size(10, 500) },
    );
  });
});
