// @ts-nocheck
// Bundles the bench of the run-in and runs it: npm run bench:run-in [-- rotors of each simulator]
import { spawnSync } from 'node:child_process';
import { build } from 'esbuild';

await build({
  entryPoints: ['tests/bench/run-in/bench.ts'],
  outfile: '.bench/run-in.mjs',
  bundle: true,
  platform: 'node',
  target: 'node20',
  format: 'esm',
  packages: 'external',
  logLevel: 'error',
});
process.exit(
  spawnSync(process.execPath, ['.bench/run-in.mjs', ...process.argv.slice(2)], { stdio: 'inherit' }).status ?? 1,
);
