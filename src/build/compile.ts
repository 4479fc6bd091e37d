/** Checks the shipped procedures and tables and writes them as JSON beside the bundle. */
import { writeFileSync } from 'node:fs';
import { tablesOf } from '../library/library.js';
import { readFolder } from '../library/read-folder.js';
import { showProblem } from '../procedure/problem.js';

const content = readFolder('procedures');
writeFileSync('dist/shipped.json', JSON.stringify({ tables: content.tables, procedures: content.procedures }));
writeFileSync('dist/tables.json', JSON.stringify(tablesOf(content.tables)));
for (const p of content.problems) process.stderr.write(`${showProblem(p)}\n`);
process.exitCode = content.problems.length ? 1 : 0;
