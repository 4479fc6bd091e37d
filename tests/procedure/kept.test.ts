/** A job begun under a procedure that is gone since goes on by the version that was kept when it began. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { parse } from 'yaml';
import { calculators } from '../../src/calc/index.js';
import { basisOfJob } from '../../src/commands/job-basis.js';
import { replay } from '../../src/engine/replay/replay.js';
import type { ReplayFile } from '../../src/engine/replay/replay-file.js';
import { State } from '../../src/engine/state/state.js';
import { contentHash } from '../../src/library/hash.js';
import { keep } from '../../src/library/kept.js';
import { loadProcedure } from '../../src/procedure/load.js';
import { modelOf } from '../../src/procedure/model.js';
import { library, root } from './library.js';

const folder = mkdtempSync(join(tmpdir(), 'kept-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const read = (name: string): string => readFileSync(`${root}tests/procedure/kept/${name}`, 'utf8');

it('the one for open or shielded bearings, begun before one procedure served all', async () => {
  const { procedure } = loadProcedure(read('regrease-shielded.yaml'), 'old', { tables: library.tables, calculators });
  if (!procedure) throw new Error('the old procedure can’t be read');
  expect(library.procedures.has(procedure.procedure)).toBe(false);
  const hash = contentHash(procedure, library.tables);
  const begun = replay(
    modelOf(procedure, hash, library.tables, calculators),
    parse(read('shielded.replay.yaml')) as ReplayFile,
  );
  expect(begun.ok).toBe(true);
  // Half way, at its dose.
  const { entries } = begun.state;
  const half = entries.slice(0, entries.findIndex((e) => e.kind === 'answer' && e.key === 'dose_set') + 1);
  keep(folder, hash, { procedure, tables: library.tables });
  const basis = await basisOfJob(library, folder, half, async () => undefined);
  if (typeof basis === 'string') throw new Error(basis);
  expect(basis.notice).toBeUndefined();
  expect(basis.model.procedure.procedure).toBe('regrease-shielded');
  const state = new State(basis.model, half, begun.state.now);
  expect(state.values.get('dose_set', 'a').known).toBe(true);
  // And nothing of it is lost to its end.
  expect(new State(basis.model, entries, begun.state.now).finished).toBe(true);
  expect(await basisOfJob(library, join(folder, 'nowhere'), half, async () => undefined)).toMatch(/name its folder/);
});
