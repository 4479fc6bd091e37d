/** Rubbers against base oils. M: usual charts of chemical resistance, from memory; ester oil by Lube-Tech no. 138, p. 6. */
// @ts-nocheck

import { describe, expect, it } from 'vitest';
import { calc, tables, word } from '../calc/support.js';

const verdict = (rubber: string, oil: string): string => word(`seal-oil rubber=${rubber} oil=${oil}`, 'verdict');

describe('seal rubber in the base oil of a grease', () => {
  it.each([
    ['mineral', 'no'],
    ['pao', 'no'],
    ['ester-mixture', 'no'],
  ])('M: EPDM swells in hydrocarbons: %s is %s', (oil, expected) => expect(verdict('epdm', oil)).toBe(expected));
  it.each([
    ['mineral', 'ok'],
    ['pao', 'ok'],
    ['ester', 'marginal'],
    ['ester-mixture', 'marginal'],
    ['pfpe', 'ok'],
  ])('M: NBR in %s is %s', (oil, expected) => expect(verdict('nbr', oil)).toBe(expected));
  it('M: FKM bears mineral, PAO, ester and PFPE; ACM not ester', () => {
    expect(['mineral', 'pao', 'ester', 'pfpe'].map((oil) => verdict('fkm', oil))).toEqual(['ok', 'ok', 'ok', 'ok']);
    expect(verdict('acm', 'ester')).toBe('no');
  });
  it('what is not known is no until tested, whichever side it is', () => {
    expect(verdict('unknown', 'mineral')).toBe('no until tested');
    expect(verdict('nbr', 'unknown')).toBe('no until tested');
    expect(verdict('nbr', 'silicone')).toBe('no until tested');
  });
  it('P: Lube-Tech no. 138, February 2022, p. 6: FKM suits ester oil, NBR and HNBR are worse, EPDM does not', () => {
    const cited = tables['seal-oils']!.rows.filter((row) => row.tag === 'P').map((row) => [row.id, row.verdict]);
    expect(cited).toEqual([
      ['nbr+ester', 'marginal'],
      ['hnbr+ester', 'marginal'],
      ['fkm+ester', 'ok'],
      ['epdm+ester', 'no'],
    ]);
  });
  it('all other rows are usual, to be verified', () => {
    const run = calc('seal-oil rubber=nbr oil=mineral');
    expect(run.sources.join()).toMatch(/usual, verify/);
  });
});
