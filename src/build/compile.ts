/** Checks the shipped procedures, tables and practice rotors and writes them as JSON beside the bundle. */
import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import { calculators } from '../calc/index.js';
import { isList, isRecord } from '../guards/guards.js';
import { type Shipped, tablesOf } from '../library/library.js';
import { readFolder } from '../library/read-folder.js';
import { readRotors } from '../library/read-rotors.js';
import { keptTree } from '../procedure/expression.js';
import { modelOf } from '../procedure/model.js';
import { showProblem } from '../procedure/problem.js';
import type { Tree } from '../procedure/tree.js';
import { loadWordList } from '../procedure/word-list.js';

/** Never half a file: a program that starts meanwhile reads the old one or the new one. */
function put(name: string, text: string): void {
  writeFileSync(`dist/${name}.json.${process.pid}`, text);
  renameSync(`dist/${name}.json.${process.pid}`, `dist/${name}.json`);
}

const content = readFolder('procedures');
const practice = readRotors('procedures', {
  tables: tablesOf(content.tables),
  procedures: new Map(content.procedures.map((p) => [p.procedure.procedure, p])),
});
const shipped: Shipped = { tables: content.tables, procedures: content.procedures };
put('shipped', JSON.stringify(shipped));
put('rotors', JSON.stringify(practice.rotors));
put('parts', JSON.stringify(content.parts));
put('trees', JSON.stringify(trees()));
const list = loadWordList(readFileSync('procedures/words/words.yaml', 'utf8'), 'procedures/words/words.yaml');
put('words', JSON.stringify(list.words));
put('tables', JSON.stringify(tablesOf(content.tables)));
const problems = [...content.problems, ...practice.problems, ...list.problems];
for (const p of problems) process.stderr.write(`${showProblem(p)}\n`);
process.exitCode = problems.length ? 1 : 0;

/** Every expression of the procedures that can be kept as a tree, by its text; a name alone needs no tree. */
function trees(): Record<string, Tree> {
  const out: Record<string, Tree> = {};
  for (const { procedure, hash } of content.procedures) {
    const { environment } = modelOf(procedure, hash, tablesOf(content.tables), calculators);
    const visit = (part: unknown): void => {
      if (isList(part)) for (const item of part) visit(item);
      else if (isRecord(part)) for (const value of Object.values(part)) visit(value);
      else if (typeof part === 'string' && !/^\w*$/.test(part) && environment.check(part).valid) {
        const tree = keptTree(environment, part);
        if (tree !== undefined) out[part] = tree;
      }
    };
    visit(procedure);
  }
  return out;
}
