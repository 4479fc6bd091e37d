/**
 * Grade of a base oil (ISO 3448, from nu at 40 degC) and of a grease (NLGI, from worked penetration in tenths of a mm).
 * What lies between two grades is no grade, and is said to be none. Sources: the tables iso-vg and nlgi.
 */
import { defineCalculator } from './define.js';
import { figure, quantityInput, result, word } from './spec.js';
import { numberIn, rowsOfTable, sourceOf, textIn } from './table.js';
import type { TableRow, Tables } from './types.js';

const within = (tables: Tables, id: string, value: number): TableRow | undefined =>
  rowsOfTable(tables, id).find((row) => value >= numberIn(row, 'low') && value <= numberIn(row, 'high'));

/** NLGI grade of a worked penetration, or nothing between two grades. */
export const nlgiOf = (tables: Tables, penetration: number): string | undefined => {
  const row = within(tables, 'nlgi', penetration);
  return row && textIn(row, 'grade');
};

export const viscosityGrade = defineCalculator({
  name: 'viscosity-grade',
  title: 'Viscosity grade of the base oil',
  inputs: { nu40: quantityInput('Viscosity at 40 °C', 'viscosity', 'mm2/s', [1, 2000]) },
  results: {
    grade: word('Grade'),
    middle: result('Mid-point of the grade', 'viscosity', 'mm2/s'),
  },
  formula: 'mid-point within 10 %',
  source: { tag: 'P', text: 'ISO 3448, table of viscosity classes at 40 C' },
  run: (given, tables) => {
    const nu = given.number('nu40').value;
    const row = within(tables, 'iso-vg', nu);
    return {
      results: {
        grade: { value: row ? row.id : 'none' },
        ...(row ? { middle: { value: numberIn(row, 'mid') } } : {}),
      },
      warnings: row ? [] : [`${figure(nu)} mm2/s lies between two grades: compute with the figure itself.`],
      worked: [row ? `${figure(nu)} lies from ${row.low} to ${row.high} mm2/s` : `${figure(nu)} lies in no grade`],
      sources: row ? [sourceOf(row)] : [],
    };
  },
});

export const consistency = defineCalculator({
  name: 'consistency',
  title: 'Consistency grade of a grease',
  inputs: { penetration: quantityInput('Worked penetration, tenths of a millimetre', 'ratio', '', [50, 500]) },
  results: { grade: word('NLGI grade') },
  formula: 'grade whose span holds the penetration',
  source: { tag: 'P', text: 'ASTM D217, scope, Note 1: worked penetration, tenths of a millimetre' },
  run: (given, tables) => {
    const penetration = given.number('penetration').value;
    const row = within(tables, 'nlgi', penetration);
    return {
      results: { grade: { value: row ? textIn(row, 'grade') : 'none' } },
      warnings: row ? [] : [`${figure(penetration)} lies between two grades and is none.`],
      worked: [
        row ? `${figure(penetration)} lies from ${row.low} to ${row.high}` : `${figure(penetration)} lies in no span`,
      ],
      sources: row ? [sourceOf(row)] : [],
    };
  },
});
