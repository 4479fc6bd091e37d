/** Mutated procedure files: the check neither crashes nor hangs, and each complaint is one line with a place. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { loadProcedure, loadTable } from '../../src/procedure/load.js';
import { modelOf } from '../../src/procedure/model.js';
import { showProblem } from '../../src/procedure/problem.js';
import { anyCharacter } from '../setup/any-character.js';
import { size } from '../setup/size.js';
import { cases } from './cases.js';
import { calculators, sound, tables } from './sound.js';

const lines = sound.split('\n');
const words = [...new Set(sound.match(/[\w-]+/g))];
const fragments = [
  ...[
    '{',
    '}',
    '[',
    ']',
    ':',
    '- ',
    '"',
    "'",
    '!',
    '&a ',
    '*a ',
    '|',
    '>-',
    '\t',
    '#',
    '\u0000',
    '\u001b[2J',
    '\ufeff',
  ],
  ...[
    'null',
    '~',
    '1e999',
    '-1',
    '.nan',
    '0x1F',
    '99999999999999999999',
    'true',
    'constructor',
    '__proto__',
    'toString',
  ],
  ...[
    '((((((((',
    "'a'.matches('(a+)+$')",
    '[1.0].map(x, [1.0].map(y, x))',
    'event_x',
    '\u202e',
    '🙂',
    'é',
    '{bore.old}',
  ],
  ...[
    '{{{',
    '}}',
    'all_',
    'job',
    '<<: *a',
    '---',
    '...',
    '%YAML 9',
    '!!binary x',
    '? ',
    '2 / 0',
    '1 / 0 > 1',
    '"\\u0000"',
  ],
];

type Edit = (text: string) => string;
const at = fc.nat(sound.length);
const edit: fc.Arbitrary<Edit> = fc.oneof(
  fc.tuple(at, fc.nat(30)).map(
    ([i, n]): Edit =>
      (t) =>
        t.slice(0, i) + t.slice(i + n),
  ),
  fc.tuple(at, fc.constantFrom(...fragments, ...words)).map(
    ([i, f]): Edit =>
      (t) =>
        t.slice(0, i) + f + t.slice(i),
  ),
  fc.tuple(at, fc.string({ maxLength: 8, unit: anyCharacter })).map(
    ([i, f]): Edit =>
      (t) =>
        t.slice(0, i) + f + t.slice(i),
  ),
  fc.tuple(fc.constantFrom(...words), fc.constantFrom(...words, ...fragments)).map(
    ([a, b]): Edit =>
      (t) =>
        t.replace(new RegExp(`\\b${a}\\b`), () => b),
  ),
  fc.tuple(fc.nat(lines.length), fc.nat(lines.length)).map(
    ([a, b]): Edit =>
      (t) => {
        const l = t.split('\n');
        l.splice(a, 0, l[b] ?? '');
        return l.join('\n');
      },
  ),
  fc.tuple(fc.nat(lines.length), fc.integer({ min: 1, max: 3 })).map(
    ([a, n]): Edit =>
      (t) => {
        const l = t.split('\n');
        l.splice(a, n);
        return l.join('\n');
      },
  ),
  fc.constantFrom(...cases).map(
    (c): Edit =>
      (t) =>
        t.replace(c.find, () => c.replace),
  ),
  fc.tuple(fc.nat(lines.length), fc.nat(6)).map(
    ([a, n]): Edit =>
      (t) => {
        const l = t.split('\n');
        l[a] = `${' '.repeat(n)}${(l[a] ?? '').trim()}`;
        return l.join('\n');
      },
  ),
);

const plainLine = /^f\.yaml:[1-9]\d*:[1-9]\d*: [^\n\r\t\u0000-\u001f]+[.?!…)]$/;

function sane(text: string): void {
  const { procedure, problems } = loadProcedure(text, 'f.yaml', { tables, calculators });
  if (procedure) modelOf(procedure, 'x', tables, calculators);
  else expect(problems.length).toBeGreaterThan(0);
  const count = text.split('\n').length;
  for (const p of problems) {
    expect(showProblem(p)).toMatch(plainLine);
    expect(p.line).toBeLessThanOrEqual(count + 1);
    // What stands in quotes is the file's own text.
    const own = showProblem(p).replace(/“[^”]*”/g, '“”');
    expect(own).not.toMatch(/undefined|\[object|TypeError|overload|zod|NaN/i);
  }
}

describe('check of damaged files', () => {
  it('survives mutated procedures', () => {
    fc.assert(
      fc.property(fc.array(edit, { minLength: 1, maxLength: 5 }), (edits) => {
        sane(edits.reduce((t, e) => e(t), sound));
      }),
      { numRuns: size(200, 9_000) },
    );
  });

  it('survives mutated conditions', () => {
    const tokens = [
      'bore',
      'grease',
      'runs',
      'dose',
      'fast',
      'event_dropped',
      '1.0',
      '2',
      "'good'",
      '(',
      ')',
      '[',
      ']',
      '.',
      ',',
    ];
    const signs = [
      '&&',
      '||',
      '!',
      '==',
      '<',
      '+',
      '*',
      '/',
      '?',
      ':',
      'in',
      'max',
      'at',
      'size()',
      'exists(x, x)',
      '%',
      '-',
    ];
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...tokens, ...signs), { minLength: 1, maxLength: 12 }), (parts) => {
        sane(sound.replace('must: bore > 10.0', () => `must: ${JSON.stringify(parts.join(' '))}`));
      }),
      { numRuns: size(80, 3_000) },
    );
  });

  it('survives texts of any kind, as procedure and as table', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ maxLength: 300, unit: anyCharacter }), fc.json()), (text) => {
        sane(text);
        for (const p of loadTable(text, 'f.yaml').problems) expect(showProblem(p)).toMatch(plainLine);
      }),
      { numRuns: size(60, 2_000) },
    );
  });
});
