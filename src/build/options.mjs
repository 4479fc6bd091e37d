// How everything here is bundled: the program, the compile step, and what the bench compares them with.

import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** ink asks for its developer tools only when DEV is set; they are not installed. */
const withoutDevtools = {
  name: 'without-devtools',
  setup(builder) {
    builder.onResolve({ filter: /^react-devtools-core$/ }, ({ path }) => ({ path, namespace: 'empty' }));
    builder.onLoad({ filter: /.*/, namespace: 'empty' }, () => ({ contents: 'export default {}' }));
  },
};

/**
 * With CI set, ink draws nothing before the end, while keys are taken all the same. Remote desktops and copied
 * environments have that variable, and a person sits before them.
 */
const drawnAlways = {
  name: 'drawn-always',
  setup(builder) {
    builder.onResolve({ filter: /^is-in-ci$/ }, ({ path }) => ({ path, namespace: 'not-in-ci' }));
    builder.onLoad({ filter: /.*/, namespace: 'not-in-ci' }, () => ({
      contents: 'export default false; export const isInCi = false;',
    }));
  },
};

/**
 * Everybody measures text as src/text/text-width.ts does, which asks string-width only where it must. That library
 * loads Unicode's cluster rules as soon as it is loaded itself, so it is left until it is first asked.
 */
const measureQuickly = {
  name: 'measure-quickly',
  setup(builder) {
    const own = fileURLToPath(new URL('../text/text-width.ts', import.meta.url));
    const early = "import stringWidth from 'string-width';";
    builder.onResolve({ filter: /^string-width$/ }, ({ importer }) => (importer === own ? undefined : { path: own }));
    builder.onLoad({ filter: /text-width\.ts$/ }, ({ path }) => {
      const source = readFileSync(path, 'utf8');
      if (path !== own || !source.includes(early)) return undefined;
      return {
        contents: source.replace(
          early,
          "const stringWidth = (text: string): number => require('string-width').default(text);",
        ),
        loader: 'ts',
      };
    });
  },
};

/** Expressions are kept as trees: the library that reads them is left until one is to be read. */
const readExpressionsLate = {
  name: 'read-expressions-late',
  setup(builder) {
    const own = fileURLToPath(new URL('../procedure/expression.ts', import.meta.url));
    const [early, made] = ["import { Environment } from '@marcbachmann/cel-js';", 'new Environment('];
    builder.onLoad({ filter: /expression\.ts$/ }, ({ path }) => {
      const source = readFileSync(path, 'utf8');
      if (path !== own || !source.includes(early) || !source.includes(made)) return undefined;
      return {
        contents: source
          .replace(early, "import type { Environment } from '@marcbachmann/cel-js';")
          .replace(made, "new (require('@marcbachmann/cel-js').Environment)("),
        loader: 'ts',
      };
    });
  },
};

/** Of a replay the form is told without a schema where nothing is wrong with it: the library of schemas is left until it is. */
export const loadSchemasLate = {
  name: 'load-schemas-late',
  setup(builder) {
    const own = fileURLToPath(new URL('../commands/run-replay.ts', import.meta.url));
    const early = "import { type ReplayFile, replaySchema } from '../engine/replay/replay-file.js';";
    const asked = '() => replaySchema';
    builder.onLoad({ filter: /run-replay\.ts$/ }, ({ path }) => {
      const source = readFileSync(path, 'utf8');
      if (path !== own || !source.includes(early) || !source.includes(asked)) return undefined;
      return {
        contents: source
          .replace(early, "import type { ReplayFile } from '../engine/replay/replay-file.js';")
          .replace(asked, "() => require('../engine/replay/replay-file.js').replaySchema"),
        loader: 'ts',
      };
    });
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
  // It loads a binary of its own from where it is installed.
  external: ['sharp'],
  plugins: [withoutDevtools, drawnAlways, measureQuickly, readExpressionsLate],
};

/** What is different in a CommonJS bundle. */
export const commonJs = {
  format: 'cjs',
  define: { ...bundleOptions.define, 'import.meta.url': 'thisFile' },
  banner: { js: "const thisFile = require('node:url').pathToFileURL(__filename).href;" },
};
