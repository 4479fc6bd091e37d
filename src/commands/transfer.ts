/** `rotorside export` and `rotorside import`: one job as one file. */
import { defaultDataFolder, openStore } from '../store/open-store.js';
import { safeText } from '../text/safe-text.js';
import type { Options } from './arguments.js';
import type { Ended } from './ended.js';
import { findJob } from './find-job.js';

export async function transfer(o: Options): Promise<Ended> {
  const folder = o.data ?? defaultDataFolder();
  const store = openStore(folder);
  if (o.command === 'export') {
    const [job, file] = o.rest;
    if (!job || !file) return { err: 'export needs a job and a file; type rotorside export JOB FILE.', code: 2 };
    const id = findJob(store, job);
    if (typeof id !== 'string') return id;
    const done = store.exportJob(id, file);
    return done.ok ? { out: `Written to ${safeText(done.value)}.`, code: 0 } : { err: done.trouble.sentence, code: 1 };
  }
  const file = o.rest[0];
  if (!file) return { err: 'import needs a file; type rotorside import FILE.', code: 2 };
  const done = await store.importJob(file);
  if (!done.ok) return { err: done.trouble.sentence, code: 1 };
  const { id, name } = done.value;
  const out = `Imported as ${id}: ${safeText(name, { max: 60 })}.`;
  return { out, err: await unfitIn(o, folder, id), code: 0 };
}

/** What of an imported job does not fit the questions of its procedure, one line each. */
async function unfitIn(o: Options, folder: string, id: string): Promise<string | undefined> {
  const store = openStore(folder);
  const opened = await store.open(id, { readOnly: true });
  if (!opened.ok) return opened.trouble.sentence;
  const { entries } = opened.value;
  const [{ openLibrary }, { basisOfJob }, { entriesFrom }, { State }, { unfitNow, unfitWords }] = await Promise.all([
    import('../library/open-library.js'),
    import('./job-basis.js'),
    import('./find-job.js'),
    import('../engine/state.js'),
    import('../engine/unfit.js'),
  ]);
  const { library } = await openLibrary(o.procedures);
  const basis = await basisOfJob(library, folder, entries, entriesFrom(store));
  if (typeof basis === 'string') return basis;
  const state = new State(basis.model, entries, Date.now(), { earlier: basis.earlier });
  const all = unfitNow(state).map((u) => `  ${unfitWords(state, u)}`);
  if (all.length === 0) return basis.notice;
  const some = [...all.slice(0, 20), ...(all.length > 20 ? [`  and ${all.length - 20} more`] : [])];
  return [
    ...(basis.notice ? [basis.notice] : []),
    'These answers do not fit their questions and do not count; the guide asks for them again:',
    ...some,
  ].join('\n');
}
