/** `outline`, `diff` and `schema`: procedures for people who review and write them. */
import { calculators } from '../calc/index.js';
import type { Library } from '../library/library.js';
import { openLibrary } from '../library/open-library.js';
import { readText } from '../library/read-text.js';
import { loadProcedure } from '../procedure/load.js';
import { near } from '../procedure/near.js';
import { showProblem } from '../procedure/problem.js';
import type { Procedure } from '../procedure/schema.js';
import { difference } from '../review/difference.js';
import { jsonSchema } from '../review/json-schema.js';
import { outline } from '../review/outline.js';
import { safeText } from '../text/safe-text.js';
import type { Options } from './arguments.js';
import type { Ended } from './ended.js';

export async function review(o: Options): Promise<Ended> {
  if (o.command === 'schema') return schema(o);
  const { library, problems } = await openLibrary(o.procedures);
  if (problems.length) return { err: problems.map(showProblem).join('\n'), code: 2 };
  if (o.command === 'outline') {
    const names = [...library.procedures.keys()];
    const wanted = o.rest[0] ?? (names.length === 1 ? names[0] : undefined);
    if (wanted === undefined)
      return { err: `Name a procedure (${names.join(', ')}) or a file; type rotorside outline NAME.`, code: 2 };
    const found = find(wanted, library);
    return typeof found === 'string' ? { err: found, code: 2 } : { out: outline(found, calculators), code: 0 };
  }
  const [before, after] = o.rest;
  if (before === undefined || after === undefined || o.rest.length > 2)
    return { err: 'diff needs two procedures, each a file or a name; type rotorside diff OLD NEW.', code: 2 };
  const [a, b] = [find(before, library), find(after, library)];
  if (typeof a === 'string') return { err: a, code: 2 };
  if (typeof b === 'string') return { err: b, code: 2 };
  const text = difference(a, b, calculators);
  return text ? { out: text, code: 1 } : { out: 'Nothing differs.', code: 0 };
}

function schema(o: Options): Ended {
  const what = o.rest[0] ?? 'procedure';
  if (what !== 'procedure' && what !== 'table')
    return { err: 'A schema is printed of: procedure, table; type rotorside schema table.', code: 2 };
  return { out: JSON.stringify(jsonSchema(what), null, 2), code: 0 };
}

/** A procedure by its id in the library, or from a file; a sentence when it can't be had. */
function find(name: string, library: Library): Procedure | string {
  const known = library.procedures.get(name);
  if (known) return known.procedure;
  const names = [...library.procedures.keys()];
  if (!/[./\\]/.test(name)) {
    const read = readText(name);
    if ('problem' in read)
      return `There is no procedure and no file “${safeText(name, { max: 60 })}”. ${near(name, names) || `Known are: ${names.join(', ')}.`}`;
    return load(read.text, name, library);
  }
  const read = readText(name);
  return 'problem' in read ? read.problem : load(read.text, name, library);
}

function load(text: string, file: string, library: Library): Procedure | string {
  const { procedure, problems } = loadProcedure(
    text,
    file,
    library.tables,
    calculators,
    [...library.procedures.values()].map((p) => p.procedure),
  );
  return procedure ?? problems.map(showProblem).join('\n');
}
