/** The procedure that a job began with is kept whole, or mended, or not believed. */
// @ts-nocheck

import { readdirSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, it } from 'vitest';
import { keep, readKept } from '../../src/library/kept.js';
import type { openShipped } from '../../src/library/open-library.js';
import { newFolder } from './shell.js';

/** The library is read beside the bundle, which a test is not. */
const library = (): ReturnType<typeof openShipped> => {
  const shipped = JSON.parse(readFileSync(new URL('../../dist/shipped.json', import.meta.url), 'utf8'));
  return {
    tables: Object.fromEntries(shipped.tables.map((t: { id: string }) => [t.id, t])),
    procedures: new Map(
      shipped.procedures.map((p: { procedure: { procedure: string } }) => [p.procedure.procedure, p]),
    ),
    rotors: new Map(),
  };
};
const { tables, procedures } = library();
const found = procedures.get('regrease-in-place')!;
const kept = { procedure: found.procedure, tables, shop: false };
const damage: [string, (file: string) => void][] = [
  ['empty', (file) => truncateSync(file, 0)],
  ['zeros', (file) => writeFileSync(file, Buffer.alloc(100))],
  ['cut off', (file) => truncateSync(file, 5000)],
  ['another word in it', (file) => writeFileSync(file, readFileSync(file, 'utf8').replace('Isolate', 'Insulate'))],
];
let folder = '';
let file = '';
beforeAll(() => {
  folder = newFolder();
  keep(folder, found.hash, kept);
  file = join(folder, 'procedures', `${found.hash}.json`);
});

it.each(damage)('%s: not believed, and written anew by the next job with it', (_, harm) => {
  expect(readKept(folder, found.hash)?.procedure).toEqual(found.procedure);
  harm(file);
  expect(readKept(folder, found.hash)).toBeUndefined();
  keep(folder, found.hash, kept);
  expect(readKept(folder, found.hash)?.procedure).toEqual(found.procedure);
  expect(readdirSync(join(folder, 'procedures'))).toEqual([`${found.hash}.json`]);
});
