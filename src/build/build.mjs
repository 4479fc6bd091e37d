// Bundles the program into dist/ and compiles the procedures and tables to JSON.
import { readdirSync, rmSync } from 'node:fs';
import { basename, join } from 'node:path';
import { build } from 'esbuild';
import { bundleOptions } from './options.mjs';

// Parts are named by their content: old ones are taken away last, so that a running program still finds its own.
const old = (() => {
  try {
    return readdirSync('dist');
  } catch {
    return [];
  }
})();
const { metafile } = await build({
  ...bundleOptions,
  entryPoints: ['src/cli.ts'],
  outdir: 'dist',
  splitting: true,
  chunkNames: 'part-[hash]',
  metafile: true,
});
await build({ ...bundleOptions, entryPoints: ['src/build/compile.ts'], outfile: 'dist/compile.js' });
await import(new URL('../../dist/compile.js', import.meta.url).href);
const made = new Set(Object.keys(metafile.outputs).map((f) => basename(f)));
for (const f of old) if (f.startsWith('part-') && !made.has(f)) rmSync(join('dist', f), { force: true });
