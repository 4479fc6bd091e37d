/** The shipped procedures and tables, read from the sources. */
import { calculators } from '../../src/calc/index.js';
import { type Library, tablesOf } from '../../src/library/library.js';
import { readFolder } from '../../src/library/read-folder.js';
import { type Model, modelOf } from '../../src/procedure/model.js';
import type { Procedure } from '../../src/procedure/schema.js';

export const root = new URL('../../', import.meta.url).pathname;
export const content = readFolder(`${root}procedures`);
export const library: Library = {
  tables: tablesOf(content.tables),
  procedures: new Map(content.procedures.map((p) => [p.procedure.procedure, p])),
  rotors: new Map(),
};
export const shipped = (id: string): Procedure => {
  const found = library.procedures.get(id);
  if (!found) throw new Error(`no procedure ${id}`);
  return found.procedure;
};
export const modelFor = (id: string): Model => modelOf(shipped(id), 'hash', library.tables, calculators);
