// @ts-nocheck
import { describe, expect, it } from 'vitest';
import { calc, word } from '../calc/support.js';

/** Printed table, row by row; both halves are checked. */
const names = ['Na', 'AlX', 'Clay', 'Li', 'LiX', 'PU'];
const printed = ['C I I I I I', 'I C I B C I', 'I I B I I I', 'I B I C C I', 'I C I C C I', 'I I I I I C'].map((row) =>
  row.split(' '),
);
const cells = names.flatMap((old, i) => names.map((fresh, j) => [old, fresh, printed[i]![j]!] as const));

describe('thickeners', () => {
  it.each(cells)('P: US Bureau of Reclamation FIST 2-4, Table 2: %s with %s is %s', (old, fresh, verdict) => {
    expect(word(`thickener old=${old} new=${fresh}`, 'verdict')).toBe(verdict);
    expect(word(`thickener old=${old} new=${fresh}`, 'evidence')).toBe('P');
  });
  it.each(['calcium-sulfonate', 'ptfe', 'unknown'])(
    'what the table lacks is not compatible until tested: %s',
    (name) => {
      for (const other of ['lithium', 'polyurea', name]) {
        expect(word(`thickener old=${name} new=${other}`, 'verdict')).toBe('unknown');
        expect(word(`thickener old=${other} new=${name}`, 'cleaning')).toMatch(
          /not compatible until tested.*remove all the old grease/,
        );
      }
    },
  );
  it('P: trade press: charts contradict each other on AlX with LiX, so all must come out', () => {
    const run = calc('thickener old=AlX new=LiX');
    expect(run.results.disputed?.value).toBe(true);
    expect(run.warnings.join()).toMatch(/21 charts 12 .* 4 .* 5/);
    expect(word('thickener old=AlX new=LiX', 'cleaning')).toMatch(/remove all/);
  });
  it('borderline and incompatible demand that all the old grease comes out', () => {
    expect(word('thickener old=Li new=AlX', 'cleaning')).toMatch(/remove all/);
    expect(word('thickener old=Li new=PU', 'cleaning')).toMatch(/remove all/);
  });
});
