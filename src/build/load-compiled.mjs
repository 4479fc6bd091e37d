// Loads a CommonJS file with what V8 kept of compiling it, where that fits this version of it; compiled anew otherwise.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Script } from 'node:vm';

export function scriptOf(file, cachedData) {
  // On one line, so that lines in error messages stay as they are.
  const text = `(function (exports, require, module, __filename, __dirname, __part) {${readFileSync(file, 'utf8')}\n})`;
  return new Script(text, { filename: file, cachedData });
}

/** `part` loads one of the parts beside the file, which a script by itself can't. */
export function run(script, file, folder, require, part) {
  const module = { exports: {} };
  script.runInThisContext()(module.exports, require, module, file, folder, part);
  return module.exports;
}

const kept = (file) => {
  try {
    return readFileSync(file);
  } catch {
    return undefined;
  }
};

/**
 * Lets V8 wait longer before it compiles a function to optimised code: a run of a fifth of a second is over before that
 * pays, and what was kept fits only a program that waits as long.
 */
export function optimiseLate() {
  // Later versions have no such flag and would say so on the terminal.
  if (process.versions.node.startsWith('20.'))
    process.getBuiltinModule('node:v8').setFlagsFromString('--interrupt-budget=1200000');
}

/** What the file exports. */
export function loadCompiled(folder, name, late) {
  if (late) optimiseLate();
  const file = join(folder, name);
  return run(scriptOf(file, kept(`${file}.bin`)), file, folder, require, (part) => import(part));
}
