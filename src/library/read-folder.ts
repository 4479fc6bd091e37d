/** Procedure files of a folder, read and checked: `*.yaml` and, in `tables/`, the tables. */
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { calculators } from '../calc/index.js';
import type { Table } from '../calc/types.js';
import { loadProcedure, loadTable } from '../procedure/load.js';
import type { Problem } from '../procedure/problem.js';
import type { Procedure } from '../procedure/schema.js';
import { contentHash } from './hash.js';
import { type LibraryProcedure, tablesOf } from './library.js';
import { readText } from './read-text.js';

function yamlFiles(folder: string): string[] {
  try {
    return readdirSync(folder)
      .filter((f) => /\.ya?ml$/.test(f) && !/^\.|\.(replay|rotor)\.ya?ml$/.test(f))
      .sort()
      .map((f) => join(folder, f));
  } catch {
    return [];
  }
}

/** Why a folder can't be what was meant: its restrictions must not be left out in silence. */
function folderTrouble(folder: string): string | undefined {
  try {
    if (!statSync(folder).isDirectory()) return 'This is no folder';
    const names = [folder, join(folder, 'tables'), join(folder, 'practice')].flatMap((f) =>
      f === folder || existsSync(f) ? readdirSync(f) : [],
    );
    return names.some((f) => /\.ya?ml$/.test(f) && !f.startsWith('.')) ? undefined : 'There is nothing in this folder';
  } catch (e) {
    const code = (e as NodeJS.ErrnoException).code;
    return code === 'ENOENT' ? 'There is no such folder' : `This folder can’t be read (${code ?? 'unknown reason'})`;
  }
}

export interface FolderContent {
  readonly tables: readonly Table[];
  readonly procedures: readonly LibraryProcedure[];
  readonly problems: readonly Problem[];
}

/** `base` are tables that the folder's own rows are laid over, `known` procedures that its own may follow. */
export function readFolder(
  folder: string,
  base: readonly Table[] = [],
  shop = false,
  known: readonly Procedure[] = [],
): FolderContent {
  const problems: Problem[] = [];
  const beneath: ReadonlyMap<string, Table> = new Map(base.map((t) => [t.id, t]));
  const tables = new Map(beneath);
  const fail = (file: string, message: string): void => {
    problems.push({ file, line: 1, column: 1, message, cure: '' });
  };
  const trouble = folderTrouble(folder);
  if (trouble) {
    fail(folder, `${trouble}; give one that holds procedures (*.yaml) or tables (tables/*.yaml).`);
    return { tables: base, procedures: [], problems };
  }
  for (const file of yamlFiles(join(folder, 'tables'))) {
    const read = readText(file);
    if ('problem' in read) {
      fail(file, read.problem);
      continue;
    }
    const loaded = loadTable(read.text, file, shop ? beneath : undefined);
    problems.push(...loaded.problems);
    if (loaded.table)
      tables.set(loaded.table.id, shop ? overlay(tables.get(loaded.table.id), loaded.table) : loaded.table);
  }
  const all = tablesOf([...tables.values()]);
  const texts: { file: string; text: string }[] = [];
  for (const file of yamlFiles(folder)) {
    const read = readText(file);
    if ('problem' in read) fail(file, read.problem);
    else texts.push({ file, text: read.text });
  }
  const first = texts.map(({ file, text }) => ({ file, text, ...loadProcedure(text, file, all, calculators) }));
  const own = first.flatMap((f) => f.procedure ?? []);
  const everyone = [...own, ...known.filter((k) => !own.some((o) => o.procedure === k.procedure))];
  const procedures: LibraryProcedure[] = [];
  for (const { file, text, ...once } of first) {
    // What it follows can be looked at only when all are read.
    const loaded = once.procedure?.follows ? loadProcedure(text, file, all, calculators, everyone) : once;
    problems.push(...loaded.problems);
    const procedure = loaded.procedure;
    if (!procedure) continue;
    const same = procedures.find((p) => p.procedure.procedure === procedure.procedure);
    if (same) fail(file, `The procedure “${procedure.procedure}” stands in ${same.file} too; give one another name.`);
    else procedures.push({ procedure, hash: contentHash(procedure, all), shop, file });
  }
  return { tables: [...tables.values()], procedures, problems };
}

/** A shop's rows replace those with the same id and are added otherwise. */
function overlay(under: Table | undefined, over: Table): Table {
  const rows = new Map((under?.rows ?? []).map((r) => [r.id, r]));
  for (const r of over.rows) rows.set(r.id, { ...rows.get(r.id), ...r });
  return { id: over.id, rows: [...rows.values()] };
}
