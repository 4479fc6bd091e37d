// Loads a CommonJS file with what V8 kept of compiling it, where that fits this version of it; compiled anew otherwise.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { constants, Script } from 'node:vm';

export function scriptOf(file, cachedData) {
  // On one line, so that lines in error messages stay as they are.
  const text = `(function (exports, require, module, __filename, __dirname) {${readFileSync(file, 'utf8')}\n})`;
  const importModuleDynamically = constants.USE_MAIN_CONTEXT_DEFAULT_LOADER;
  return new Script(text, { filename: file, cachedData, importModuleDynamically });
}

export function run(script, file, folder, require) {
  const module = { exports: {} };
  script.runInThisContext()(module.exports, require, module, file, folder);
  return module.exports;
}

const kept = (file) => {
  try {
    return readFileSync(file);
  } catch {
    return undefined;
  }
};

/** What the file exports. */
export function loadCompiled(folder, name) {
  const file = join(folder, name);
  return run(scriptOf(file, kept(`${file}.bin`)), file, folder, require);
}
