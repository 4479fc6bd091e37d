/** `rotorside export` and `rotorside import`: one job as one file. */
import { defaultDataFolder, openStore, type Store } from '../store/open-store.js';
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
    if (!done.ok) return { err: done.trouble.sentence, code: 1 };
    const files = await picturesOf(store, id);
    if (!files.length) return { out: `Written to ${safeText(done.value)}.`, code: 0 };
    const { carryPictures, pictureFolder } = await import('../store/pictures.js');
    const beside = `${done.value}.pictures`;
    const { carried, lost } = await carryPictures(pictureFolder(folder, id), beside, files);
    return {
      out: `Written to ${safeText(done.value)}, and ${pictures(carried)} to ${safeText(beside)}; hand both over.`,
      err: lost ? `Not there or altered, and left out: ${pictures(lost)}.` : undefined,
      code: 0,
    };
  }
  const file = o.rest[0];
  if (!file) return { err: 'import needs a file; type rotorside import FILE.', code: 2 };
  const done = await store.importJob(file);
  if (!done.ok) return { err: done.trouble.sentence, code: 1 };
  const { id, name } = done.value;
  const files = await picturesOf(store, id);
  const { carryPictures, pictureFolder } = await import('../store/pictures.js');
  const { carried, lost } = await carryPictures(`${file}.pictures`, pictureFolder(folder, id), files);
  const came = carried ? ` With ${pictures(carried)}.` : '';
  const missing = lost
    ? `Left behind: ${pictures(lost)} of this job. Put ${safeText(`${file}.pictures`)} beside the file and import again.`
    : '';
  const out = `Imported as ${id}: ${safeText(name, { max: 60 })}.${came}`;
  return { out, err: [await unfitIn(o, folder, id), missing].filter(Boolean).join('\n') || undefined, code: 0 };
}

const pictures = (n: number): string => (n === 1 ? '1 picture' : `${n} pictures`);

/** Names of the pictures that a job keeps. */
async function picturesOf(store: Store, id: string): Promise<readonly string[]> {
  const opened = await store.open(id, { readOnly: true });
  return opened.ok ? opened.value.entries.flatMap((e) => (e.kind === 'picture' ? [e.file] : [])) : [];
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
