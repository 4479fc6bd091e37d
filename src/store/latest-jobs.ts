/**
 * The jobs that changed last, for a folder of very many: what the last listing gave is kept in one file, so that a start
 * need not read the head of every job. It is a cache of a cache: anything odd in it, and all jobs are listed.
 */
import {
  closeSync,
  fstatSync,
  openSync,
  readdirSync,
  readFileSync,
  readSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import type { Places } from './data-folder.js';
import { headsIn, isHead, isOpenWork, type JobHead, listHeads, openWorkFirst } from './job-index.js';

export interface Latest {
  /** As the first screen lists them. */
  readonly jobs: readonly JobHead[];
  /** How many there are in all. */
  readonly count: number;
}

/** Fewer are read faster than they are kept. */
const worthKeeping = 200;
/** Jobs kept; more than any screen shows at once. */
const kept = 24;
/** A folder's time may not tell two changes apart that follow each other within this, in ms. */
const sameMoment = 100;
/** The index is gone through, and so made small, when it has grown by this many bytes. */
const mostGrowth = 500_000;

/** Bytes of the index before where it ended that must stand there still: another index may be just as long. */
const tailBytes = 200;

/** What the file holds; the names of all jobs lie in a file beside it, which changes less often. */
interface Head {
  readonly format: 1;
  readonly count: number;
  readonly jobs: readonly JobHead[];
  /** The folder of jobs and the index as they were read. */
  readonly folderMs: number;
  readonly seenMs: number;
  readonly indexMs: number;
  readonly indexBytes: number;
  /** The last bytes of the index as it was read, in base64. */
  readonly tail: string;
  /** Bytes of the index when all jobs were last listed. */
  readonly listedBytes: number;
  /** The file of names that belongs to it. */
  readonly names: string;
}

/** Throws the system's error when the folder is there and can't be read. */
export function latestHeads(places: Places): Latest {
  const now = stateOf(places);
  const head = now && readHead(places.latest);
  if (head && now.indexMs === head.indexMs && now.indexBytes === head.indexBytes) {
    const settled = now.folderMs === head.folderMs && head.seenMs - head.folderMs > sameMoment;
    if (settled) return head;
  }
  return (head && now && caughtUp(places, head, now)) || listed(places);
}

type FolderState = Pick<Head, 'folderMs' | 'indexMs' | 'indexBytes'>;

function stateOf(places: Places): FolderState | undefined {
  try {
    const index = statSync(places.index);
    return { folderMs: statSync(places.jobs).mtimeMs, indexMs: index.mtimeMs, indexBytes: index.size };
  } catch {
    return undefined;
  }
}

function readHead(file: string): Head | undefined {
  try {
    const head = JSON.parse(readFileSync(file, 'utf8')) as Head;
    return head.format === 1 && Array.isArray(head.jobs) && head.jobs.length === kept && head.jobs.every(isHead)
      ? head
      : undefined;
  } catch {
    return undefined;
  }
}

function bytesOf(file: string, from: number, to?: number): Buffer {
  const handle = openSync(file, 'r');
  try {
    const bytes = Buffer.alloc(Math.max(0, (to ?? fstatSync(handle).size) - from));
    return bytes.subarray(0, readSync(handle, bytes, 0, bytes.length, from));
  } finally {
    closeSync(handle);
  }
}

const tailOf = (file: string, end: number): string =>
  bytesOf(file, Math.max(0, end - tailBytes), end).toString('base64');

/** The same jobs as before, some of which were worked on since: what the index has gained tells which. */
function caughtUp(places: Places, head: Head, now: FolderState): Latest | undefined {
  // An index older than the folder has missed a change.
  if (now.indexMs < now.folderMs || now.indexBytes < head.indexBytes) return undefined;
  if (now.indexBytes > head.listedBytes + mostGrowth) return undefined;
  try {
    if (head.names !== stampOf(places) || !sameNames(namesIn(places), readFileSync(places.latestNames, 'utf8')))
      return undefined;
    if (tailOf(places.index, head.indexBytes) !== head.tail) return undefined;
    const gained = headsIn(bytesOf(places.index, head.indexBytes).toString('utf8').split('\n'));
    if (!gained) return undefined;
    // Whoever was worked on stands first among its like. One that was finished since, where the kept ones are all
    // unfinished, gives way to one that is not known here.
    const worked = [...gained.values()].reverse();
    const lowest = head.jobs.at(-1);
    if (
      lowest &&
      isOpenWork(lowest) &&
      head.jobs.some((j) => isOpenWork(j) && gained.has(j.id) && !isOpenWork(gained.get(j.id)!))
    )
      return undefined;
    const jobs = openWorkFirst([...worked, ...head.jobs.filter((j) => !gained.has(j.id))]).slice(0, kept);
    const tail = tailOf(places.index, now.indexBytes);
    replace(places.latest, JSON.stringify({ ...head, ...now, tail, jobs, seenMs: Date.now() } satisfies Head));
    return { jobs, count: head.count };
  } catch {
    return undefined;
  }
}

const namesIn = (places: Places): string => readdirSync(places.jobs).join('\n');

function stampOf(places: Places): string {
  const { ino, size, mtimeMs } = statSync(places.latestNames);
  return `${ino}:${size}:${mtimeMs}`;
}

function sameNames(a: string, b: string): boolean {
  // Some file systems give them in another order after a save.
  return a === b || (a.length === b.length && a.split('\n').sort().join('\n') === b.split('\n').sort().join('\n'));
}

function listed(places: Places): Latest {
  const before = stateOf(places);
  const names = before ? namesIn(places) : '';
  const jobs = listHeads(places);
  const latest = { jobs: jobs.slice(0, kept), count: jobs.length };
  const now = jobs.length >= worthKeeping ? stateOf(places) : undefined;
  // Where something changed meanwhile, the next start keeps it.
  if (before && now && before.folderMs === now.folderMs && before.indexMs === now.indexMs) {
    try {
      const seenMs = Date.now();
      replace(places.latestNames, names);
      const head = {
        format: 1,
        ...now,
        ...latest,
        seenMs,
        tail: tailOf(places.index, now.indexBytes),
        listedBytes: now.indexBytes,
        names: stampOf(places),
      } as const;
      replace(places.latest, JSON.stringify(head satisfies Head));
    } catch {
      // It is only quicker with it.
    }
  }
  return latest;
}

function replace(file: string, text: string): void {
  const fresh = `${file}.${process.pid}.new`;
  try {
    writeFileSync(fresh, text, { mode: 0o600 });
    renameSync(fresh, file);
  } catch {
    // It is only quicker with it.
    rmSync(fresh, { force: true });
  }
}
