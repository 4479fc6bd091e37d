/** Spoilt files of readings: never a crash or a hang; what is refused is refused in one sentence with its place. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import { type ReplayFile, replaySchema } from '../../src/engine/replay/replay-file.js';
import { readDocument } from '../../src/procedure/document.js';
import { anyCharacter } from '../setup/any-character.js';
import { size } from '../setup/size.js';
import { onward, sealed } from '../shipped/good-job.js';
import { goodText } from './program.js';
import { apply, change, type File, good } from './spoil.js';

/** As the command does it, in this process. */
function run(text: string): 'passed' | 'unreadable' | 'refused' {
  const read = readDocument<ReplayFile>(text, 'f.yaml', replaySchema);
  let result: 'passed' | 'unreadable' | 'refused' = 'passed';
  if (!read.value) {
    const p = read.problems[0];
    expect(p).toBeDefined();
    expect(p?.line).toBeGreaterThan(0);
    expect(p?.column).toBeGreaterThan(0);
    sentence(`${p?.message} ${p?.cure}`);
    result = 'unreadable';
  } else if (read.value.start !== undefined && Number.isNaN(Date.parse(read.value.start))) result = 'refused';
  else {
    const outcome = onward(sealed, read.value);
    if (!outcome.ok) {
      expect(outcome.item).toBeGreaterThanOrEqual(0);
      expect(outcome.item).toBeLessThan(read.value.steps.length);
      sentence(outcome.message);
      result = 'refused';
    }
  }
  return result;
}

function sentence(message: string): void {
  expect(message.length).toBeGreaterThan(8);
  expect(message.length).toBeLessThan(900);
  expect(message).not.toContain('\n');
  // What the file says may be quoted; it is not ours.
  expect(message.replace(/“[^”]*”|"[^"]*"/g, '')).not.toMatch(/undefined|\[object|NaN|Infinity|Error:/);
  expect(message).toMatch(/[.?!”)]$/);
}

describe('a spoilt file of readings', () => {
  const seen = { passed: 0, unreadable: 0, refused: 0 };

  it('spoilt as data', () => {
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 3 }), (changes) => {
        const file = structuredClone(good) as unknown as File;
        for (const c of structuredClone(changes)) apply(file, c);
        seen[run(stringify(file, { aliasDuplicateObjects: false }))]++;
      }),
      { numRuns: size(120, 5_000) },
    );
  });

  it('spoilt as text', () => {
    const cut = fc.record({
      from: fc.nat(goodText.length),
      length: fc.nat(60),
      put: fc.oneof(
        fc.string({ unit: anyCharacter, maxLength: 8 }),
        fc.constantFrom(
          '\t',
          '  ',
          '- ',
          ': ',
          '#',
          '"',
          "'",
          '[',
          '}',
          '&a ',
          '*a',
          '!!str ',
          '\u0000',
          '---\n',
          '...\n',
          '|',
          '>',
          '%',
          '\r',
          '\ufeff',
          '<<: *a',
        ),
      ),
    });
    fc.assert(
      fc.property(fc.array(cut, { minLength: 1, maxLength: 3 }), fc.option(fc.nat(goodText.length)), (cuts, end) => {
        let text = goodText;
        for (const c of cuts) text = text.slice(0, c.from) + c.put + text.slice(c.from + c.length);
        if (end !== null) text = text.slice(0, end);
        seen[run(text)]++;
      }),
      { numRuns: size(80, 3_000) },
    );
  });

  it('that is no file of readings at all', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: anyCharacter, maxLength: 400 }), fc.json({ maxDepth: 6 })), (text) => {
        seen[run(text)]++;
      }),
      { numRuns: size(60, 2_000) },
    );
  });

  it('is refused in each way, and sometimes passes', () => {
    expect(seen.unreadable).toBeGreaterThan(10);
    expect(seen.refused).toBeGreaterThan(25);
    expect(seen.passed).toBeGreaterThan(1);
  });

  it('bombs: aliases, depth, length', () => {
    const aliases = ['a: &a [x,x,x,x,x,x,x,x,x,x]'];
    for (let i = 0; i < 9; i++) {
      const from = String.fromCharCode(97 + i);
      const to = String.fromCharCode(98 + i);
      aliases.push(`${to}: &${to} [${Array(10).fill(`*${from}`).join(',')}]`);
    }
    for (const text of [
      aliases.join('\n'),
      '['.repeat(20_000),
      '{a: '.repeat(20_000),
      `${goodText}\n# ${'x'.repeat(5_000_000)}`,
      goodText.replace('steps:', `steps:\n${'  - { note: n }\n'.repeat(4000)}`),
    ])
      run(text);
  });
});
