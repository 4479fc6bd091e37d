/** Bundles a module as the program itself is bundled, and gives the path of the result. */
import { build } from 'esbuild';

export async function bundled(entry: string, out: string): Promise<string> {
  await build({
    entryPoints: [entry],
    outfile: out,
    bundle: true,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    minify: true,
    jsx: 'automatic',
    logLevel: 'error',
    define: { 'process.env.NODE_ENV': '"production"', 'process.env.DEV': '"false"' },
    banner: {
      js: "import { createRequire as makeRequire } from 'node:module'; const require = makeRequire(import.meta.url);",
    },
    external: ['react-devtools-core'],
  });
  return out;
}
