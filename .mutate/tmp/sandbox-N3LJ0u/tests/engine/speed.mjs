// @ts-nocheck
// Measures the engine: node tests/engine/speed.mjs. Not part of the suite: times differ from machine to machine.
import { build } from 'esbuild';

await build({
  entryPoints: ['tests/engine/speed.ts'],
  outfile: '.bench/engine-speed.mjs',
  bundle: true,
  platform: 'node',
  target: 'node20',
  format: 'esm',
  packages: 'external',
  logLevel: 'error',
});
await import(new URL('../../.bench/engine-speed.mjs', import.meta.url).href);
