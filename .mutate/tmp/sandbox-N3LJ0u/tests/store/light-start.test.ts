// @ts-nocheck
import { build } from 'esbuild';
import { expect, test } from 'vitest';

test('listing and reading jobs load no library: conf and the lock come with the first write', async () => {
  const { metafile } = await build({
    entryPoints: [new URL('../../src/store/open-store.ts', import.meta.url).pathname],
    bundle: true,
    splitting: true,
    write: false,
    metafile: true,
    platform: 'node',
    format: 'esm',
    outdir: 'none',
  });
  const outputs = metafile.outputs;
  const entry = Object.keys(outputs).find((name) => outputs[name]!.entryPoint?.endsWith('open-store.ts'))!;
  const seen = new Set<string>();
  const follow = (name: string): void => {
    if (seen.has(name) || !outputs[name]) return;
    seen.add(name);
    for (const { path, kind } of outputs[name].imports) if (kind === 'import-statement') follow(path);
  };
  follow(entry);
  const inputs = [...seen].flatMap((name) => Object.keys(outputs[name]!.inputs));
  expect(inputs.some((name) => name.endsWith('src/store/job-index.ts'))).toBe(true);
  expect(inputs.filter((name) => name.includes('node_modules/'))).toEqual([]);
});
