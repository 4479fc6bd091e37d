// Bundles a measure and runs it in production mode: run.mjs ENTRY [its arguments]. `--program` before ENTRY builds the program first.
import { spawnSync } from 'node:child_process';
import { build } from 'esbuild';

const args = process.argv.slice(2);
if (args[0] === '--program') {
  args.shift();
  spawnSync(process.execPath, ['src/build/build.mjs'], { stdio: 'inherit' });
}
const [entry = '', ...rest] = args;
const outfile = `.bench/${entry.replace(/^tests\/|\.ts$/g, '').replaceAll('/', '-')}.mjs`;
await build({
  entryPoints: [entry],
  outfile,
  bundle: true,
  platform: 'node',
  target: 'node20',
  format: 'esm',
  packages: 'external',
  logLevel: 'error',
  jsx: 'automatic',
});
process.exit(
  spawnSync(process.execPath, [outfile, ...rest], {
    stdio: 'inherit',
    env: { ...process.env, NODE_ENV: 'production' },
  }).status ?? 1,
);
