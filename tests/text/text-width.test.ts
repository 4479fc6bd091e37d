import fc from 'fast-check';
import stringWidth from 'string-width';
import { expect, it } from 'vitest';
import { textWidth } from '../../src/text/text-width.js';
import { anyCharacter } from '../setup/any-character.js';

it('agrees with string-width for every single character of the basic plane', () => {
  const wrong: string[] = [];
  for (let c = 0x20; c < 0xd800; c++) {
    const text = String.fromCharCode(c);
    if (textWidth(text) !== stringWidth(text)) wrong.push(c.toString(16));
  }
  expect(wrong).toEqual([]);
});

it('agrees with string-width for any text', () => {
  fc.assert(
    fc.property(fc.string({ unit: anyCharacter, maxLength: 30 }), (text) => textWidth(text) === stringWidth(text)),
  );
});

it('agrees with string-width for coloured text', () => {
  const piece = fc.constantFrom('\u001b[1m', '\u001b[38;5;12m', '\u001b[0m', '\u001b[2K', 'Ω 5 µm', '─│┌', '漢', 'a');
  fc.assert(
    fc.property(
      fc.array(piece, { maxLength: 9 }),
      (pieces) => textWidth(pieces.join('')) === stringWidth(pieces.join('')),
    ),
  );
});
