import { defineConfig } from 'vitest/config';

/** The tests that a mutation run asks, named by mutate.mjs: all of them in one process, none that starts a program. */
export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    include: (process.env.MUTATE_TESTS ?? '').split(' '),
    exclude: [
      'tests/calc/{kept-compiled,light,uncertainty,wording}.test.ts',
      'tests/outside/properties.test.ts',
      'tests/engine/{branches,large,properties}.test.ts',
      'tests/store/{full-disk,kill,light-start,lock-alive,sync-order}.test.ts',
      'tests/store/*.fuzz.test.ts',
      'tests/procedure/{fuzz,kept,no-names,shipped}.test.ts',
    ],
    testNamePattern: /^(?!text of a shipped procedure)/,
    // The files of one run share its modules; each mutant gets a fresh process of its own.
    isolate: false,
    env: { ROTORSIDE_TESTS: 'daily' },
    setupFiles: ['tests/setup/seeds.ts'],
    testTimeout: 600_000,
  },
});
