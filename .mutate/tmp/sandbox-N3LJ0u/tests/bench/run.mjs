// @ts-nocheck
// Builds the program and the bench, then runs the bench in production mode.
import { spawnSync } from 'node:child_process';
import { build } from 'esbuild';

spawnSync(process.execPath, ['src/build/build.mjs'], { stdio: 'inherit' });
await build({
  entryPoints: ['tests/bench/bench.ts'],
  outfile: '.bench/bench.mjs',
  bundle: true,
  platform: 'node',
  target: 'node20',
  format: 'esm',
  packages: 'external',
  logLevel: 'error',
  jsx: 'automatic',
});
process.exit(
  spawnSync(process.execPath, ['.bench/bench.mjs'], {
    stdio: 'inherit',
    env: { ...process.env, NODE_ENV: 'production' },
  }).status ?? 1,
);
