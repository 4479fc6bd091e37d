/** `outline`, `diff` and `schema`: procedures for people who review and write them. */
import { dirname } from 'node:path';
import { calculators } from '../calc/index.js';
import type { Library } from '../library/library.js';
import { openLibrary } from '../library/open-library.js';
import { partsFor } from '../library/open-parts.js';
import { tablesBeside } from '../library/read-folder.js';
import { readText } from '../library/read-text.js';
import { loadPart } from '../procedure/check-part.js';
import { loadProcedure } from '../procedure/load.js';
import { near } from '../procedure/near.js';
import { showProblem } from '../procedure/problem.js';
import type { Part } from '../procedure/schema.js';
import { difference, partDifference, type Reviewed } from '../review/difference.js';
import { jsonSchema } from '../review/json-schema.js';
import { outline } from '../review/outline.js';
import { safeText } from '../text/safe-text.js';
import type { Options } from './arguments.js';
import type { Ended } from './ended.js';

export async function review(o: Options): Promise<Ended> {
  if (o.command === 'schema') return await schema(o);
  const { library, problems } = await openLibrary(o.procedures);
  if (problems.length) return { err: problems.map(showProblem).join('\n'), code: 2 };
  if (o.command === 'outline') {
    const names = [...library.procedures.keys()];
    const wanted = o.rest[0] ?? (names.length === 1 ? names[0] : undefined);
    if (wanted === undefined)
      return { err: `Name a procedure (${names.join(', ')}) or a file; type rotorside outline NAME.`, code: 2 };
    const found = find(wanted, library, o.procedures);
    return typeof found === 'string'
      ? { err: found, code: 2 }
      : { out: harmless(outline(found.procedure, calculators, found.parts, o.ids)), code: 0 };
  }
  const [before, after] = o.rest;
  if (before === undefined || after === undefined)
    return { err: 'diff needs two procedures, each a file or a name; type rotorside diff OLD NEW.', code: 2 };
  const all = [...library.procedures.values()];
  const [p, q] = [partIn(before, library), partIn(after, library)];
  if (typeof p === 'string') return { err: p, code: 2 };
  if (typeof q === 'string') return { err: q, code: 2 };
  if (p && q) return differs(partDifference(p, q, all, calculators));
  const [a, b] = [find(before, library, o.procedures), find(after, library, o.procedures)];
  if (typeof a === 'string') return { err: a, code: 2 };
  if (typeof b === 'string') return { err: b, code: 2 };
  return differs(difference(a, b, calculators, all));
}

/** What a procedure from anywhere says, as it may go to a terminal. */
const harmless = (text: string): string => safeText(text, { lines: true, max: 2_000_000 });

const differs = (text: string): Ended =>
  text ? { out: harmless(text), code: 1 } : { out: 'Nothing differs.', code: 0 };

/** The part that a file holds, or what is wrong with it; undefined when it holds none. */
function partIn(file: string, library: Library): Part | string | undefined {
  const read = readText(file);
  if ('problem' in read || !/^part\s*:/m.test(read.text)) return undefined;
  const { part, problems } = loadPart(read.text, file, {
    tables: tablesBeside(dirname(dirname(file)), library.tables),
    calculators,
  });
  return part ?? problems.map(showProblem).join('\n');
}

async function schema(o: Options): Promise<Ended> {
  const what = o.rest[0] ?? 'procedure';
  if (what === 'sheet')
    return { out: JSON.stringify((await import('../sheet/json-shape.js')).sheetJsonSchema(), null, 2), code: 0 };
  if (what !== 'procedure' && what !== 'part' && what !== 'table')
    return { err: 'A schema is printed of: procedure, part, table, sheet; type rotorside schema table.', code: 2 };
  return { out: JSON.stringify(jsonSchema(what), null, 2), code: 0 };
}

/** A procedure by its id in the library, or from a file; a sentence when it can't be had. */
function find(name: string, library: Library, shopFolder?: string): Reviewed | string {
  const known = library.procedures.get(name);
  if (known) return known;
  const names = [...library.procedures.keys()];
  if (!/[./\\]/.test(name)) {
    const read = readText(name);
    if ('problem' in read)
      return `There is no procedure and no file “${safeText(name, { max: 60 })}”. ${near(name, names) || `Known are: ${names.join(', ')}.`}`;
    return load(read.text, name, library, shopFolder);
  }
  const read = readText(name);
  return 'problem' in read ? read.problem : load(read.text, name, library, shopFolder);
}

function load(text: string, file: string, library: Library, shopFolder?: string): Reviewed | string {
  const around = { tables: tablesBeside(dirname(file), library.tables), calculators };
  const known = [...library.procedures.values()].map((p) => p.procedure);
  const parts = partsFor(file, around, shopFolder);
  const read = loadProcedure(text, file, { ...around, known, parts });
  const { procedure } = read;
  if (!procedure && !/^(procedure|table|part|replay|rotor)\s*:/m.test(text.replace(/^```[\s\S]*?^```/gm, '')))
    return `${safeText(file, { max: 60 })} holds no procedure; name one (${known.map((p) => p.procedure).join(', ')}) or a YAML file of one.`;
  return procedure ? { procedure, parts: read.parts } : read.problems.map(showProblem).join('\n');
}
