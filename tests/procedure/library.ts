/** The shipped procedures and tables as they are compiled; read from the sources where those were changed since. */
import { calculators } from '../../src/calc/index.js';
import { type Library, type Shipped, tablesOf } from '../../src/library/library.js';
import { readFolder } from '../../src/library/read-folder.js';
import { type Model, modelOf } from '../../src/procedure/model.js';
import type { Procedure } from '../../src/procedure/schema.js';
import { compiled } from '../setup/compiled.js';

export const root = new URL('../../', import.meta.url).pathname;
const content = compiled<Shipped>('shipped') ?? readFolder(`${root}procedures`);
export const library: Library = {
  tables: tablesOf(content.tables),
  procedures: new Map(content.procedures.map((p) => [p.procedure.procedure, p])),
  rotors: new Map(),
};
const found = (id: string) => {
  const found = library.procedures.get(id);
  if (!found) throw new Error(`no procedure ${id}`);
  return found;
};
export const shipped = (id: string): Procedure => found(id).procedure;

const models = new Map<string, Model>();
/** A procedure as the engine knows it; nothing changes one, so it is made once. */
export function modelFor(id: string): Model {
  const { procedure, hash } = found(id);
  const model = models.get(id) ?? modelOf(procedure, hash, library.tables, calculators);
  models.set(id, model);
  return model;
}
