/** A file is read by the quicker reader where nothing is wrong with it: it must say what the one with positions says. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readSource, readWithPlaces } from '../../src/procedure/document.js';
import { size } from '../setup/size.js';

const files = readdirSync('procedures', { recursive: true, encoding: 'utf8' })
  .filter((f) => f.endsWith('.yaml'))
  .map((f) => join('procedures', f));
const replays = files.filter((f) => f.endsWith('.replay.yaml')).map((f) => readFileSync(f, 'utf8'));

// Each stands for a rule of YAML 1.2 by which readers differ.
const odd = [
  ...['\t', '  ', '\n', '\n  ', '\r\n', '\r', '\u00a0', '\u2028', '\u0085', '\ufeff', '---\n', '...\n', '%YAML 1.2\n'],
  ...['- ', ': ', 'key:', 'key: ', '? ', '#', ' #', '"', "'", '\\', '\\x', '|', '>-', '[', ']', '{', '}', ',', '{}'],
  ...['&a ', '*a ', '!!str ', '!', '<<: ', '__proto__: 1\n', '~', 'null', '@', '`', '%', '=', '-', '🙂', 'é'],
  ...['0x1F', '0o17', '017', '0b11', '1_000', '.5', '0.', '1e3', '12e', '-0', '+1', '.nan', '+.inf', '1:30', 'yes'],
  '9999999999999999999999',
];

/** True when the first reader found nothing to complain of. */
function agree(text: string): boolean {
  const { source } = readSource(text, 'f.yaml');
  const whole = readWithPlaces(text, 'f.yaml');
  expect(source?.plain).toStrictEqual(whole.source?.plain);
  return source !== undefined;
}

describe('the two readers of a file', () => {
  it.each(files)('say the same of %s', (file) => {
    expect(agree(readFileSync(file, 'utf8'))).toBe(true);
  });

  it('take and refuse the same of replays that were spoilt', () => {
    let taken = 0;
    const change = fc.record({ at: fc.nat(20_000), length: fc.nat(12), put: fc.constantFrom('', ...odd) });
    fc.assert(
      fc.property(
        fc.constantFrom(...replays),
        fc.nat(400),
        fc.integer({ min: 1, max: 12 }),
        fc.array(change, { minLength: 1, maxLength: 3 }),
        (whole, from, lines, changes) => {
          const all = whole.split('\n');
          let text = `${all.slice(from % all.length, (from % all.length) + lines).join('\n')}\n`;
          for (const c of changes) {
            const at = c.at % (text.length + 1);
            text = text.slice(0, at) + c.put + text.slice(at + c.length);
          }
          if (agree(text)) taken++;
        },
      ),
      { numRuns: size(300, 50_000) },
    );
    expect(taken).toBeGreaterThan(20);
  });

  it('tell the same place of a mistake', () => {
    const text = 'replay: 1\nsteps:\n  - { step: bench }\n  - { step: kit, answers: { kit_ready: 1.50 } }\n';
    for (const path of [[], ['steps'], ['steps', 1], ['steps', 1, 'answers', 'kit_ready'], ['steps', 9]])
      expect(readSource(text, 'f').source?.spot(path)).toStrictEqual(readWithPlaces(text, 'f').source?.spot(path));
    expect(readSource(text, 'f').source?.spot(['steps', 1, 'answers', 'kit_ready'])).toStrictEqual({
      line: 4,
      column: 40,
    });
  });
});
