/** The store: jobs of one data folder. Only the command line knows it; screens are handed its functions. */
import { accessSync, constants } from 'node:fs';
import { join } from 'node:path';
import type { Draft, Entry } from '../engine/journal/entry.js';
import { syncFolder } from '../files/new-file.js';
import { safeText } from '../text/safe-text.js';
import { toEntries } from './check-entry.js';
import { loadConf } from './conf-file.js';
import { makePlaces, type Places, placesIn } from './data-folder.js';
import { isSummary, type JobContent, newContent, type Summary, withEntries } from './job-file.js';
import { clockNotice, type JobHandle, type Keys, lockedBy, openHandle } from './job-handle.js';
import { isJobId, newJobId, randomTail } from './job-id.js';
import { headFromFile, headOf, headsByWork, type JobHead, listHeads, noteHead } from './job-index.js';
import { lockJob } from './job-lock.js';
import { type Latest, latestHeads } from './latest-jobs.js';
import { kinOf } from './merge-job.js';
import { type People, people } from './preferences.js';
import { clearUnfinished, damagedName, type FoundJob, lookUpJob } from './recover-job.js';
import { jobWriter, stampOf, stampOrNone } from './save-job.js';
import { readTransfer, type TransferJob, writeTransfer } from './transfer-job.js';
import { done, type Offer, type Result, refused, type StoreTrouble, troubleOf, withZone } from './trouble.js';

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
  /** Whether a new job could be saved here; asked before anybody fills in what it needs. */
  canSave(): Result<true>;
  create(name: string, first: FirstEntry, summary?: Summary): Promise<Result<JobHandle>>;
  open(id: string, options?: OpenOptions): Promise<Result<JobHandle>>;
  /** Writes one job to a file that is not there yet; gives its path. */
  exportJob(id: string, toFile: string): Result<string>;
  /**
   * Takes in a file that exportJob wrote: as a new job, or into the one that is here already and is a beginning of it.
   * One that is here whole is not kept twice; of one that went on here and elsewhere both are kept. The notice says which.
   */
  importJob(file: string): Promise<Result<JobHead>>;
  /** Loads what saving needs; call it while the screen is idle. */
  warm(): Promise<void>;
}

const longestName = 200;

/** The jobs of one data folder. What fails is thrown or comes back as trouble, as each says. */
class JobFolder {
  constructor(
    private readonly places: Places,
    private readonly clock: () => Date,
    private readonly random: () => string,
  ) {}

  async add(name: string, entries: readonly Entry[], summary: Summary): Promise<JobContent> {
    const { places } = this;
    makePlaces(places);
    const taken = (id: string): boolean => lookUpJob(places, id).kind !== 'none';
    let id = newJobId(name, this.random());
    while (taken(id)) id = newJobId(name);
    const content = newContent(id, name, entries, summary);
    (await jobWriter(places, id)).save(content);
    syncFolder(places.root);
    noteHead(places, headOf(content));
    return content;
  }

  /** The keys to write to a job, or why there are none. */
  private async keysFor(id: string): Promise<Omit<Keys, 'stamp'> | string> {
    const { places } = this;
    try {
      makePlaces(places);
      const lock = await lockJob(places, id);
      if ('other' in lock) return lockedBy(lock.other);
      return { lock, writer: await jobWriter(places, id) };
    } catch (error) {
      const { trouble } = troubleOf(error, 'This job can only be looked at', '');
      return trouble.sentence;
    }
  }

  async open(id: string, { readOnly, recover }: OpenOptions): Promise<Result<JobHandle>> {
    const { places, clock } = this;
    const file = join(places.jobs, `${id}.json`);
    const seen = stampOrNone(file);
    const early = lookUpJob(places, id);
    if (early.kind === 'none') return noSuchJob(id);
    if (early.kind === 'newer') return newer(early.what);
    const keys = readOnly ? 'It was opened to look at only.' : await this.keysFor(id);
    if (typeof keys === 'string') {
      const content = early.kind === 'good' ? early.content : recover ? early.salvage?.content : undefined;
      if (!content) return damaged(early as Damaged);
      return done(openHandle({ places, content, clock, whyReadOnly: keys }));
    }
    try {
      // The one who held the lock may have added to the job since it was read.
      const found = stampOrNone(file) === seen ? early : lookUpJob(places, id);
      const trouble = faultOf(id, found, recover);
      if (trouble) {
        keys.lock.release();
        return trouble;
      }
      if (found.kind === 'good') {
        clearUnfinished(places, id);
        return this.ready(found.content, keys);
      }
      const { why, salvage } = found as Damaged;
      const aside = damagedName(places, id, clock().toISOString());
      keys.writer.save(salvage!.content, aside);
      clearUnfinished(places, id);
      const notice = `The damaged file (${why}) was set aside as ${aside}; ${salvage!.offer.entries} entries are back.${missingWords(salvage!.offer)}`;
      return this.ready(salvage!.content, keys, notice);
    } catch (error) {
      keys.lock.release();
      return troubleOf(error, 'This job could not be opened', 'Nothing in it was changed.');
    }
  }

  /** One import at a time, so that two of the same file do not become two jobs. */
  async takeIn({ name, entries, summary }: TransferJob): Promise<Result<JobHead>> {
    const { places } = this;
    makePlaces(places);
    const turn = await importTurn(places);
    if (!turn) return refused('locked', 'Another import into this folder is running; try again when it is done.');
    try {
      const kin = kinOf(places, name, entries);
      if (kin.kind === 'known')
        return done(headOf(kin.content), `It is here already as ${kin.content.id}; nothing was added.`);
      if (kin.kind === 'longer') return await this.lengthen(kin.content.id, entries, summary);
      const head = headOf(await this.add(name, entries, summary));
      if (kin.kind === 'new') return done(head);
      const { content, same } = kin;
      return done(
        head,
        `Imported as ${head.id}. It began as ${content.id}, and from entry ${same + 1} on each went its own way: both are kept.`,
      );
    } finally {
      turn.release();
    }
  }

  private async lengthen(id: string, entries: readonly Entry[], summary: Summary): Promise<Result<JobHead>> {
    const { places } = this;
    const keys = await this.keysFor(id);
    if (typeof keys === 'string') return refused('locked', keys);
    try {
      // Whoever held it may have gone on with it since.
      const now = lookUpJob(places, id);
      if (now.kind !== 'good' || now.content.entries.length >= entries.length)
        return refused('changed', 'That job has changed meanwhile; import the file again.');
      const gained = entries.slice(now.content.entries.length);
      const content = withEntries(now.content, gained, summary);
      const added = gained.length;
      keys.writer.save(content);
      noteHead(places, headOf(content));
      return done(headOf(content), `${added} ${added === 1 ? 'entry was' : 'entries were'} added to ${id}.`);
    } finally {
      keys.lock.release();
    }
  }

  private ready(content: JobContent, keys: Omit<Keys, 'stamp'>, notice?: string): Result<JobHandle> {
    const { places, clock } = this;
    const stamp = stampOf(join(places.jobs, `${content.id}.json`));
    const handle = openHandle({ places, content, clock, keys: { ...keys, stamp } });
    // Opening is no work: only what came to light by it is told to the list.
    if (notice !== undefined) noteHead(places, handle.head);
    return done(handle, notice ?? aheadNotice(content, clock));
  }

  /** Lets the list show what only opening a job brought to light. */
  noteFault(id: string, { code }: StoreTrouble): void {
    const { places } = this;
    const head = code === 'damaged' || code === 'newer' ? headFromFile(places, id) : undefined;
    if (head) noteHead(places, head);
  }
}

const IMPORT = 'import-of-jobs';
/** How often and how long another import is waited for, in ms. */
const turnEvery = 100;
const turnAfter = 15_000;

async function importTurn(places: Places): Promise<{ release(): void } | undefined> {
  for (let waited = 0; waited < turnAfter; waited += turnEvery) {
    const lock = await lockJob(places, IMPORT);
    if (!('other' in lock)) return lock;
    await new Promise((resolve) => setTimeout(resolve, turnEvery));
  }
  return undefined;
}

export function openStore(folder: string, options: StoreOptions = {}): Store {
  const places = placesIn(folder);
  const clock = options.clock ?? (() => new Date());
  const jobs = new JobFolder(places, clock, options.random ?? randomTail);

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
    canSave() {
      try {
        makePlaces(places);
        accessSync(places.jobs, constants.W_OK);
        return done(true);
      } catch (error) {
        return troubleOf(error, `No job can be saved in ${folder}`, 'Nothing was changed.');
      }
    },
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
        const { id } = await jobs.add(title, entries, summary);
        return await jobs.open(id, {});
      } catch (error) {
        return troubleOf(error, 'The new job could not be saved', 'Other jobs are not touched.');
      }
    },
    async open(id, openOptions = {}) {
      if (!isJobId(id)) return noSuchJob(id);
      try {
        const opened = await jobs.open(id, openOptions);
        if (!opened.ok) jobs.noteFault(id, opened.trouble);
        return opened;
      } catch (error) {
        return troubleOf(error, 'This job could not be opened', 'Nothing in it was changed.');
      }
    },
    exportJob(id, toFile) {
      if (!isJobId(id)) return noSuchJob(id);
      try {
        const found = lookUpJob(places, id);
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
        return await jobs.takeIn(read.value);
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
    `This job's file is damaged (${why}); ${count} up to ${withZone(new Date(last))} can be had back from the ${from}, ` +
      `and the damaged file is kept aside.${missingWords(salvage.offer)}`,
    salvage.offer,
  );
}

const missingWords = ({ missing }: Offer): string =>
  missing === undefined ? ' No entry is missing.' : ` Missing: ${missing}. Answer that again.`;

/** Why a job can't be opened; nothing when it can. */
function faultOf(id: string, found: FoundJob, recover: boolean | undefined): Refused | undefined {
  if (found.kind === 'none') return noSuchJob(id);
  if (found.kind === 'newer') return newer(found.what);
  if (found.kind === 'damaged' && !(recover && found.salvage)) return damaged(found);
  return undefined;
}
