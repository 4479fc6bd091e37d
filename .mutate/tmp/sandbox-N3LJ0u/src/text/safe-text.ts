/** Makes text of unknown origin harmless for a terminal, an HTML page or a Markdown file. */
// @ts-nocheck


/** Stands where something was cut off. */
const cutMark = ' … (cut)';

// Strings that a terminal obeys: CSI, then OSC, DCS, SOS, PM and APC up to their end, then any other escape.
const sequences =
  /(?:\x1b\[|\x9b)[0-?]*[ -/]*[@-~]?|(?:\x1b[\]PX^_]|[\x9d\x90\x98\x9e\x9f])[^\x07\x1b\x9c]*(?:\x07|\x1b\\|\x9c)?|\x1b[ -/]*[0-~]?/g;

// Format characters (directions, joiners, zero widths, tags) and what Unicode says a renderer may leave out.
const invisible = /[\p{Cf}\p{Default_Ignorable_Code_Point}]/gu;

// Marks piled on one letter run over the lines above and below.
const piledMarks = /(\p{M}{4})\p{M}+/gu;

// Halves of surrogate pairs, noncharacters and what is left of the controls.
const broken = /[\p{Cs}\p{Cc}\ufdd0-\ufdef\ufffe\uffff]/gu;

export interface SafeOptions {
  /** Longest result in code points, the mark for what was cut included; 2,000 when left out. */
  readonly max?: number;
  /** Whether line breaks stay; otherwise they become spaces. */
  readonly lines?: boolean;
}

/**
 * Text that moves no cursor, hides nothing and changes no reading direction: escape sequences and invisible
 * characters are taken out, tabs become spaces, broken characters a replacement character, long text is cut with a
 * visible mark. Doing it twice changes nothing more.
 */
export function safeText(input: unknown, { max = 2000, lines = false }: SafeOptions = {}): string {
  const whole = typeof input === 'string' ? input : show(input);
  // Cleaning only shrinks, so this much is enough to fill the result and keeps huge text cheap.
  const ahead = whole.slice(0, 8 * max + 1000);
  const clean = ahead
    .replace(/\r\n?|[\u2028\u2029\x85\v\f]/g, '\n')
    .replace(sequences, '')
    .replace(/\t/g, ' ')
    .replace(invisible, '')
    .replace(piledMarks, '$1')
    .replace(/\n/g, lines ? '\n' : ' ')
    .replace(broken, (one) => (one === '\n' ? one : '\ufffd'));
  const points = Array.from(clean);
  if (points.length <= max && ahead.length === whole.length) return clean;
  const mark = Array.from(cutMark).slice(0, max);
  return [...points.slice(0, max - mark.length), ...mark].join('');
}

function show(value: unknown): string {
  const plain = value === null || ['number', 'boolean', 'bigint', 'undefined'].includes(typeof value);
  return plain ? String(value) : typeof value;
}

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
  '`': '&#96;',
  '=': '&#61;',
};

/** Text for an HTML element or a quoted attribute; harmless as `safeText` makes it, up to 100,000 characters. */
export function escapeHtml(input: unknown): string {
  return safeText(input, { max: 100_000, lines: true }).replace(/[&<>"'`=]/g, (one) => entities[one]!);
}

/**
 * Text for one line of Markdown or a table cell: everything that could start emphasis, a link, code, HTML, a cell, a
 * heading, a list or a rule is escaped; line breaks become spaces; at most 100,000 characters.
 */
export function escapeMarkdown(input: unknown): string {
  return safeText(input, { max: 100_000 })
    .trim()
    .replace(/[\\`*_[\]<>|~&@$]/g, '\\$&')
    .replace(/:(?=\/\/)/g, '\\:')
    .replace(/^([#+=:-])/, '\\$1')
    .replace(/^(\d+)([.)])(?=\s|$)/, '$1\\$2')
    .replace(/(www)\./gi, '$1\\.')
    .replace(/!(?=\\\[)/g, '\\!');
}
