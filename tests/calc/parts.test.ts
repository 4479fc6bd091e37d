/** What calculators are made of: near words, sources in words, figures, rows of tables, half widths. By hand. */
import { describe, expect, it } from 'vitest';
import { cite } from '../../src/calc/cite.js';
import { hansenEstimate } from '../../src/calc/hansen.js';
import { nearest } from '../../src/calc/near-miss.js';
import { figure } from '../../src/calc/spec.js';
import { constant, findRow, numberIn, rowsOfTable, textIn, untested } from '../../src/calc/table.js';
import type { TableRow, Tables } from '../../src/calc/types.js';
import { halfWidth, propagate } from '../../src/calc/uncertainty.js';

describe('small parts', () => {
  it('the word that was probably meant', () => {
    expect(nearest('lithum', ['sodium', 'lithium'])).toBe('lithium');
    expect(nearest('lihtium', ['lithium'])).toBe('lithium');
    expect(nearest('ab', ['ba', 'xyz'])).toBe('ba');
    expect(nearest('LIT', ['sodium', 'lithium-complex'])).toBe('lithium-complex');
    expect(nearest('li', ['lithium-complex'])).toBeUndefined();
    // A third of the letters may be wrong: two of six, not three; one of two.
    expect(nearest('abcdef', ['abcdxy'])).toBe('abcdxy');
    expect(nearest('abcdef', ['abcxyz'])).toBeUndefined();
    expect(nearest('abcdefg', ['abcdxyg', 'abcdeyg'])).toBe('abcdeyg');
    expect(nearest('a', ['b', 'c'])).toBe('b');
    expect(nearest('abc', [])).toBeUndefined();
    expect(nearest('kitten', ['sitten', 'mitten'])).toBe('sitten');
    expect(nearest('abcd', ['bacdx'])).toBeUndefined();
  });
  it('sources in words', () => {
    expect(cite({ tag: 'P', text: 'ISO 15, table 1' })).toBe('ISO 15, table 1');
    expect(cite({ tag: 'A', text: 'arithmetic' })).toBe('arithmetic');
    expect(cite({ tag: 'A', text: 'volume of a ball' })).toBe('arithmetic: volume of a ball');
    expect(cite({ tag: 'M', text: 'PEEK, from memory: verify on the data sheet' })).toBe('usual, verify: PEEK');
    expect(cite({ tag: 'M', text: 'PEEK, usual: verify' })).toBe('usual, verify: PEEK');
    expect(cite({ tag: 'M', text: 'PEEK: verify' })).toBe('usual, verify: PEEK');
    expect(cite({ tag: 'CP', text: 'This guide; no source' })).toBe('common practice, no source: This guide');
    expect(cite({ tag: 'CP', text: 'no source known here' })).toBe('common practice, no source: no source known here');
    expect(cite({ tag: 'shop', text: 'tested here' })).toBe('this shop: tested here');
  });
  it('figures', () => {
    expect(figure(Number.NaN)).toBe('-');
    expect(figure(12345.6)).toBe('12346');
    expect(figure(10_000)).toBe('10000');
    expect(figure(9999.4)).toBe('9999');
    expect(figure(-123_456, 3)).toBe('-123456');
    expect(figure(0.5)).toBe('0.5');
  });
  it('of what has no radius no attack is estimated', () => {
    const row = (id: string, more: object) =>
      ({ id, tag: 'A', source: 's', polar: 0, hydrogen: 0, ...more }) as TableRow;
    const rows = [row('rubber', { dispersion: 10, radius: 4 }), row('oil', { dispersion: 9, radius: null })];
    const of = (a: string, b: string) => hansenEstimate(a, b, { hansen: { id: 'hansen', rows } });
    // Twice the difference of 1 over a radius of 4.
    expect(of('rubber', 'oil')).toMatchObject({ red: 0.5, attacks: true });
    expect([of('oil', 'rubber'), of('rubber', 'tar'), of('tar', 'oil')]).toEqual([undefined, undefined, undefined]);
  });
  it('rows of tables', () => {
    const row = { id: 'r', tag: 'CP', source: 's', value: 2, plus_minus: 0.1, word: 'x' } as TableRow;
    const of = (more: object): Tables => ({ t: { id: 't', rows: [{ ...row, ...more } as TableRow] } });
    expect(rowsOfTable(of({}), 't')).toHaveLength(1);
    expect(() => rowsOfTable({}, 't')).toThrow('The table t is missing');
    expect(findRow(of({}), 't', 'q')).toBeUndefined();
    expect(numberIn(row, 'value')).toBe(2);
    expect(() => numberIn(row, 'word')).toThrow('The table row r has no number word.');
    expect([textIn(row, 'word'), textIn(row, 'value')]).toEqual(['x', '']);
    expect(constant(of({}), 't', 'r')).toStrictEqual({ value: 2, plusMinus: 0.1 });
    expect(constant(of({ plus_minus: 0 }), 't', 'r')).toStrictEqual({ value: 2 });
    expect(constant(of({ plus_minus: null }), 't', 'r')).toStrictEqual({ value: 2 });
    expect(() => constant(of({}), 't', 'q')).toThrow('The table t has no row q.');
    const said = (tag: string, source: string): boolean => untested({ tag: tag as 'shop', source });
    expect(said('shop', 'bought in')).toBe(true);
    expect(said('shop', 'not tested')).toBe(true);
    expect(said('shop', 'testedly')).toBe(true);
    for (const source of ['tested in May', ' Measured', 'WEIGHED twice']) expect(said('shop', source)).toBe(false);
    expect(said('CP', 'bought in')).toBe(false);
  });
});

describe('half widths', () => {
  const width = (f: (x: number) => number, x: number, half: number) =>
    halfWidth((at) => f(at.x ?? 0), { x }, [['x', half]]);
  it('half the span over both ends and the middle', () => {
    expect(width((x) => 3 * x, 5, 0.5)).toEqual({ plusMinus: 1.5, dominant: 'x' });
    // 1 / 1.5 - 1 / 2.5 = 0.2667. A valley has its middle, a hill too: 1 / 2.
    expect(width((x) => 1 / x, 2, 0.5).plusMinus).toBeCloseTo(0.13333, 5);
    expect(width((x) => Math.abs(x - 5), 5, 1).plusMinus).toBe(0.5);
    expect(width((x) => -Math.abs(x - 5), 5, 1).plusMinus).toBe(0.5);
    expect(width((x) => x, 5, 0)).toEqual({ plusMinus: 0 });
    expect(width(() => 7, 5, 1)).toEqual({ plusMinus: 0 });
  });
  it('the slope on the side that is left, where an end lies outside', () => {
    // The root of 1 +- 2 has no lower end: slope 1/2. Downwards the same of the root of -x.
    expect(width(Math.sqrt, 1, 2).plusMinus).toBeCloseTo(1, 6);
    const down = (x: number): number => {
      if (x > 1) throw new RangeError('outside');
      return 3 * x;
    };
    expect(width(down, 1, 2).plusMinus).toBeCloseTo(6, 6);
    expect(width((x) => -down(2 - x), 1, 2).plusMinus).toBeCloseTo(6, 6);
    // Both sides near by are inside, only the ends are not: slope of x squared at 3 is 6.
    expect(width((x) => (Math.abs(x - 3) < 1 ? x * x : Number.NaN), 3, 2).plusMinus).toBeCloseTo(12, 5);
    expect(width((x) => (x === 3 ? 1 : Number.NaN), 3, 1)).toEqual({ plusMinus: 0 });
    expect(width(() => Number.NaN, 3, 1)).toEqual({ plusMinus: 0 });
    // 1e-6 of the value or 1e-4 of the width, whichever is more.
    expect(width((x) => (x > 1e6 ? Number.NaN : x > 1e6 - 0.5 ? 1 : 0), 1e6, 2).plusMinus).toBeCloseTo(2, 9);
  });
  it('adds as a root of squares, and names the largest', () => {
    const found = propagate(
      { a: { value: 1, plusMinus: 3 }, b: { value: 1, plusMinus: 4 }, c: { value: 1 } },
      (x) => x.a + x.b + x.c,
    );
    expect(found).toEqual({ value: 3, plusMinus: 5, dominant: 'b' });
    const even = propagate({ a: { value: 1, plusMinus: 3 }, b: { value: 1, plusMinus: 3 } }, (x) => x.a + x.b);
    expect(even.dominant).toBe('a');
    expect(propagate({ a: { value: 2 } }, (x) => x.a)).toStrictEqual({ value: 2 });
    expect(propagate({ a: { value: 2, plusMinus: 0 } }, (x) => x.a)).toStrictEqual({ value: 2, plusMinus: 0 });
  });
});
