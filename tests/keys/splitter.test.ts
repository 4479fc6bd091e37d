/**
 * The codes below are those of xterm's "ctlseqs" (control sequences, bracketed paste, mouse and focus reports), of the
 * Linux console (console_codes(4)) and of the DEC VT100/VT220 (number pad), not of our own tables. Tag P.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Key } from '../../src/keys/key.js';
import { Splitter } from '../../src/keys/splitter.js';
import { size } from '../setup/size.js';

const bytes = (sent: string | readonly number[]) =>
  typeof sent === 'string' ? Buffer.from(sent) : Uint8Array.from(sent);
/** Keys as words: names in angle brackets, pasted characters in braces. */
const show = (keys: readonly Key[]) =>
  keys.map((k) => (k.name !== 'char' ? `<${k.name}>` : k.pasted ? `{${k.char}}` : k.char)).join('');
function split(sent: string | readonly number[]): string {
  const splitter = new Splitter();
  return show([...splitter.push(bytes(sent)), ...splitter.rest()]);
}

describe('keys', () => {
  it.each([
    ['\r', '<enter>'],
    ['\n', '<enter>'],
    ['\r\n', '<enter>'],
    ['\r\r', '<enter><enter>'],
    ['\x1bOM', '<enter>'],
    ['\t', '<tab>'],
    ['\x1b[Z', '<back-tab>'],
    ['\x7f', '<backspace>'],
    ['\b', '<backspace>'],
    ['\x1b[3~', '<backspace>'],
    ['\x1b[A\x1b[B\x1b[C\x1b[D', '<up><down><right><left>'],
    ['\x1bOA\x1bOB\x1bOC\x1bOD', '<up><down><right><left>'],
    ['\x1b[H\x1b[F\x1bOH\x1bOF\x1b[1~\x1b[4~\x1b[7~\x1b[8~', '<home><end><home><end><home><end><home><end>'],
    ['\x1b[5~\x1b[6~', '<page-up><page-down>'],
    ['\x03', '<interrupt>'],
    ['\x1b', '<esc>'],
    ['\x1b\x1b', '<esc><esc>'],
    ['\x1b\x1b[A', '<esc><up>'],
    ['\x1bOp\x1bOn\x1bOy', '0.9'],
    ['12,5 mL µΩ ½ 漢 e\u0301', '12,5 mL µΩ ½ 漢 e\u0301'],
    ['\x1b[B\r12.5\r2', '<down><enter>12.5<enter>2'],
  ])('%j is %s', (sent, keys) => expect(split(sent)).toBe(keys));
});

describe('what is dropped', () => {
  it.each([
    ['Ctrl+F1', '\x1b[1;5P'],
    ['F1 to F5 of xterm and of the Linux console', '\x1bOP\x1b[15~\x1b[[A\x1b[[E'],
    ['arrows with Shift, Ctrl', '\x1b[1;2A\x1b[1;5B\x1b[a'],
    ['X10, SGR and urxvt mouse', '\x1b[M !!\x1b[<0;1;1M\x1b[<0;1;1m\x1b[32;1;1M'],
    ['focus in, out', '\x1b[I\x1b[O'],
    ['device and cursor reports', '\x1b[?62;22c\x1b[24;80R\x1b[?1;2c'],
    ['OSC with BEL, with ST', '\x1b]52;c;cmVk\x07\x1b]11;rgb:00/00/00\x1b\\'],
    ['DCS, APC, PM, SOS', '\x1bP1$r0m\x1b\\\x1b_G1\x1b\\\x1b^x\x1b\\\x1bXy\x1b\\'],
    ['Alt and a key, Alt+Enter', '\x1bx\x1b1\x1b\r\x1bä'],
    ['control characters', '\x00\x01\x04\x0b\x0c\x1a\x1c'],
    ['C1 characters', '\u0085\u009b'],
    ['direction marks, private use, byte order mark', '\u202e\u2066\ue000\ufeff'],
    ['CSI u of the kitty protocol', '\x1b[13u\x1b[97;5u'],
    ['names that objects have anyway', '\x1bOtoString'.slice(0, 2)],
  ])('%s', (_name, sent) => expect(split(sent)).toBe(''));

  it.each([
    ['overlong', [0xc0, 0x8d, 0xe0, 0x80, 0x8d]],
    ['surrogate', [0xed, 0xa0, 0x80]],
    ['beyond Unicode', [0xf4, 0x90, 0x80, 0x80, 0xf5]],
    ['cut off', [0xc3, 0xe2, 0x82]],
    ['stray continuation', [0x80, 0xbf]],
  ])('UTF-8 that is %s, and only that', (_name, broken) => {
    expect(split([0x31, ...broken, 0x32])).toBe('12');
  });
  it('the byte that breaks a sequence goes with it', () => expect(split('\x1b[1\r5')).toBe('5'));
  it('Ctrl-C passes from inside a sequence', () => expect(split('\x1b]0;never ended\x03')).toBe('<interrupt>'));
});

describe('bracketed paste', () => {
  const paste = (content: string) => `\x1b[200~${content}\x1b[201~`;
  it.each([
    ['12.5', '{1}{2}{.}{5}'],
    ['12.5\r', '{1}{2}{.}{5}'],
    ['\r\n 1\r\n\r\n2\t3\n', '{ }{1}{ }{2}{ }{3}'],
    ['1\x032', '{1}{2}'],
    ['1\x1b[A\x1bOp\x1b2', '{1}'],
    ['a\x7fb', '{a}{b}'],
  ])('%j', (content, keys) => expect(split(`${paste(content)}\r`)).toBe(`${keys}<enter>`));
  it('whose end was lost ends with silence', () => {
    const splitter = new Splitter();
    expect(show(splitter.push(bytes('\x1b[200~1\r')))).toBe('');
    expect(splitter.pending).toBe('paste');
    expect(show(splitter.rest())).toBe('{1}');
    expect(show(splitter.push(bytes('\r')))).toBe('<enter>');
  });
  // Forms in which terminals type a dropped file: bare, in quotes, with blanks escaped, as an address. From memory.
  it.each([
    '/home/ap/IMG 1.jpg ',
    "'/home/ap/old grease.JPEG' ",
    '/Users/ap/old\\ grease.png',
    'file:///home/ap/old%20grease.webp',
    '"C:\\Pictures\\seal.jpg"',
    '~/seal.heic',
  ])('%s is one key: a picture that was dropped', (path) => {
    const splitter = new Splitter();
    const keys = [...paste(path)].flatMap((char) => splitter.push(bytes(char)));
    expect(keys).toEqual([{ name: 'dropped', char: '', pasted: true, path }]);
  });
  it.each(['seal.jpg', '/home/ap/notes.txt', 'see /home/ap/seal.jpg', `/${'a'.repeat(5000)}.jpg`])(
    'text that is no path of a picture stays text: %s',
    (text) => {
      expect(new Splitter().push(bytes(paste(text))).every((key) => key.name === 'char' && key.pasted)).toBe(true);
    },
  );
  it('a stray end is nothing', () => expect(split('1\x1b[201~2')).toBe('12'));
});

describe('any cutting into chunks', () => {
  const piece = fc.oneof(
    fc
      .constantFrom(
        '\x1b',
        '\x1b[',
        '\x1b[200~',
        '\x1b[201~',
        '\x1b]0;t',
        '\x07',
        '\x1b\\',
        '\x1bO',
        '\x1b[M',
        '\x1b[[',
      )
      .map(bytes),
    fc
      .constantFrom('\r', '\n', '\r\n', '\t', '\x7f', '12.5', '\x1b[1;5P', '\x1b[<0;1;1M', '\x1b[A', '\x1bOB')
      .map(bytes),
    fc.string({ unit: 'grapheme', maxLength: 4 }).map(bytes),
    fc.uint8Array({ maxLength: 5 }),
  );
  const input = fc.array(piece, { maxLength: 40 }).map((pieces) => Buffer.concat(pieces));

  it('gives the same keys (5,000 runs)', () => {
    fc.assert(
      fc.property(input, fc.infiniteStream(fc.integer({ min: 1, max: 7 })), (sent, sizes) => {
        const whole = new Splitter();
        const expected = [...whole.push(sent), ...whole.rest()];
        const cut = new Splitter();
        const keys: Key[] = [];
        for (let at = 0; at < sent.length; ) {
          const size = sizes.next().value as number;
          keys.push(...cut.push(sent.subarray(at, at + size)));
          at += size;
        }
        keys.push(...cut.rest());
        expect(keys).toEqual(expected);
        expect(cut.pending).toBe('nothing');
      }),
      { numRuns: size(1000, 100_000) },
    );
  });

  it('hands on only printable characters, and never a key out of a paste', () => {
    fc.assert(
      fc.property(input, (sent) => {
        const splitter = new Splitter();
        for (const key of [...splitter.push(sent), ...splitter.rest()]) {
          if (key.name !== 'char') continue;
          expect([...key.char]).toHaveLength(1);
          expect(key.char).not.toMatch(/[\p{Cc}\p{Cs}\p{Co}\p{Cn}\p{Zl}\p{Zp}]/u);
        }
        const pasted = new Splitter();
        const inside = Buffer.concat([bytes('\x1b[200~'), sent.filter((b) => b !== 0x1b), bytes('\x1b[201~')]);
        for (const key of pasted.push(inside)) expect(key.pasted).toBe(true);
        expect(pasted.pending).toBe('nothing');
      }),
      { numRuns: size(500, 100_000) },
    );
  });
});
