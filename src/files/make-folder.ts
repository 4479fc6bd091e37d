/** Folders on disk, made where they are missing. */
import { existsSync, mkdirSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { codeOf } from '../guards/guards.js';

/**
 * Makes a folder and those above it, open to their owner alone. Node's own way never comes back where the system says
 * of a folder that is there that it is not, as under /proc.
 */
export function makeFolder(folder: string): void {
  const missing: string[] = [];
  let at = resolve(folder);
  while (!existsSync(at) && dirname(at) !== at) {
    missing.unshift(at);
    at = dirname(at);
  }
  if (!statSync(at).isDirectory()) throw Object.assign(new Error(`${at} is no folder`), { code: 'ENOTDIR' });
  for (const one of missing)
    try {
      mkdirSync(one, { mode: 0o700 });
    } catch (error) {
      // Another program may have made it meanwhile.
      if (codeOf(error) !== 'EEXIST' || !existsSync(one)) throw error;
    }
}
