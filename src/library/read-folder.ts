/** Procedure files of a folder, read and checked: `*.yaml` and, in `tables/`, the tables. */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { calculators } from '../calc/index.js';
import type { Table } from '../calc/types.js';
import { loadProcedure, loadTable } from '../procedure/load.js';
import type { Problem } from '../procedure/problem.js';
import { contentHash } from './hash.js';
import { type LibraryProcedure, tablesOf } from './library.js';

const MOST_BYTES = 2_000_000;

/** The text of a file, or why it can't be had. */
export function readText(path: string): { text: string } | { problem: string } {
  try {
    const { size } = statSync(path);
    if (size > MOST_BYTES)
      return { problem: `${path} is too large to be a text file of this kind; give one below 2 MB.` };
    return { text: readFileSync(path, 'utf8') };
  } catch (e) {
    const code = (e as NodeJS.ErrnoException).code;
    if (code === 'ENOENT') return { problem: `There is no file ${path}; give the path of one that is there.` };
    if (code === 'EISDIR') return { problem: `${path} is a folder; give a file.` };
    return { problem: `${path} can’t be read (${code ?? 'unknown reason'}); check the right to read it.` };
  }
}

function yamlFiles(folder: string): string[] {
  try {
    return readdirSync(folder)
      .filter((f) => /\.ya?ml$/.test(f) && !f.startsWith('.'))
      .sort()
      .map((f) => join(folder, f));
  } catch {
    return [];
  }
}

export interface FolderContent {
  readonly tables: readonly Table[];
  readonly procedures: readonly LibraryProcedure[];
  readonly problems: readonly Problem[];
}

/** `base` are tables that the folder's own rows are laid over. */
export function readFolder(folder: string, base: readonly Table[] = [], shop = false): FolderContent {
  const problems: Problem[] = [];
  const tables = new Map(base.map((t) => [t.id, t]));
  const fail = (file: string, message: string): void => {
    problems.push({ file, line: 1, column: 1, message, cure: '' });
  };
  for (const file of yamlFiles(join(folder, 'tables'))) {
    const read = readText(file);
    if ('problem' in read) {
      fail(file, read.problem);
      continue;
    }
    const loaded = loadTable(read.text, file);
    problems.push(...loaded.problems);
    if (loaded.table)
      tables.set(loaded.table.id, shop ? overlay(tables.get(loaded.table.id), loaded.table) : loaded.table);
  }
  const all = tablesOf([...tables.values()]);
  const procedures: LibraryProcedure[] = [];
  for (const file of yamlFiles(folder)) {
    const read = readText(file);
    if ('problem' in read) {
      fail(file, read.problem);
      continue;
    }
    const loaded = loadProcedure(read.text, file, all, calculators);
    problems.push(...loaded.problems);
    if (loaded.procedure)
      procedures.push({ procedure: loaded.procedure, hash: contentHash(loaded.procedure, all), shop, file });
  }
  return { tables: [...tables.values()], procedures, problems };
}

/** A shop's rows replace those with the same id and are added otherwise. */
function overlay(under: Table | undefined, over: Table): Table {
  const rows = new Map((under?.rows ?? []).map((r) => [r.id, r]));
  for (const r of over.rows) rows.set(r.id, { ...rows.get(r.id), ...r });
  return { id: over.id, rows: [...rows.values()] };
}
