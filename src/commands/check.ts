/** `rotorside check`: every mistake of procedure and table files, with its place and cure. */
import { statSync } from 'node:fs';
import { calculators } from '../calc/index.js';
import type { Ended } from '../cli.js';
import { tablesOf } from '../library/library.js';
import { openLibrary } from '../library/open-library.js';
import { readFolder, readText } from '../library/read-folder.js';
import { loadProcedure, loadTable } from '../procedure/load.js';
import { type Problem, showProblem } from '../procedure/problem.js';
import type { Options } from './arguments.js';

const isFolder = (path: string): boolean => {
  try {
    return statSync(path).isDirectory();
  } catch {
    return false;
  }
};

export async function check(o: Options): Promise<Ended> {
  const problems: Problem[] = [];
  let files = 0;
  const { library, problems: shop } = await openLibrary(o.procedures);
  problems.push(...shop);
  if (o.rest.length === 0) {
    const shipped = new URL('../procedures/', import.meta.url).pathname;
    const content = readFolder(o.procedures ?? shipped, o.procedures ? Object.values(library.tables) : []);
    files = content.procedures.length + content.tables.length;
    if (!o.procedures) problems.push(...content.problems);
  }
  for (const file of o.rest) {
    files += 1;
    if (isFolder(file)) {
      problems.push(...readFolder(file, Object.values(library.tables), true).problems);
      continue;
    }
    const read = readText(file);
    if ('problem' in read) {
      return { err: read.problem, code: 2 };
    }
    const table = /^\s*table\s*:/m.test(read.text) && !/^\s*procedure\s*:/m.test(read.text);
    problems.push(
      ...(table
        ? loadTable(read.text, file)
        : loadProcedure(read.text, file, tablesOf(Object.values(library.tables)), calculators)
      ).problems,
    );
  }
  if (problems.length === 0) return { out: `${files} checked, no mistakes.`, code: 0 };
  const count = problems.length === 1 ? '1 mistake.' : `${problems.length} mistakes.`;
  return { err: [...problems.map(showProblem), count].join('\n'), code: 1 };
}
