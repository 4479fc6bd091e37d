/** Procedure files of a folder, read and checked: `*.yaml` and, in `tables/`, the tables. */
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { calculators } from '../calc/index.js';
import type { Table, Tables } from '../calc/types.js';
import { codeOf } from '../guards/guards.js';
import { loadProcedure, loadTable } from '../procedure/load.js';
import type { PartFile } from '../procedure/parts.js';
import { type Code, type Problem, said } from '../procedure/problem.js';
import { contentHash } from './hash.js';
import { type LibraryProcedure, tablesOf } from './library.js';
import { type PartText, readParts } from './read-parts.js';
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
    const names = [folder, join(folder, 'tables'), join(folder, 'parts'), join(folder, 'practice')].flatMap((f) =>
      f === folder || existsSync(f) ? readdirSync(f) : [],
    );
    return names.some((f) => /\.ya?ml$/.test(f) && !f.startsWith('.')) ? undefined : 'There is nothing in this folder';
  } catch (e) {
    const code = codeOf(e);
    return code === 'ENOENT' ? 'There is no such folder' : `This folder can’t be read (${code ?? 'unknown reason'})`;
  }
}

export interface FolderContent {
  readonly tables: readonly Table[];
  readonly procedures: readonly LibraryProcedure[];
  readonly parts: readonly PartText[];
  readonly problems: readonly Problem[];
}

/** `under`: given for a shop's folder, what its own rows, procedures and parts are laid over. */
export function readFolder(folder: string, under?: Omit<FolderContent, 'problems'>): FolderContent {
  const shop = under !== undefined;
  const base = under?.tables ?? [];
  const problems: Problem[] = [];
  const beneath: ReadonlyMap<string, Table> = new Map(base.map((t) => [t.id, t]));
  const tables = new Map(beneath);
  const fail = (code: Code, file: string, message: string): void => {
    problems.push({ file, line: 1, column: 1, code, message, cure: '' });
  };
  const trouble = folderTrouble(folder);
  if (trouble) {
    fail('file-unreadable', folder, `${trouble}; give one that holds procedures (*.yaml) or tables (tables/*.yaml).`);
    return { tables: base, procedures: [], parts: [], problems };
  }
  for (const file of yamlFiles(join(folder, 'tables'))) {
    const read = readText(file);
    if ('problem' in read) {
      fail('file-unreadable', file, read.problem);
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
    const text = readText(file);
    if ('problem' in text) fail('file-unreadable', file, text.problem);
    else texts.push({ file, text: text.text });
  }
  const around = { tables: all, calculators };
  const named = texts.some(({ text }) => namesPart.test(text));
  const read = readParts(folder, around, named ? under?.parts : []);
  const first = texts.map(({ file, text }) => ({
    file,
    text,
    ...loadProcedure(text, file, { ...around, parts: read.parts }),
  }));
  const own = first.flatMap((f) => f.procedure ?? []);
  const known = (under?.procedures ?? []).map((p) => p.procedure);
  const everyone = [...own, ...known.filter((k) => !own.some((o) => o.procedure === k.procedure))];
  const procedures: LibraryProcedure[] = [];
  const used = new Set<string>();
  for (const { file, text, ...once } of first) {
    // What it follows can be looked at only when all are read.
    const loaded =
      once.procedure?.follows || once.procedure?.followed_by
        ? loadProcedure(text, file, { ...around, parts: read.parts, known: everyone })
        : once;
    problems.push(...loaded.problems);
    for (const p of loaded.parts) used.add(p.part);
    // Of a file that can't be read it is not known that it uses none.
    if (!loaded.procedure) for (const m of text.matchAll(partNamed)) used.add(m[1] ?? '');
    const { procedure, parts } = loaded;
    if (!procedure) continue;
    const same = procedures.find((p) => p.procedure.procedure === procedure.procedure);
    if (same)
      fail(
        'name-twice',
        file,
        `The procedure “${procedure.procedure}” stands in ${same.file} too. Take the older version out of this folder - a job keeps the one that it began with - or give one another name.`,
      );
    else
      procedures.push({
        procedure,
        hash: contentHash(procedure, all),
        shop,
        file,
        ...(parts.length ? { parts } : {}),
      });
  }
  problems.push(...read.problems, ...partTroubles(read.own, used, procedures, under?.procedures ?? []));
  return { tables: [...tables.values()], procedures, parts: read.texts, problems: said(problems) };
}

const partNamed = /^\s*- (?:\{\s*)?["']?part["']?\s*:\s*["']?([\w-]+)/gm;
const namesPart = /^\s*- (?:\{\s*)?["']?part["']?\s*:/m;

/** Mistakes of each part by itself, parts that nobody uses, and a shop's that would change what is shipped. */
function partTroubles(
  own: readonly PartFile[],
  used: ReadonlySet<string>,
  procedures: readonly LibraryProcedure[],
  shipped: readonly LibraryProcedure[],
): Problem[] {
  const out: Problem[] = [];
  for (const { id, part, source, problems } of own) {
    out.push(...problems);
    if (!part) continue;
    const say = (code: Code, message: string, cure: string): void => {
      out.push({ file: source.file, ...source.spot(['part']), code, message, cure });
    };
    const others = shipped.filter(
      (s) =>
        s.parts?.some((p) => p.part === id) && !procedures.some((p) => p.procedure.procedure === s.procedure.procedure),
    );
    if (others.length)
      say(
        'part-shipped',
        `The part “${id}” is a shipped one, used by ${others.map((s) => s.procedure.procedure).join(' and ')}.`,
        'Give it a name of its own.',
      );
    else if (!used.has(id))
      say(
        'part-unused',
        `No procedure here uses the part “${id}”.`,
        `Write “- part: ${id}” in one, or take the file out.`,
      );
  }
  return out;
}

/** The tables that a file of this folder can name: those in it over the others. */
export function tablesBeside(folder: string, under: Tables): Tables {
  const tables: Record<string, Table> = { ...under };
  for (const file of yamlFiles(join(folder, 'tables'))) {
    const read = readText(file);
    const { table } = 'problem' in read ? {} : loadTable(read.text, file);
    if (table) tables[table.id] = overlay(under[table.id], table);
  }
  return tables;
}

/** The procedure files of a folder, as they are. */
export const textsBeside = (folder: string): { file: string; text: string }[] =>
  yamlFiles(folder).flatMap((file) => {
    const read = readText(file);
    return 'problem' in read ? [] : [{ file, text: read.text }];
  });

/** A shop's rows replace those with the same id and are added otherwise. */
function overlay(under: Table | undefined, over: Table): Table {
  const rows = new Map((under?.rows ?? []).map((r) => [r.id, r]));
  for (const r of over.rows) rows.set(r.id, { ...rows.get(r.id), ...r });
  return { ...under, ...over, rows: [...rows.values()] };
}
