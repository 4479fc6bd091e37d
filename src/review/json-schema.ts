/** JSON Schema of procedure, table and replay files, for editors; made from the schemas that the program checks with. */
import * as z from 'zod';
import { procedureSchema, tableSchema } from '../procedure/schema.js';

/** `what`: 'procedure' or 'table'. */
export function jsonSchema(what: 'procedure' | 'table'): unknown {
  const schema = what === 'table' ? tableSchema : procedureSchema;
  return {
    ...z.toJSONSchema(schema, { io: 'input', target: 'draft-2020-12' }),
    title: what === 'table' ? 'A table of rotorside' : 'A procedure of rotorside',
  };
}
