// @ts-nocheck
// Bundles the program into dist/ and compiles the procedures and tables to JSON.
import { mkdirSync, readdirSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { bundle } from './bundle.mjs';
import { bundleOptions } from './options.mjs';

mkdirSync('dist', { recursive: true });
// Says when the last whole build began: nothing is older that it was made of. Without it, it is to be built again.
const built = 'dist/built';
const begun = new Date();
rmSync(built, { force: true });
// Parts are named by their content: old ones are taken away last, so that a running program still finds its own.
const old = readdirSync('dist');
const { made, keepQuick } = await bundle('dist');
await build({ ...bundleOptions, entryPoints: ['src/build/compile.ts'], outfile: 'dist/compile.mjs' });
await import(new URL('../../dist/compile.mjs', import.meta.url).href);
if (!process.exitCode) keepQuick();
for (const f of old)
  if ((f.startsWith('part-') && !made.has(f)) || f === 'compile.js') rmSync(join('dist', f), { force: true });
if (!process.exitCode) {
  writeFileSync(built, '');
  utimesSync(built, begun, begun);
}
