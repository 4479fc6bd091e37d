// Bundles the program into dist/ and compiles the procedures and tables to JSON.
import { mkdirSync, readdirSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { lock } from 'proper-lockfile';
import { bundle } from './bundle.mjs';
import { bundleOptions } from './options.mjs';

mkdirSync('dist', { recursive: true });
// One build at a time, and none while somebody copies the program; whoever holds the lock and builds says so.
const release =
  process.env.ROTORSIDE_DIST_LOCKED === undefined &&
  (await lock('dist', { stale: 60_000, retries: { retries: 300, minTimeout: 200, maxTimeout: 500 } }));
// Says when the last whole build began: nothing is older that it was made of. Without it, it is to be built again.
const built = 'dist/built';
const begun = new Date();
rmSync(built, { force: true });
// Parts are named by their content: old ones are taken away last, so that a running program still finds its own.
const old = readdirSync('dist');
const { made, keepQuick } = await bundle('dist');
await build({ ...bundleOptions, entryPoints: ['src/build/compile.ts'], outfile: 'dist/compile.mjs' });
await import(new URL('../../dist/compile.mjs', import.meta.url).href);
if (!process.exitCode) await keepQuick();
for (const f of old)
  if ((f.startsWith('part-') && !made.has(f)) || f === 'compile.js') rmSync(join('dist', f), { force: true });
if (!process.exitCode) {
  writeFileSync(built, '');
  utimesSync(built, begun, begun);
}
if (release) await release();
