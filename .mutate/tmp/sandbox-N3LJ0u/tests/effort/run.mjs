// @ts-nocheck
// Builds the program and this measure, then does the shipped practice job by keys and counts what it costs a person.
import { spawnSync } from 'node:child_process';
import { build } from 'esbuild';

spawnSync(process.execPath, ['src/build/build.mjs'], { stdio: 'inherit' });
await build({
  entryPoints: ['tests/effort/effort.ts'],
  outfile: '.bench/effort.mjs',
  bundle: true,
  platform: 'node',
  target: 'node20',
  format: 'esm',
  packages: 'external',
  logLevel: 'error',
  jsx: 'automatic',
});
process.exit(
  spawnSync(process.execPath, ['.bench/effort.mjs', ...process.argv.slice(2)], {
    stdio: 'inherit',
    env: { ...process.env, NODE_ENV: 'production' },
  }).status ?? 1,
);
