/** `rotorside check --words`: words that can be misread, as warnings, and how many there are of each kind. */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { readText } from '../library/read-text.js';
import { checkWords, countInstructions, type InstructionCount, type WordProblem } from '../procedure/check-words.js';
import { showProblem } from '../procedure/problem.js';
import type { Word } from '../procedure/word-list.js';
import { safeText } from '../text/safe-text.js';
import type { Options } from './arguments.js';
import type { Ended } from './ended.js';

/** The procedures and parts of a folder, and those of the folders in it. */
function filesIn(path: string): readonly string[] {
  if (!statSync(path, { throwIfNoEntry: false })?.isDirectory()) return [path];
  return readdirSync(path, { withFileTypes: true })
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((e) =>
      e.isDirectory()
        ? filesIn(join(path, e.name))
        : /(?<!\.replay|\.rotor)\.ya?ml$/.test(e.name)
          ? [join(path, e.name)]
          : [],
    );
}

const counted = (problems: readonly WordProblem[]): readonly string[] => {
  const kinds = [...new Set(problems.map((p) => p.fault))].sort();
  return kinds.map((kind) => {
    const of = problems.filter((p) => p.fault === kind);
    const danger = of.filter((p) => p.hazard).length;
    return `${String(of.length).padStart(5)}  ${kind}${danger > 0 ? `, ${danger} of them at dangerous steps` : ''}`;
  });
};

/** The measure of the instructions: one action a sentence. */
function instructions(counts: readonly InstructionCount[], problems: readonly WordProblem[]): string {
  const sum = (of: (c: InstructionCount) => number): number => counts.reduce((n, c) => n + of(c), 0);
  const said = (fault: WordProblem['fault']): string => {
    const of = problems.filter((p) => p.fault === fault);
    return `${of.length}, ${of.filter((p) => p.hazard).length} of them at dangerous steps`;
  };
  return [
    `${sum((c) => c.all)} sentences instruct, ${sum((c) => c.dangerous)} of them at dangerous steps.`,
    `With several actions: ${said('several instructions')}. With none: ${said('no instruction')}.`,
  ].join('\n');
}

/** Exit code 0: a warning is no mistake; 2 when a file can't be read. */
export function checkTheWords(o: Options): Ended {
  if (o.rest.length === 0)
    return { err: 'Name the files or the folder to be read; type rotorside check --words procedures.', code: 2 };
  const words = JSON.parse(readFileSync(new URL('./words.json', import.meta.url), 'utf8')) as readonly Word[];
  const problems: WordProblem[] = [];
  const counts: InstructionCount[] = [];
  for (const file of o.rest.flatMap(filesIn)) {
    const read = readText(file);
    if ('problem' in read) return { err: safeText(read.problem), code: 2 };
    problems.push(...checkWords(read.text, file, words));
    counts.push(countInstructions(read.text, file));
  }
  if (o.json) return { out: JSON.stringify(problems, null, 2), code: 0 };
  const measure = instructions(counts, problems);
  if (problems.length === 0) return { out: `No words that can be misread.\n${measure}`, code: 0 };
  return { out: [...problems.map(showProblem), '', ...counted(problems), measure].join('\n'), code: 0 };
}
