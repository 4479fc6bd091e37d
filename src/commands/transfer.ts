/** `rotorside export` and `rotorside import`: one job as one file. */
import type { Ended } from '../cli.js';
import { defaultDataFolder, openStore } from '../store/open-store.js';
import { safeText } from '../text/safe-text.js';
import type { Options } from './arguments.js';
import { findJob } from './find-job.js';

export async function transfer(o: Options): Promise<Ended> {
  const store = openStore(o.data ?? defaultDataFolder());
  if (o.command === 'export') {
    const [job, file] = o.rest;
    if (!job || !file) return { err: 'export needs a job and a file; type rotorside export JOB FILE.', code: 2 };
    const id = findJob(store, job);
    if (typeof id !== 'string') return id;
    const done = store.exportJob(id, file);
    return done.ok ? { out: `Written to ${done.value}.`, code: 0 } : { err: done.trouble.sentence, code: 1 };
  }
  const file = o.rest[0];
  if (!file) return { err: 'import needs a file; type rotorside import FILE.', code: 2 };
  const done = await store.importJob(file);
  return done.ok
    ? { out: `Imported as ${done.value.id}: ${safeText(done.value.name, { max: 60 })}.`, code: 0 }
    : { err: done.trouble.sentence, code: 1 };
}
