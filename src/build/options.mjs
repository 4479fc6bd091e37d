// How everything here is bundled: the program, the compile step, and what the bench compares them with.

/** ink asks for its developer tools only when DEV is set; they are not installed. */
const withoutDevtools = {
  name: 'without-devtools',
  setup(builder) {
    builder.onResolve({ filter: /^react-devtools-core$/ }, ({ path }) => ({ path, namespace: 'empty' }));
    builder.onLoad({ filter: /.*/, namespace: 'empty' }, () => ({ contents: 'export default {}' }));
  },
};

export const bundleOptions = {
  bundle: true,
  platform: 'node',
  target: 'node20',
  format: 'esm',
  minify: true,
  jsx: 'automatic',
  legalComments: 'none',
  logLevel: 'warning',
  define: { 'process.env.NODE_ENV': '"production"', 'process.env.DEV': '"false"' },
  // CommonJS parts of the bundle ask for node's own modules through require.
  banner: {
    js: "import { createRequire as makeRequire } from 'node:module'; const require = makeRequire(import.meta.url);",
  },
  plugins: [withoutDevtools],
};
