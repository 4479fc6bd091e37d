import { build } from 'esbuild';
import { expect, it } from 'vitest';

it('the calculators with their shell edge bring in no package but the unit converter and the distance of two words', async () => {
  const { metafile, outputFiles } = await build({
    entryPoints: [new URL('../../src/calc/command.ts', import.meta.url).pathname],
    bundle: true,
    write: false,
    metafile: true,
    minify: true,
    format: 'esm',
    platform: 'node',
  });
  const packages = Object.keys(metafile.inputs)
    .map((path) => /node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(path)?.[1])
    .filter((name) => name !== undefined);
  expect([...new Set(packages)]).toEqual(['convert', 'fastest-levenshtein']);
  expect(outputFiles[0]!.contents.length).toBeLessThan(200_000);
});
