/**
 * What the first screen shows of every job, in one file that is only a cache: a line a change, the last one counts.
 * Anything odd in it, and it is built anew from the jobs. The order of the lines is the order of the work, whatever the
 * clock said meanwhile: what was worked on last stands last.
 */
import { appendFileSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { isRecord } from '../guards/guards.js';
import type { Places } from './data-folder.js';
import { isSummary, type JobContent, type Summary } from './job-file.js';
import { isJobId } from './job-id.js';
import { lookUpJob } from './recover-job.js';
import { errorCode } from './trouble.js';

export interface JobHead {
  readonly id: string;
  readonly name: string;
  /** Which practice rotor, when it is one. */
  readonly practice?: string;
  /** Initials of whose practice it is. */
  readonly whose?: string;
  /** Procedure id. */
  readonly procedure: string;
  /** ISO instant of the last entry. */
  readonly changed: string;
  /** Number of entries. */
  readonly entries: number;
  /** What the caller gave at the last save. */
  readonly summary: Summary;
  /** Why the job can't simply be opened. */
  readonly fault?: string;
}

export function headOf(job: JobContent): JobHead {
  const first = job.entries[0];
  return {
    id: job.id,
    name: job.name,
    ...(first?.kind === 'job' && first.practice !== undefined
      ? { practice: first.practice, whose: first.apprentice ?? first.by }
      : {}),
    procedure: first?.kind === 'job' ? first.procedure : '',
    changed: job.entries.at(-1)?.at ?? '',
    entries: job.entries.length,
    summary: job.summary,
  };
}

/** Adds a job's new head. A failure is swallowed: the index is rebuilt when it lags behind. */
export function noteHead(places: Places, head: JobHead): void {
  try {
    // The line break comes first, so that a line cut off by a full disk spoils only itself.
    appendFileSync(places.index, `\n${JSON.stringify(head)}`, { mode: 0o600 });
  } catch {
    rmQuietly(places.index);
  }
}

function rmQuietly(file: string): void {
  try {
    rmSync(file, { force: true });
  } catch {
    // Nothing can be written there now; a lagging index is noticed by its time.
  }
}

export function isHead(value: unknown): value is JobHead {
  const head = isRecord(value) ? value : {};
  return (
    isJobId(head.id) &&
    typeof head.name === 'string' &&
    typeof head.procedure === 'string' &&
    typeof head.changed === 'string' &&
    Number.isSafeInteger(head.entries) &&
    isSummary(head.summary) &&
    (head.practice === undefined || typeof head.practice === 'string') &&
    (head.whose === undefined || typeof head.whose === 'string') &&
    (head.fault === undefined || typeof head.fault === 'string')
  );
}

interface Cached {
  readonly heads: Map<string, JobHead>;
  readonly lines: number;
  readonly mtimeMs: number;
}

/** The index as it is, or nothing when it is missing or damaged. */
function readIndex(file: string): Cached | undefined {
  try {
    const { mtimeMs } = statSync(file);
    const lines = readFileSync(file, 'utf8').split('\n');
    const heads = headsIn(lines);
    return heads && { heads, lines: lines.length, mtimeMs };
  } catch {
    return undefined;
  }
}

/** By job, the last line of each, in the order of these; nothing when one of the lines is no head. */
export function headsIn(lines: readonly string[]): Map<string, JobHead> | undefined {
  const heads = new Map<string, JobHead>();
  for (const line of lines) {
    if (line === '') continue;
    const head: unknown = JSON.parse(line);
    if (!isHead(head)) return undefined;
    // Taken out first, so that it comes to stand last.
    heads.delete(head.id);
    heads.set(head.id, head);
  }
  return heads;
}

/** The head of a job as its file has it now; with its fault, when it has one. */
export function headFromFile(places: Places, id: string): JobHead | undefined {
  const broken = (fault: string): JobHead => ({
    id,
    name: id,
    procedure: '',
    changed: '',
    entries: 0,
    summary: {},
    fault,
  });
  try {
    const found = lookUpJob(places, id);
    if (found.kind === 'good') return headOf(found.content);
    if (found.kind === 'none') return undefined;
    if (found.kind === 'newer') return broken('It was written by a newer version of rotorside.');
    const fault = `Its file is damaged: ${found.why}.`;
    return found.salvage ? { ...headOf(found.salvage.content), fault } : broken(fault);
  } catch (error) {
    return broken(`Its file can't be read (${errorCode(error)}).`);
  }
}

function writeIndex(places: Places, heads: Iterable<JobHead>): void {
  const fresh = `${places.index}.${process.pid}.new`;
  try {
    writeFileSync(fresh, [...heads].map((head) => `\n${JSON.stringify(head)}`).join(''), { mode: 0o600 });
    renameSync(fresh, places.index);
  } catch {
    rmQuietly(fresh);
  }
}

/**
 * Every job in the folder, the one that was worked on last first. One read of names, one read of the index.
 * Throws the system's error when the folder is there and can't be read.
 */
export function headsByWork(places: Places): JobHead[] {
  const { ids, changedMs } = readNames(places);
  if (ids.length === 0) return [];
  const cached = readIndex(places.index);
  // Saves change the folder first and the index next: an index older than the folder has missed one, and one as old may
  // have: the clock of files has steps, and a program that is killed between the two leaves both in one.
  const lags = cached !== undefined && cached.mtimeMs <= changedMs;
  const stale = (id: string): boolean =>
    !cached?.heads.has(id) || (lags && changedSince(join(places.jobs, `${id}.json`), cached.mtimeMs));
  let renewed = !cached || lags || cached.lines > 2 * ids.length + 1000;
  const order = new Map([...(cached?.heads.keys() ?? [])].map((id, at) => [id, at]));
  const heads: JobHead[] = [];
  // What the index does not know was changed behind it.
  const news: JobHead[] = [];
  for (const id of ids) {
    const isStale = stale(id);
    const head = isStale ? headFromFile(places, id) : cached?.heads.get(id);
    if (isStale) renewed = true;
    if (head) (isStale ? news : heads).push(head);
  }
  heads.sort((a, b) => (order.get(a.id) ?? 0) - (order.get(b.id) ?? 0));
  const all = [...heads, ...byStamp(places, news)];
  if (renewed) writeIndex(places, all);
  return all.reverse();
}

/**
 * Every job in the folder as the first screen lists them: unfinished real work first, then what is finished and what is
 * practice; in both the one that was worked on last first. Throws as `headsByWork` does.
 */
export const listHeads = (places: Places): JobHead[] => openWorkFirst(headsByWork(places));

/** Unfinished work on a real machine: practice, whose clock runs ahead, never stands before it. */
export const isOpenWork = (head: JobHead): boolean => head.practice === undefined && head.summary.finished !== true;

export const openWorkFirst = (heads: readonly JobHead[]): JobHead[] => [
  ...heads.filter(isOpenWork),
  ...heads.filter((h) => !isOpenWork(h)),
];

/** Oldest first, where nothing but stamps tells. Those of practice may lie ahead of the time at which it was saved. */
function byStamp(places: Places, heads: readonly JobHead[]): JobHead[] {
  const when = new Map(
    heads.map(({ id, changed, practice }) => {
      const stamp = Date.parse(changed) || 0;
      if (practice === undefined) return [id, stamp];
      return [id, Math.min(stamp, statSync(join(places.jobs, `${id}.json`), { throwIfNoEntry: false })?.mtimeMs ?? 0)];
    }),
  );
  return [...heads].sort((a, b) => (when.get(a.id) ?? 0) - (when.get(b.id) ?? 0) || (a.id < b.id ? 1 : -1));
}

function readNames(places: Places): { ids: string[]; changedMs: number } {
  try {
    const { mtimeMs } = statSync(places.jobs);
    const names = readdirSync(places.jobs).filter((name) => name.endsWith('.json'));
    return { ids: names.map((name) => name.slice(0, -5)).filter(isJobId), changedMs: mtimeMs };
  } catch (error) {
    if (errorCode(error) === 'ENOENT') return { ids: [], changedMs: 0 };
    throw error;
  }
}

function changedSince(file: string, whenMs: number): boolean {
  try {
    return statSync(file).mtimeMs >= whenMs;
  } catch {
    return true;
  }
}
