/** Makes what the measurements need: folders of jobs, one long job. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Draft } from '../../src/engine/journal/entry.js';
import type { Shipped } from '../../src/library/library.js';
import { jobText, newContent } from '../../src/store/job-file.js';
import { openStore } from '../../src/store/open-store.js';

export function shipped() {
  const all = JSON.parse(readFileSync('dist/shipped.json', 'utf8')) as Shipped;
  const first = all.procedures.find((p) => p.procedure.procedure === 'regrease-in-place') ?? all.procedures[0];
  if (!first) throw new Error('no procedure was compiled');
  return { all, first };
}

const head = (name: string): Extract<Draft, { kind: 'job' }> => {
  const { first } = shipped();
  return {
    kind: 'job',
    name,
    procedure: first.procedure.procedure,
    version: first.procedure.version,
    hash: first.hash,
    by: 'AB',
  };
};

/** `n` real job files, written straight in the store's own form; the index is built by the first listing. */
export async function makeJobs(folder: string, n: number): Promise<string> {
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  const store = openStore(resolve(folder));
  if (n > 0) {
    const one = await store.create('Bench job 0', head('Bench job 0'));
    if (!one.ok) throw new Error(one.trouble.sentence);
    await one.value.close();
    for (let i = 1; i < n; i++) {
      const id = `bench-job-${String(i).padStart(8, '0')}`;
      const name = `Bench job ${i}`;
      const entry = { ...head(name), seq: 1, at: new Date(Date.UTC(2026, 0, 1) + i * 60_000).toISOString() };
      writeFileSync(join(folder, 'jobs', `${id}.json`), jobText(newContent(id, name, [entry])), { mode: 0o600 });
    }
  }
  const listed = store.list();
  if (!listed.ok || listed.value.length !== n)
    throw new Error(`${n} jobs were made, ${listed.ok ? listed.value.length : listed.trouble.sentence} are listed`);
  return folder;
}

/** A job whose journal has `n` entries, most of them notes, after a real beginning. */
export async function makeLongJob(folder: string, n: number): Promise<{ folder: string; id: string }> {
  const store = openStore(resolve(folder));
  const made = await store.create('Long job', head('Long job'));
  if (!made.ok) throw new Error(made.trouble.sentence);
  const drafts: Draft[] = Array.from({ length: n - 1 }, (_, i) => ({
    kind: 'note',
    place: 'job',
    text: `note ${i}`,
    by: 'AB',
  }));
  const added = made.value.append(drafts);
  if (!added.ok) throw new Error(added.trouble.sentence);
  await made.value.close();
  return { folder, id: made.value.id };
}

/** Lets one job of a folder be worked on, as a person does between two starts. */
export async function addAnswer(folder: string): Promise<void> {
  const store = openStore(resolve(folder));
  const latest = store.latest();
  const id = latest.ok ? latest.value.jobs.at(-1)?.id : undefined;
  const opened = await store.open(id ?? '');
  if (!opened.ok) throw new Error(opened.trouble.sentence);
  const added = opened.value.append({ kind: 'note', place: 'job', text: 'worked on', by: 'AB' });
  if (!added.ok) throw new Error(added.trouble.sentence);
  await opened.value.close();
}
