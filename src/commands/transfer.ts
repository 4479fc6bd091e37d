/** `rotorside export` and `rotorside import`: jobs as files, one each. */
import { existsSync, mkdirSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { defaultDataFolder, openStore, type Store } from '../store/open-store.js';
import { safeText } from '../text/safe-text.js';
import { type Options, typed } from './arguments.js';
import { type Ended, notWritten } from './ended.js';
import { findJob } from './find-job.js';

export async function transfer(o: Options): Promise<Ended> {
  const folder = o.data ?? defaultDataFolder();
  if (o.command === 'import') return importAll(o, folder);
  const store = openStore(folder);
  if (o.all) return exportAll(o, store);
  const [job, file] = o.rest;
  if (!job) return { err: 'export needs a job and a file; type rotorside export JOB FILE.', code: 2 };
  if (!file) return { err: `export needs a file to write to; type rotorside export ${typed(job)} job.json.`, code: 2 };
  const id = findJob(store, job);
  if (typeof id !== 'string') return id;
  const done = await exportOne(store, id, file);
  if (done.code !== 0) return done;
  const listed = store.list();
  const name = listed.ok ? listed.value.find((j) => j.id === id)?.name : undefined;
  return { ...done, out: `${safeText(name ?? '', { max: 60 })} (${id}), ${done.out}` };
}

async function exportOne(store: Store, id: string, file: string): Promise<Ended> {
  const done = store.exportJob(id, file);
  if (!done.ok) return { err: done.trouble.sentence, code: 1 };
  const files = await picturesOf(store, id);
  if (!files.length) return { out: `written to ${safeText(done.value)}.`, code: 0 };
  const { carryPictures, pictureFolder } = await import('../store/pictures.js');
  const beside = `${done.value}.pictures`;
  const { carried, lost } = await carryPictures(pictureFolder(store.folder, id), beside, files);
  return {
    out: `written to ${safeText(done.value)}, and ${pictures(carried)} to ${safeText(beside)}; hand both over.`,
    err: lost ? `Not there or altered, and left out: ${pictures(lost)}.` : undefined,
    code: 0,
  };
}

/** Every job into a folder that is not there yet, a file each: what another laptop takes in by one import. */
async function exportAll(o: Options, store: Store): Promise<Ended> {
  const [to] = o.rest;
  if (!to)
    return {
      err: 'export --all needs the name of a folder that is not there yet; type rotorside export --all all-jobs.',
      code: 2,
    };
  const listed = store.list();
  if (!listed.ok) return { err: listed.trouble.sentence, code: 1 };
  try {
    mkdirSync(to);
  } catch (e) {
    return { err: notWritten(to, e, 'The folder'), code: 1 };
  }
  const troubles: string[] = [];
  let written = 0;
  for (const { id } of listed.value) {
    const one = await exportOne(store, id, join(to, `${id}.json`));
    if (one.code === 0) written += 1;
    if (one.err) troubles.push(`${id}: ${one.err}`);
  }
  return {
    out: `${written} of ${listed.value.length} jobs were written to ${safeText(to)}.`,
    err: troubles.join('\n') || undefined,
    code: written === listed.value.length ? 0 : 1,
  };
}

/** Files, and all that lie in a folder. */
function filesIn(named: readonly string[]): readonly string[] {
  return named.flatMap((path) => {
    if (!existsSync(path) || !statSync(path).isDirectory()) return [path];
    return readdirSync(path)
      .filter((f) => f.endsWith('.json'))
      .sort()
      .map((f) => join(path, f));
  });
}

async function importAll(o: Options, folder: string): Promise<Ended> {
  const files = filesIn(o.rest);
  if (files.length === 0)
    return {
      err: o.rest.length
        ? 'No exported job lies in that folder.'
        : 'import needs a file or a folder of them; type rotorside import FILE.',
      code: o.rest.length ? 1 : 2,
    };
  const all: Ended[] = [];
  for (const file of files) {
    const one = await importOne(o, folder, file);
    all.push(files.length === 1 || !one.err ? one : { ...one, err: `${safeText(file)}: ${one.err}` });
  }
  return {
    out: all.flatMap((e) => e.out ?? []).join('\n') || undefined,
    err: all.flatMap((e) => e.err ?? []).join('\n') || undefined,
    code: Math.max(...all.map((e) => e.code)),
  };
}

async function importOne(o: Options, folder: string, file: string): Promise<Ended> {
  const store = openStore(folder);
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
  const title = safeText(name, { max: 60 });
  const out = done.notice ? `${title}: ${done.notice}${came}` : `Imported as ${id}: ${title}.${came}`;
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
    import('../engine/state/state.js'),
    import('../engine/state/unfit.js'),
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
