import fc from 'fast-check';
import { micromark } from 'micromark';
import { gfm, gfmHtml } from 'micromark-extension-gfm';
import { describe, expect, test } from 'vitest';
import { escapeHtml, escapeMarkdown, safeText } from '../../src/text/safe-text.js';
import { anyCharacter } from '../setup/any-character.js';
import { size } from '../setup/size.js';

const hostile = fc.oneof(
  fc.string({ unit: anyCharacter, maxLength: 300 }),
  // Any UTF-16 units, lone halves of pairs among them.
  fc.array(fc.nat(0xffff)).map((units) => String.fromCharCode(...units)),
  fc
    .array(
      fc.constantFrom(
        ...'\x1b \x1b[ 31m \x1b] 0;title \x07 \x1b\\ \x9b 2J \x90 \x9c \u202e \u2066 \u200b \u200d \ufeff \ud83d \ude00 \r \n \t \0 \x7f \x08 e\u0301 a \u0301 <b> & " \' ` | * _ [x](y) # - 1.'.split(
          ' ',
        ),
      ),
      { maxLength: 40 },
    )
    .map((parts) => parts.join('')),
);
const many = { numRuns: size(250, 100_000) };

describe('safeText', () => {
  test('leaves nothing that a terminal obeys, that hides, or that turns the reading direction', () => {
    fc.assert(
      fc.property(hostile, fc.boolean(), fc.integer({ min: 0, max: 400 }), (text, lines, max) => {
        const safe = safeText(text, { lines, max });
        // Unicode's own classes: controls, formats (directions, zero widths), default ignorables, surrogates. [P: UCD]
        expect(safe.replace(lines ? /\n/g : /(?!)/g, '')).not.toMatch(
          /[\p{Cc}\p{Cf}\p{Cs}\p{Default_Ignorable_Code_Point}\u2028\u2029]/u,
        );
        expect(Array.from(safe).length).toBeLessThanOrEqual(max);
        expect(safe).not.toMatch(/\p{M}{5}/u);
        expect(safeText(safe, { lines, max })).toBe(safe);
      }),
      many,
    );
  });

  test.each([
    ['12,5 µm ± 0.02 °C – Ölmühle 机器 é', '12,5 µm ± 0.02 °C – Ölmühle 机器 é'],
    ['red \x1b[31mtext\x1b[0m', 'red text'],
    ['title \x1b]0;owned\x07after', 'title after'],
    ['link \x1b]8;;http://x\x1b\\here\x1b]8;;\x1b\\', 'link here'],
    ['8-bit \x9b2Jclear', '8-bit clear'],
    ['nested \x1b\x1b[31m[31mx', 'nested [31mx'],
    ['gear\u202elio', 'gearlio'],
    ['zero\u200bwidth\ufeff', 'zerowidth'],
    ['half \ud83d pair', 'half \ufffd pair'],
    ['whole 😀 pair', 'whole 😀 pair'],
    ['a\tb\r\nc\rd', 'a b c d'],
    ['bell \x07 nul \0', 'bell \ufffd nul \ufffd'],
    [undefined, 'undefined'],
    [{ never: 1 }, 'object'],
  ])('%j reads %j', (text, safe) => {
    expect(safeText(text)).toBe(safe);
  });

  test('lines stay when asked for', () => expect(safeText('a\r\nb\u2028c', { lines: true })).toBe('a\nb\nc'));

  test('huge text is cut with a mark', () => {
    const safe = safeText('\x1b[31mx'.repeat(10_000_000), { max: 100 });
    expect(safe).toBe(`${'x'.repeat(92)} … (cut)`);
    expect(safeText('\x1b]'.repeat(200_000), { max: 100 })).toMatch(/cut/);
  });
});

// Decoding as the HTML standard names these references. [P: WHATWG HTML, named and numeric character references]
const decoded: Readonly<Record<string, string>> = {
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  '#39': "'",
  '#96': '`',
  '#61': '=',
};

test('escapeHtml opens no tag, no attribute and no entity, and reads as the safe text', () => {
  fc.assert(
    fc.property(hostile, (text) => {
      const html = escapeHtml(text);
      expect(html).not.toMatch(/[<>"'`=]/);
      expect(html.replace(/&([^;&]+);/g, (_, name: string) => decoded[name] ?? 'WRONG')).toBe(
        safeText(text, { lines: true, max: 100_000 }),
      );
    }),
    many,
  );
});

test.each([
  ['0.35 ml (front)', '0.35 ml (front)'],
  ['a|b', 'a\\|b'],
  ['# no heading', '\\# no heading'],
  ['- no list', '\\- no list'],
  ['1. no list', '1\\. no list'],
  ['1.5 ml', '1.5 ml'],
  ['[x](http://y)', '\\[x\\](http\\://y)'],
  ['![x](y)', '\\!\\[x\\](y)'],
  ['<script>', '\\<script\\>'],
  ['two\nlines', 'two lines'],
  ['back\\slash', 'back\\\\slash'],
])('escapeMarkdown makes %j to %j', (text, markdown) => {
  expect(escapeMarkdown(text)).toBe(markdown);
});

// The reference for what Markdown makes of it: micromark, which follows CommonMark 0.31 and GitHub's tables and links.
const render = (markdown: string): string =>
  micromark(markdown, { extensions: [gfm()], htmlExtensions: [gfmHtml()] }).trim();
const shown = (text: string): string =>
  safeText(text, { max: 100_000 })
    .trim()
    .replace(/[&<>"]/g, (one) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[one]!);

const prose = fc
  .array(
    fc.constantFrom(
      ...'a b 1 2 . ) - + * _ ~ ~~ ` ``` # = | \\ ! [ ] ( ) < > & &amp; : :// http:// www. x@y.z ^ $ { } \n \t " \' / , ; % @'.split(
        ' ',
      ),
      ' ',
    ),
    { maxLength: 25 },
  )
  .map((parts) => parts.join(''));

test('escapeMarkdown: a Markdown reader shows the safe text and nothing else, as a paragraph and in a table', () => {
  fc.assert(
    fc.property(fc.oneof(prose, hostile), (text) => {
      const escaped = escapeMarkdown(text);
      expect(render(escaped)).toBe(shown(text) === '' ? '' : `<p>${shown(text)}</p>`);
      const table = render(`| a | b |\n| --- | --- |\n| x${escaped} | y |`);
      expect(table).toContain(`<td>x${shown(text)}</td>\n<td>y</td>\n</tr>`);
    }),
    { numRuns: size(600, 100_000) },
  );
});
