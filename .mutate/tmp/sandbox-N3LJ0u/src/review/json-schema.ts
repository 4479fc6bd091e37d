/** JSON Schema of procedure, part and table files, for editors; made from the schemas that the program checks with. */
// @ts-nocheck

import * as z from 'zod';
import { partSchema, procedureFileSchema, tableSchema } from '../procedure/schema.js';

const schemas = { procedure: procedureFileSchema, part: partSchema, table: tableSchema };

export function jsonSchema(what: keyof typeof schemas): unknown {
  return {
    ...z.toJSONSchema(schemas[what], { io: 'input', target: 'draft-2020-12' }),
    title: `A ${what} of rotorside`,
  };
}
