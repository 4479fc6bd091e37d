// @ts-nocheck
import { describe, expect, it } from 'vitest';
import { calc, tables, word } from '../calc/support.js';

const list = (line: string, key: string): string[] => calc(line).results[key]?.value as unknown as string[];

describe('what takes up what: Hansen, Hansen Solubility Parameters: A User’s Handbook, 2nd ed. 2007, through chemicals 1.5.2', () => {
  it.each([
    ['base-oil', 16.3, 0, 0],
    ['coolant', 17.0, 11.0, 26.0],
    ['coolant-propylene', 16.8, 10.4, 21.3],
  ])('P: %s by hexadecane or its glycol, MPa^0.5', (id, dispersion, polar, hydrogen) => {
    expect(tables.soils!.rows.find((r) => r.id === id)).toMatchObject({ dispersion, polar, hydrogen, tag: 'P' });
  });
  // By hand, squared: hexadecane: heptane 4, acetone 160, isopropanol 307; ethylene glycol: isopropanol 122, acetone 370, heptane 809.
  it('A: distances to oil: heptane 2, acetone 12.6, isopropanol 17.5', () => {
    expect(list('cleaning-power soils=grease solvents=acetone,isopropanol,n-heptane', 'ranked')).toEqual([
      'Grease or mineral, PAO oil: n-heptane dissolves (2), acetone poor (12.6), isopropanol poor (17.5)',
    ]);
  });
  it('A: distances to glycol: isopropanol 11.0, acetone 19.2, heptane 28.4', () => {
    expect(list('cleaning-power soils=coolant solvents=acetone,isopropanol,n-heptane', 'ranked')).toEqual([
      'Coolant, ethylene glycol: isopropanol helps (11), acetone poor (19.2), n-heptane poor (28.4)',
    ]);
  });
  it('CP: hydrocarbon first, polar rinse last', () => {
    const line = 'cleaning-power soils=coolant,grease solvents=isopropanol,n-heptane';
    expect(list(line, 'order')).toEqual(['n-heptane', 'isopropanol']);
    expect([word(line, 'first'), word(line, 'last'), word(line, 'enough')]).toEqual([
      'n-heptane',
      'isopropanol',
      'partly',
    ]);
    expect(calc(line).warnings.join()).toMatch(/not what it spoils.*n-heptane first, isopropanol last/);
  });
  it('one solvent that takes up all is one wash; acetone alone leaves oil behind', () => {
    expect(list('cleaning-power soils=grease,gear-oil solvents=white-spirit', 'order')).toEqual(['white-spirit']);
    expect(word('cleaning-power soils=grease solvents=white-spirit', 'enough')).toBe('yes');
    const acetone = 'cleaning-power soils=grease,coolant solvents=acetone';
    expect(word(acetone, 'enough')).toBe('no');
    expect(list(acetone, 'left')).toEqual(['Grease or mineral, PAO oil', 'Coolant, ethylene glycol']);
  });
  it('M: water is taken up inside its sphere: isopropanol 14.4 and acetone 13.8 of 18.1, heptane not', () => {
    expect(list('cleaning-power soils=water solvents=acetone,isopropanol,n-heptane', 'ranked')).toEqual([
      'Water: acetone dissolves (13.8), isopropanol dissolves (14.4), n-heptane poor (26.2)',
    ]);
  });
  it('what nothing takes up is said, never guessed', () => {
    expect(word('cleaning-power soils=pfpe', 'enough')).toBe('no');
    expect(calc('cleaning-power soils=pfpe').warnings.join()).toMatch(/Nothing at hand takes up fluorinated/);
  });
});
