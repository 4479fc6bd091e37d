/** A job begun under a procedure that is gone since goes on by the version that was kept when it began. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { basisOfJob } from '../../src/commands/job-basis.js';
import { State } from '../../src/engine/state/state.js';
import { keep } from '../../src/library/kept.js';
import { Job, sealed } from '../shipped/good-job.js';
import { library, shipped } from './library.js';

const folder = mkdtempSync(join(tmpdir(), 'kept-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it('the one for sealed bearings, of which the library knows nothing any more', async () => {
  const without = { ...library, procedures: new Map() };
  const begun = new Job().run().state;
  // Half way, at its dose.
  const { entries } = begun;
  const half = entries.slice(0, entries.findIndex((e) => e.kind === 'answer' && e.key === 'dose_set') + 1);
  keep(folder, sealed.model.hash, { procedure: shipped('regrease-in-place'), tables: library.tables });
  const basis = await basisOfJob(without, folder, half, async () => undefined);
  if (typeof basis === 'string') throw new Error(basis);
  expect(basis.notice).toBeUndefined();
  const state = new State(basis.model, half, begun.now);
  expect(state.values.get('dose_set', 'a').known).toBe(true);
  // And nothing of it is lost to its end.
  expect(new State(basis.model, entries, begun.now).finished).toBe(true);
  expect(await basisOfJob(without, join(folder, 'nowhere'), half, async () => undefined)).toMatch(/name its folder/);
});
