/** What the tests of the store share: a folder of its own, invented entries, a clock that can be set. */
import { mkdtempSync, readdirSync, realpathSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';
import type { Draft } from '../../src/engine/journal/entry.js';
import { type JobHandle, openStore, type Result, type Store } from '../../src/store/open-store.js';

export type First = Extract<Draft, { kind: 'job' }>;

const made: string[] = [];

/** A new folder that is gone when the test file is done. */
export function newFolder(): string {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'rotorside-store-')));
  made.push(folder);
  return folder;
}

afterAll(() => {
  for (const folder of made) rmSync(folder, { recursive: true, force: true });
});

/** The first entry of a job on the invented test-bench rotor of a training college. */
export const first: First = {
  kind: 'job',
  by: 'AB',
  name: 'Test-bench rotor 30 kW',
  procedure: 'regrease-in-place',
  version: '1',
  hash: 'abc123',
};

export function answer(value: number, place = 'a'): Draft {
  return { kind: 'answer', by: 'AB', step: 'residue', place, key: 'volume', value, typed: `${value} ml` };
}

export function got<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(result.trouble.sentence);
  return result.value;
}

export function troubleIn<T>(result: Result<T>): Extract<Result<T>, { ok: false }>['trouble'] {
  if (result.ok) throw new Error('expected trouble');
  return result.trouble;
}

export interface Made {
  readonly folder: string;
  readonly store: Store;
  readonly job: JobHandle;
  readonly file: string;
}

/** A store with one job of `answers` answers after its first entry, still open. */
export async function makeJob(answers = 3, folder = newFolder()): Promise<Made> {
  const store = openStore(folder);
  const job = got(await store.create('Test-bench rotor', first, { phase: 'open' }));
  for (let index = 1; index <= answers; index++) got(job.append(answer(index / 10)));
  return { folder, store, job, file: join(folder, 'jobs', `${job.id}.json`) };
}

export function filesIn(folder: string): string[] {
  return readdirSync(folder, { recursive: true }).map(String).sort();
}
