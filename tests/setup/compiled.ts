/** What the build left in `dist`, and whether it is still that of these sources. */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));
/** What goes into the program. */
const sources = ['src', 'procedures', 'package.json', 'package-lock.json'];

/** When the newest of the files and folders was changed; a folder is when something in it came or went. */
function newest(path: string): number {
  const { mtimeMs } = statSync(path);
  if (!statSync(path).isDirectory()) return mtimeMs;
  return Math.max(mtimeMs, ...readdirSync(path).map((name) => newest(join(path, name))));
}

/** True where something was changed since, or nothing was built. */
export function stale(): boolean {
  try {
    return Math.max(...sources.map((name) => newest(join(root, name)))) >= statSync(join(root, 'dist/built')).mtimeMs;
  } catch {
    return true;
  }
}

let fresh: boolean | undefined;
/** Compiled content of the sources as they are; undefined where it has to be read from them, which takes seconds. */
export function compiled<T>(name: string): T | undefined {
  fresh ??= !stale();
  return fresh ? (JSON.parse(readFileSync(join(root, 'dist', `${name}.json`), 'utf8')) as T) : undefined;
}
