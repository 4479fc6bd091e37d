// Bundles the program into dist/ and compiles the procedures and tables to JSON.
import { readdirSync, rmSync } from 'node:fs';
import { basename, join } from 'node:path';
import { build } from 'esbuild';

const common = {
  bundle: true,
  platform: 'node',
  target: 'node20',
  format: 'esm',
  minify: true,
  legalComments: 'none',
  logLevel: 'warning',
  define: { 'process.env.NODE_ENV': '"production"', 'process.env.DEV': '"false"' },
  // CommonJS parts of the bundle ask for node's own modules through require.
  banner: {
    js: "import { createRequire as makeRequire } from 'node:module'; const require = makeRequire(import.meta.url);",
  },
  external: ['react-devtools-core'],
};

// Parts are named by their content: old ones are taken away last, so that a running program still finds its own.
const old = (() => {
  try {
    return readdirSync('dist');
  } catch {
    return [];
  }
})();
const { metafile } = await build({
  ...common,
  entryPoints: ['src/cli.ts'],
  outdir: 'dist',
  splitting: true,
  chunkNames: 'part-[hash]',
  jsx: 'automatic',
  metafile: true,
});
await build({ ...common, entryPoints: ['src/build/compile.ts'], outfile: 'dist/compile.js' });
await import(new URL('../../dist/compile.js', import.meta.url).href);
const made = new Set(Object.keys(metafile.outputs).map((f) => basename(f)));
for (const f of old) if (f.startsWith('part-') && !made.has(f)) rmSync(join('dist', f), { force: true });
