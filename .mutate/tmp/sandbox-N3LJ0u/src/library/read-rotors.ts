/** Practice rotors of a folder: `practice/*.rotor.yaml` beside its procedures, read and checked. */
// @ts-nocheck

import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { calculators } from '../calc/index.js';
import { type Model, modelOf } from '../procedure/model.js';
import type { Problem } from '../procedure/problem.js';
import { loadRotors } from '../training/load-rotor.js';
import type { Rotor } from '../training/rotor-file.js';
import type { Library } from './library.js';
import { readText } from './read-text.js';

const isRotorFile = (name: string): boolean => /\.rotor\.ya?ml$/.test(name);

/**
 * @param folder the one that holds the procedures; a folder without practice rotors gives none
 * @param known rotors that these may name as their next one, or be like
 */
export function readRotors(
  folder: string,
  { procedures, tables }: Pick<Library, 'procedures' | 'tables'>,
  known: readonly Rotor[] = [],
): { readonly rotors: readonly Rotor[]; readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const files: { file: string; text: string }[] = [];
  for (const name of namesIn(join(folder, 'practice'))) {
    const file = join(folder, 'practice', name);
    const read = readText(file);
    if ('problem' in read)
      problems.push({ file, line: 1, column: 1, code: 'file-unreadable', message: read.problem, cure: '' });
    else files.push({ file, text: read.text });
  }
  if (files.length === 0) return { rotors: [], problems };
  const models = new Map<string, Model>(
    [...procedures].map(([id, p]) => [id, modelOf(p.procedure, p.hash, tables, calculators)]),
  );
  const loaded = loadRotors(files, models, known);
  return { rotors: loaded.rotors, problems: [...problems, ...loaded.problems] };
}

function namesIn(folder: string): string[] {
  try {
    return readdirSync(folder)
      .filter((f) => isRotorFile(f) && !f.startsWith('.'))
      .sort();
  } catch {
    return [];
  }
}
