/** The program as it is now, for tests that run it: built once before them, and not at all when nothing is newer. */
import { execFile } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { promisify } from 'node:util';
import { lock } from 'proper-lockfile';
import { stale } from './compiled.js';

/** Does something while nobody builds in this folder (build.mjs takes the same lock). */
export async function whileNobodyBuilds(work: () => unknown): Promise<void> {
  mkdirSync('dist', { recursive: true });
  const release = await lock('dist', { stale: 60_000, retries: { retries: 300, minTimeout: 200, maxTimeout: 500 } });
  try {
    await work();
  } finally {
    await release();
  }
}

/** Two runs at the same time build one after the other; the second finds nothing to do. */
export default async function setup(): Promise<void> {
  if (process.env.ROTORSIDE_SKIP_BUILD) return;
  // Not waited for in place: a lock that its holder has no time to keep fresh is taken for that of somebody who died.
  await whileNobodyBuilds(async () => {
    const env = { ...process.env, ROTORSIDE_DIST_LOCKED: '1' };
    if (stale()) await promisify(execFile)(process.execPath, ['src/build/build.mjs'], { env });
  });
}
