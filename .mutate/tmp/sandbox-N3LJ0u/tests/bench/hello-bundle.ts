/** Bundles the baseline plainly, as anybody would: minified, production React, nothing of the program's own tricks. */
// @ts-nocheck

import { build, type Plugin } from 'esbuild';

/** ink asks for its developer tools only when DEV is set; they are not installed, so a bundle must do without them. */
const withoutDevtools: Plugin = {
  name: 'without-devtools',
  setup(b) {
    b.onResolve({ filter: /^react-devtools-core$/ }, ({ path }) => ({ path, namespace: 'empty' }));
    b.onLoad({ filter: /.*/, namespace: 'empty' }, () => ({ contents: 'export default {}' }));
  },
};

export async function makeHello(work: string): Promise<string> {
  const outfile = `${work}/hello.mjs`;
  await build({
    entryPoints: ['tests/bench/hello.tsx'],
    outfile,
    bundle: true,
    minify: true,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    jsx: 'automatic',
    legalComments: 'none',
    logLevel: 'error',
    define: { 'process.env.NODE_ENV': '"production"', 'process.env.DEV': '"false"' },
    banner: {
      js: "import { createRequire as makeRequire } from 'node:module'; const require = makeRequire(import.meta.url);",
    },
    plugins: [withoutDevtools],
  });
  return outfile;
}
