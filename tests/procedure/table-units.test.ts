/** A figure of a table is worked with as it stands: its unit is checked where it is written and where it is read. */
import { describe, expect, it } from 'vitest';
import { loadProcedure, loadTable } from '../../src/procedure/load.js';
import { showProblem } from '../../src/procedure/problem.js';
import { calculators, changed, tables } from './sound.js';

const plugs = (unit: string): string => `table: plugs
title: Torque of plugs
columns:
  torque: { type: number${unit ? `, unit: ${unit}` : ''}, label: Torque }
rows:
  - { id: small, torque: 25, tag: shop, source: "shop's own, untested" }
`;
/** What is said of a fact that reads the column. */
const read = (unit: string, fact: string): string[] => {
  const { table } = loadTable(plugs(unit), 't');
  if (!table) throw new Error('no table');
  const text = changed('facts:\n', `facts:\n  - { key: tight, at: position, label: Tight, ${fact} }\n`);
  const { problems } = loadProcedure(text, 'p', { tables: { ...tables, plugs: table }, calculators });
  return problems.map((p) => showProblem(p).slice(2));
};
const torque = `quantity: torque, is: "number_in('plugs', series, 'torque')"`;

describe('the unit of a column', () => {
  it('that is the canonical one passes, in any spelling, as does a column without one', () => {
    for (const unit of ['Nm', 'N·m', '']) expect(read(unit, torque)).toEqual([]);
  });

  it('that is another one of the kind is told, with the unit to write', () => {
    // Read as it stands, 25 lbf·ft went to the sheet as 25 N·m: it is 33.9 N·m (1 lbf·ft = 1.3558 N·m, NIST SP 811).
    expect(read('lbf·ft', torque)).toEqual([
      '75:97: The column “torque” of the table “plugs” is in lbf·ft, but numbers are worked with in N·m. Write its figures in N·m, and “unit: N·m”.',
    ]);
    expect(read('lbf·ft', `type: bool, is: "number_in('plugs', series, 'torque') > 3.0"`)[0]).toContain('is in lbf·ft');
    expect(read('L', `quantity: volume, is: "number_in('plugs', series, 'torque')"`)[0]).toContain('worked with in mL');
    // m is metres in a length, though it is minutes in a time.
    expect(read('m', `quantity: length, is: "number_in('plugs', series, 'torque')"`)[0]).toContain('worked with in mm');
  });

  it('of another kind than the fact is told', () => {
    expect(read('Nm', `quantity: volume, is: "number_in('plugs', series, 'torque')"`)).toEqual([
      '75:69: This gives a torque, but a volume is needed here. Give a value of that kind.',
    ]);
    expect(read('Nm', `type: bool, is: "number_in('plugs', series, 'torque') > bore"`)[0]).toContain(
      'A torque and a length stand together here.',
    );
  });

  it('that nobody knows is refused in the table', () => {
    expect(loadTable(plugs('stone'), 't').problems.map(showProblem)).toEqual([
      't:4:33: “stone” is no unit that is known here. Use one such as mm, mL, g, degC, N·m or min, or take “unit” out.',
    ]);
  });

  it('stays as it is shipped where a shop lays rows over', () => {
    const { table } = loadTable(plugs('Nm'), 't');
    const over = loadTable(plugs('lbf·ft').replace('id: small', 'id: own'), 't', new Map([['plugs', table!]]));
    expect(over.problems.map(showProblem)).toEqual([
      't:4:33: The column “torque” of the shipped table is in Nm, not in lbf·ft. Write its figures in Nm, and “unit: Nm”.',
    ]);
  });
});
