/** The store: jobs of one data folder. Only the command line knows it; screens are handed its functions. */
// @ts-nocheck

import { join } from 'node:path';
import type { Draft, Entry } from '../engine/entry.js';
import { syncFolder } from '../files/new-file.js';
import { safeText } from '../text/safe-text.js';
import { toEntries } from './check-entry.js';
import { loadConf } from './conf-file.js';
import { makePlaces, placesIn } from './data-folder.js';
import { isSummary, type JobContent, newContent, type Summary } from './job-file.js';
import { clockNotice, type JobHandle, type Keys, lockedBy, openHandle } from './job-handle.js';
import { isJobId, newJobId, randomTail } from './job-id.js';
import { headFromFile, headOf, headsByWork, type JobHead, listHeads, noteHead } from './job-index.js';
import { lockJob } from './job-lock.js';
import { type Latest, latestHeads } from './latest-jobs.js';
import { type People, people } from './preferences.js';
import { clearUnfinished, damagedName, type FoundJob, findJob } from './recover-job.js';
import { jobWriter, stampOf, stampOrNone } from './save-job.js';
import { readTransfer, writeTransfer } from './transfer-job.js';
import { done, type Result, refused, type StoreTrouble, troubleOf } from './trouble.js';

export { defaultDataFolder } from './data-folder.js';
export type { DraftText } from './draft-text.js';
export type { Summary } from './job-file.js';
export type { JobHandle } from './job-handle.js';
export type { JobHead } from './job-index.js';
export type { Preferences, Progress } from './preferences.js';
export type { Result, StoreTrouble } from './trouble.js';

export interface OpenOptions {
  readonly readOnly?: boolean;
  /** Accepts what was offered for a damaged job: the damaged file is set aside and the proven entries take its place. */
  readonly recover?: boolean;
}

export interface StoreOptions {
  readonly clock?: () => Date;
  /** Eight letters or digits for the end of a job's id. */
  readonly random?: () => string;
}

type FirstEntry = Extract<Draft, { kind: 'job' }>;

export interface Store extends People {
  readonly folder: string;
  /**
   * Every job: unfinished real work first, the one that was worked on last before the others, whatever the clock said.
   * Trouble when the folder is there and can't be read.
   */
  list(): Result<readonly JobHead[]>;
  /** The first few of that list and how many there are, without reading of all the others; trouble as for `list`. */
  latest(): Result<Latest>;
  /** The job that was worked on last, finished or not, of real ones or of practice; trouble as for `list`. */
  lastWorked(of: 'real' | 'practice'): Result<JobHead | undefined>;
  create(name: string, first: FirstEntry, summary?: Summary): Promise<Result<JobHandle>>;
  open(id: string, options?: OpenOptions): Promise<Result<JobHandle>>;
  /** Writes one job to a file that is not there yet; gives its path. */
  exportJob(id: string, toFile: string): Result<string>;
  /** Takes in a file that exportJob wrote, always as a new job. */
  importJob(file: string): Promise<Result<JobHead>>;
  /** Loads what saving needs; call it while the screen is idle. */
  warm(): Promise<void>;
}

const longestName = 200;

export function openStore(folder: string, options: StoreOptions = {}): Store {
  const places = placesIn(folder);
  const clock = options.clock ?? (() => new Date());
  const random = options.random ?? randomTail;

  const add = async (name: string, entries: readonly Entry[], summary: Summary): Promise<JobContent> => {
    makePlaces(places);
    const taken = (id: string): boolean => findJob(places, id).kind !== 'none';
    let id = newJobId(name, random());
    while (taken(id)) id = newJobId(name);
    const content = newContent(id, name, entries, summary);
    (await jobWriter(places, id)).save(content);
    syncFolder(places.root);
    noteHead(places, headOf(content));
    return content;
  };

  /** The keys to write to a job, or why there are none. */
  const keysFor = async (id: string): Promise<Omit<Keys, 'stamp'> | string> => {
    try {
      makePlaces(places);
      const lock = await lockJob(places, id);
      if ('other' in lock) return lockedBy(lock.other);
      return { lock, writer: await jobWriter(places, id) };
    } catch (error) {
      const { trouble } = troubleOf(error, 'This job can only be looked at', '');
      return trouble.sentence;
    }
  };

  const open = async (id: string, { readOnly, recover }: OpenOptions): Promise<Result<JobHandle>> => {
    const file = join(places.jobs, `${id}.json`);
    const seen = stampOrNone(file);
    const early = findJob(places, id);
    if (early.kind === 'none') return noSuchJob(id);
    if (early.kind === 'newer') return newer(early.what);
    const keys = readOnly ? 'It was opened to look at only.' : await keysFor(id);
    if (typeof keys === 'string') {
      const content = early.kind === 'good' ? early.content : recover ? early.salvage?.content : undefined;
      if (!content) return damaged(early as Damaged);
      return done(openHandle({ places, content, clock, whyReadOnly: keys }));
    }
    try {
      // The one who held the lock may have added to the job since it was read.
      const found = stampOrNone(file) === seen ? early : findJob(places, id);
      const trouble = faultOf(id, found, recover);
      if (trouble) {
        keys.lock.release();
        return trouble;
      }
      if (found.kind === 'good') {
        clearUnfinished(places, id);
        return ready(found.content, keys);
      }
      const { why, salvage } = found as Damaged;
      const aside = damagedName(places, id, clock().toISOString());
      keys.writer.save(salvage!.content, aside);
      clearUnfinished(places, id);
      const notice = `The damaged file (${why}) was set aside as ${aside}; ${salvage!.offer.entries} entries are back.`;
      return ready(salvage!.content, keys, notice);
    } catch (error) {
      keys.lock.release();
      return troubleOf(error, 'This job could not be opened', 'Nothing in it was changed.');
    }
  };

  const ready = (content: JobContent, keys: Omit<Keys, 'stamp'>, notice?: string): Result<JobHandle> => {
    const stamp = stampOf(join(places.jobs, `${content.id}.json`));
    const handle = openHandle({ places, content, clock, keys: { ...keys, stamp } });
    // Opening is no work: only what came to light by it is told to the list.
    if (notice !== undefined) noteHead(places, handle.head);
    return done(handle, notice ?? aheadNotice(content, clock));
  };

  /** Lets the list show what only opening a job brought to light. */
  const noteFault = (id: string, { code }: StoreTrouble): void => {
    const head = code === 'damaged' || code === 'newer' ? headFromFile(places, id) : undefined;
    if (head) noteHead(places, head);
  };

  const listing = <T>(read: () => T): Result<T> => {
    try {
      return done(read());
    } catch (error) {
      return troubleOf(error, `The jobs in ${folder} can't be listed`, 'Nothing was changed.');
    }
  };

  return {
    folder,
    ...people(folder),
    list: () => listing(() => listHeads(places)),
    latest: () => listing(() => latestHeads(places)),
    lastWorked: (of) => listing(() => headsByWork(places).find((h) => (h.practice === undefined) === (of === 'real'))),
    async create(name, first, summary = {}) {
      const title = name.trim();
      if (title === '' || title.length > longestName) {
        return refused('invalid', `A job needs a name of 1 to ${longestName} characters; type a shorter one.`);
      }
      if (!isSummary(summary))
        return refused('invalid', 'The job was not made because its summary is not small and plain.');
      try {
        const entries = toEntries([first], 0, clock().toISOString());
        if (typeof entries === 'string') return refused('invalid', `The job was not made: ${entries}.`);
        const { id } = await add(title, entries, summary);
        return await open(id, {});
      } catch (error) {
        return troubleOf(error, 'The new job could not be saved', 'Other jobs are not touched.');
      }
    },
    async open(id, openOptions = {}) {
      if (!isJobId(id)) return noSuchJob(id);
      try {
        const opened = await open(id, openOptions);
        if (!opened.ok) noteFault(id, opened.trouble);
        return opened;
      } catch (error) {
        return troubleOf(error, 'This job could not be opened', 'Nothing in it was changed.');
      }
    },
    exportJob(id, toFile) {
      if (!isJobId(id)) return noSuchJob(id);
      try {
        const found = findJob(places, id);
        if (found.kind !== 'good') return faultOf(id, found, false)!;
        writeTransfer(found.content, toFile);
        return done(toFile);
      } catch (error) {
        return troubleOf(error, 'The job could not be exported', 'The job itself is not touched.');
      }
    },
    async importJob(file) {
      try {
        const read = readTransfer(file);
        if (!read.ok) return read;
        const { name, entries, summary } = read.value;
        return done(headOf(await add(name, entries, summary)));
      } catch (error) {
        return troubleOf(error, 'The file could not be imported', 'Jobs that are here already are not touched.');
      }
    },
    async warm() {
      await Promise.all([loadConf(), import('proper-lockfile')]);
    },
  };
}

/** In practice time runs ahead by itself; a real job whose last entry lies in the future has seen another clock. */
function aheadNotice({ entries }: JobContent, clock: () => Date): string | undefined {
  const first = entries[0];
  if (first?.kind !== 'job' || first.practice !== undefined || entries.length === 1) return undefined;
  return clockNotice(entries.at(-1)?.at, clock());
}

type Damaged = Extract<FoundJob, { kind: 'damaged' }>;
type Refused = { readonly ok: false; readonly trouble: StoreTrouble };

function noSuchJob(id: unknown): Refused {
  return refused('unknown-job', `There is no job '${safeText(id, { max: 60 })}' here; pick one from the list of jobs.`);
}

function newer(what: string): Refused {
  return refused(
    'newer',
    `This job was written by a newer version of rotorside (${what}) and is left as it is; update rotorside to open it.`,
  );
}

function damaged({ why, salvage }: Damaged): Refused {
  if (!salvage) {
    return refused(
      'damaged',
      `This job's file is damaged (${why}) and nothing in it could be read; it is left as it is.`,
    );
  }
  const { entries, from, last } = salvage.offer;
  const count = entries === 1 ? '1 entry' : `${entries} entries`;
  return refused(
    'damaged',
    `This job's file is damaged (${why}); ${count} up to ${last} can be had back from the ${from}, ` +
      'and the damaged file is kept aside.',
    salvage.offer,
  );
}

/** Why a job can't be opened; nothing when it can. */
function faultOf(id: string, found: FoundJob, recover: boolean | undefined): Refused | undefined {
  if (found.kind === 'none') return noSuchJob(id);
  if (found.kind === 'newer') return newer(found.what);
  if (found.kind === 'damaged' && !(recover && found.salvage)) return damaged(found);
  return undefined;
}
