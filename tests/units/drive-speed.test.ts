/** Speeds of a drive that shows Hz, and sizes as they are printed on a ring. */
import { describe, expect, it } from 'vitest';
import { printedSize, printedWords } from '../../src/procedure/questions/printed-size.js';
import { parseQuantity } from '../../src/units/parse.js';

describe('a speed in Hz', () => {
  // Synchronous speed 60 f / p: 50 Hz turns 3000 rpm with one pole pair, 1500 with two (IEC 60034, from memory).
  // The other rows are arithmetic by it.
  it.each([
    ['50 Hz 1 pp', 3000],
    ['50 Hz 2 pole pairs', 1500],
    ['50 Hz, 4 poles', 1500],
    ['300Hz 2pp', 9000],
    ['0,4 kHz 1 pair', 24_000],
    ['50 Hz 2 polepairs', 1500],
    ['50 Hz 2 pole pair', 1500],
    ['50 Hz 4 pole', 1500],
    ['50 Hz 12 pp', 250],
    ['50 Hz 50 pp', 60],
  ])('%s', (text, rpm) => {
    expect(parseQuantity(text, 'speed')).toMatchObject({ ok: true, value: rpm });
  });
  it('asks for the pole pairs, and only then', () => {
    expect(parseQuantity('300 Hz', 'speed')).toMatchObject({
      ok: false,
      message: expect.stringMatching(/pole pairs behind it, such as 300 Hz 2 pp/),
    });
    // “2 p” can be two poles or two pairs.
    for (const text of ['300 Hz 2 p', '300 Hz 3 poles', '300 Hz 0 pp', 'Hz'])
      expect(parseQuantity(text, 'speed').ok, text).toBe(false);
    expect(parseQuantity('9000 rpm', 'speed')).toMatchObject({ ok: true, value: 9000 });
  });
  it('keeps the half width: 60 x 2 / 2 = 60', () => {
    expect(parseQuantity('50 +- 2 Hz 2 pp', 'speed')).toStrictEqual({
      ok: true,
      value: 1500,
      unit: 'Hz 2 pp',
      plusMinus: 60,
    });
    expect(parseQuantity('50 Hz 2 pp', 'speed')).toStrictEqual({ ok: true, value: 1500, unit: 'Hz 2 pp' });
  });
  const half =
    '50 Hz is what the drive puts out, not turns: type the pole pairs behind it, such as 50 Hz 2 pp - half the poles of the plate.';
  it.each([
    ['50 Hz 2', half],
    ['50 Hz pp', half],
    ['50 Hz 51 pp', '“51 pp” is no number of pole pairs: type 1 to 50 pole pairs, such as 50 Hz 2 pp.'],
    ['50 Hz 102 poles', '“102 poles” is no number of poles: type 1 to 50 pole pairs, such as 50 Hz 2 pp.'],
    ['50 Hz 2 ppm', '"Hz 2 ppm" is not a unit of speed: type a speed such as 12000 rpm or 12 krpm.'],
    ['Hz 2 pp', '"Hz 2 pp" has no number in front: type a speed such as 12000 rpm or 12 krpm.'],
    ['about Hz 2 pp', '"about Hz 2 pp" has no number in front: type a speed such as 12000 rpm or 12 krpm.'],
  ])('refuses %s', (text, message) => {
    expect(parseQuantity(text, 'speed')).toStrictEqual({ ok: false, message });
  });
});

describe('a printed size', () => {
  const suffixes = [
    { value: 'z', label: 'one shield' },
    { value: '2rs', label: 'two rubber seals' },
    { value: 'rs', label: 'one rubber seal' },
    { value: 'c3', label: 'more clearance' },
  ];
  const rows = ['6204', '62042', '6004'];
  const read = (text: string) => {
    const p = printedSize(text, rows, suffixes);
    return p && [p.row, p.known.map((k) => k.value), p.unknown];
  };
  it('is a row with letters that are known, or kept', () => {
    expect(read('6204-2RS C3')).toEqual(['6204', ['2rs', 'c3'], []]);
    expect(read('6204-2rsc3')).toEqual(['6204', ['2rs', 'c3'], []]);
    expect(read('6204 Z XQ')).toEqual(['6204', ['z'], ['XQ']]);
    expect(read('S6004 C3')).toEqual(['6004', ['c3'], ['S']]);
    expect(read('62042')).toBeUndefined();
    expect(read('6204')).toBeUndefined();
    expect(read('62051-2RS')).toBeUndefined();
  });
  it('says what its letters mean', () => {
    const p = printedSize('6204-2RS XQ', rows, suffixes);
    expect(p && printedWords(p)).toBe('2RS: two rubber seals. XQ: not known here, kept as printed.');
  });
});
