/** A shop's own rows of pairs: what nobody tested may forbid, never permit. By hand, with invented rows. */
import { describe, expect, it } from 'vitest';
import { calculators } from '../../src/calc/index.js';
import type { TableRow, Tables } from '../../src/calc/types.js';
import { holds } from './limits.js';

const one = (id: string, row: object): Tables => ({
  [id]: { id, rows: [{ tag: 'shop', ...row } as TableRow] },
  materials: { id: 'materials', rows: [] },
  thickeners: { id: 'thickeners', rows: [] },
});

describe('seal-oil', () => {
  const of = (verdict: string, source: string, rubber = 'nbr') => {
    const tables = one('seal-oils', { id: 'nbr+mineral', rubber: 'nbr', oil: 'mineral', verdict, note: null, source });
    return calculators['seal-oil']!.run({ oil: 'mineral', rubber }, tables).results;
  };
  it.each([
    ['ok', 'by hearsay', 'no until tested'],
    ['marginal', 'by hearsay', 'no until tested'],
    ['no', 'by hearsay', 'no'],
    ['ok', 'tested in May', 'ok'],
    ['no', 'tested in May', 'no'],
    ['fine', 'tested in May', 'no until tested'],
  ])('%s, %s: %s', (verdict, source, said) => {
    expect(of(verdict, source).verdict?.value).toBe(said);
  });
  it('says why', () => {
    expect(of('ok', 'by hearsay').why?.value).toBe(
      "a shop's own row of nbr in mineral oil, not tested: no until tested",
    );
    expect(of('ok', 'tested in May', 'fkm').why?.value).toBe('fkm in mineral oil is not known: no until tested');
  });
  holds([
    [
      'seal-oil oil=ester-mixture rubber=epdm',
      { verdict: 'no', why: 'EPDM swells in the ester oils of bearing greases' },
    ],
  ]);
});

describe('thickener', () => {
  const of = (verdict: string, source: string, fresh = 'polyurea') => {
    const tables = one('thickener-pairs', { id: 'x', old: 'lithium', new: 'polyurea', verdict, note: null, source });
    return calculators.thickener!.run({ old: 'lithium', new: fresh }, tables);
  };
  it.each([
    ['C', 'by hearsay', 'unknown'],
    ['B', 'by hearsay', 'unknown'],
    ['I', 'by hearsay', 'I'],
    ['C', 'tested in May', 'C'],
    ['I', 'tested in May', 'I'],
    ['D', 'tested in May', 'unknown'],
  ])('%s, %s: %s', (verdict, source, said) => {
    const { results } = of(verdict, source);
    expect([results.verdict?.value, results.disputed?.value]).toEqual([said, false]);
  });
  it('says so in its working, and warns of base oils only where the pair is compatible', () => {
    expect(of('C', 'by hearsay').worked).toEqual([
      "lithium with polyurea: a shop's own row, not tested, so not compatible until tested",
    ]);
    expect(of('I', 'by hearsay').worked).toEqual(['lithium with polyurea: I']);
    expect(of('C', 'tested in May', 'sodium').worked).toEqual([
      'lithium with sodium: not in the table, so not compatible until tested',
    ]);
    expect(of('C', 'tested in May').warnings).toHaveLength(1);
    expect(of('I', 'tested in May').warnings).toEqual([]);
  });
});
