/** Whatever is shown as published can be opened by an auditor: it names the document, its edition and the place in it. */
import { expect, it } from 'vitest';
import { calculators } from '../../src/calc/index.js';
import { lacksOfSource } from '../../src/calc/published.js';
import { tableFiles } from '../calc/support.js';

const rows = tableFiles.flatMap((t) => t.rows.map((row) => ({ at: `${t.table}: ${row.id}`, row })));

it('every published row of the tables names document, edition and place', () => {
  const lacks = rows.map(({ at, row }) => [at, ...lacksOfSource({ tag: row.tag, text: row.source })]);
  expect(lacks.filter((l) => l.length > 1)).toEqual([]);
  expect(rows.filter(({ row }) => row.tag === 'P').length).toBeGreaterThan(60);
});
it('so does every calculator whose formula is called published', () => {
  const lacks = Object.values(calculators).map((c) => [
    c.name,
    ...[c.source, ...Object.values(c.constants ?? {})].flatMap(lacksOfSource),
  ]);
  expect(lacks.filter((l) => l.length > 1)).toEqual([]);
});
it.each([
  ['Bearing catalogue', 2],
  ['NSK technical talk', 2],
  ['Published charts for immersion at room temperature', 3],
  ['PA66 data sheets', 3],
  ['Trade article on sealed bearings', 2],
  ['ISO 3448', 1],
  ['US Bureau of Reclamation, FIST 2-4, Table 2', 0],
  ['Klüber tip sheet, section on sealed bearings', 1],
  ['Invented Handbook, 2nd ed., p. 7, from memory', 1],
])('%s lacks %i things', (text, count) => expect(lacksOfSource({ tag: 'P', text })).toHaveLength(count));
it('asks nothing of what is not called published', () => {
  expect(lacksOfSource({ tag: 'M', text: 'Bearing catalogue' })).toEqual([]);
});
