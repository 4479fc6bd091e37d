/** Bundles a module as the program itself is bundled, and gives the path of the result. */
import { build } from 'esbuild';
import { bundleOptions } from '../../src/build/options.mjs';

export async function bundled(entry: string, out: string): Promise<string> {
  await build({ ...bundleOptions, entryPoints: [entry], outfile: out });
  return out;
}
