/** The program as it is now, for tests that run it: built once before them, and not at all when nothing is newer. */
// @ts-nocheck

import { execFileSync } from 'node:child_process';
import { mkdirSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { lock } from 'proper-lockfile';

/** What goes into the program. */
const sources = ['src', 'procedures', 'package.json', 'package-lock.json'];

/** When the newest of the files and folders was changed; a folder is when something in it came or went. */
function newest(path: string): number {
  const { mtimeMs } = statSync(path);
  if (!statSync(path).isDirectory()) return mtimeMs;
  return Math.max(mtimeMs, ...readdirSync(path).map((name) => newest(join(path, name))));
}

function stale(): boolean {
  try {
    return Math.max(...sources.map(newest)) >= statSync('dist/built').mtimeMs;
  } catch {
    return true;
  }
}

/** Two runs at the same time in one folder build one after the other; the second finds nothing to do. */
export default async function setup(): Promise<void> {
  if (process.env.ROTORSIDE_SKIP_BUILD) return;
  mkdirSync('dist', { recursive: true });
  const release = await lock('dist', { stale: 20_000, retries: { retries: 300, minTimeout: 200, maxTimeout: 500 } });
  try {
    if (stale()) execFileSync(process.execPath, ['src/build/build.mjs'], { stdio: 'inherit' });
  } finally {
    await release();
  }
}
