/**
 * One writer a job. Who holds the lock freshens its folder each second, so a lock that a crash left behind is known by
 * its age; one whose owner is a dead process of this computer is known at once.
 */
import { existsSync, readFileSync, renameSync, rmdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import type { Places } from './data-folder.js';
import { byDiskClock, diskTime } from './disk-clock.js';
import { errorCode } from './trouble.js';

/** A lock of an unknown owner that was not refreshed for this long is left over, in milliseconds. */
const staleAfter = 5000;

interface Owner {
  readonly pid: number;
  readonly host: string;
  /** When that process started, so that a reused number is told apart; empty where the system doesn't say. */
  readonly start: string;
  readonly token: string;
}

export interface JobLock {
  /**
   * Who else holds the job now; nothing while it is ours. A lock that went missing (drive unplugged, window
   * suspended) is taken again when nobody has it. Throws the system's error when the folder can't be written.
   */
  heldBy(): string | undefined;
  release(): void;
}

const held = new Set<string>();

function processStart(pid: number): string {
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, 'utf8');
    return stat.slice(stat.lastIndexOf(')') + 2).split(' ')[19] ?? '';
  } catch {
    return '';
  }
}

/** Whether the owner, a process of this computer, lives; undefined where its number may be another's by now. */
function isAlive(owner: Owner): boolean | undefined {
  if (owner.pid === process.pid) return held.has(owner.token);
  try {
    process.kill(owner.pid, 0);
  } catch (error) {
    if (errorCode(error) !== 'EPERM') return false;
  }
  const start = processStart(owner.pid);
  return start === '' || owner.start === '' ? undefined : start === owner.start;
}

function readOwner(file: string): Owner | undefined {
  try {
    const owner = JSON.parse(readFileSync(file, 'utf8')) as Owner;
    return Number.isSafeInteger(owner.pid) && owner.pid > 0 && typeof owner.token === 'string' ? owner : undefined;
  } catch {
    return undefined;
  }
}

/**
 * Whether nobody holds the lock any more. A process of this computer that surely lives keeps it, also while it is
 * stopped; one that surely died does not. Anybody else is judged by the age of the lock (also when the clock was set
 * back meanwhile): a computer's name changes, and a folder is copied to another one.
 */
function isLeftOver(owner: Owner | undefined, folder: string): boolean {
  const lockedMs = statSync(folder).mtimeMs;
  const alive = owner && owner.host === hostname() ? isAlive(owner) : undefined;
  return alive === undefined ? Math.abs(diskTime(folder) - lockedMs) > staleAfter : !alive;
}

/** Who holds the lock; nothing when it is free or left over (which is then cleared away). No folder is no lock. */
function holder(folder: string, owner: Owner | undefined): string | undefined {
  try {
    if (!isLeftOver(owner, folder)) return owner ? describe(owner) : 'another window';
    rmdirSync(folder);
  } catch (error) {
    if (errorCode(error) !== 'ENOENT') throw error;
  }
  return undefined;
}

const describe = (owner: Owner): string =>
  owner.host === hostname() ? `process ${owner.pid}` : `process ${owner.pid} on the computer ${owner.host}`;

/**
 * Takes the lock of a job.
 * @returns the lock, or who holds it; throws the system's error when the folder can't be written
 */
export async function lockJob(places: Places, id: string): Promise<JobLock | { readonly other: string }> {
  const { lockSync, unlockSync } = (await import('proper-lockfile')).default;
  const folder = join(places.locks, `${id}.lock`);
  const ownerFile = join(places.locks, `${id}.owner`);
  const target = join(places.jobs, `${id}.json`);
  const token = `${process.pid}-${Date.now()}-${Math.random().toString(36).slice(2)}`;
  const options = { realpath: false, lockfilePath: folder, stale: staleAfter, update: 1000, fs: byDiskClock() };
  let ours = false;

  const sign = (): void => {
    const me: Owner = { pid: process.pid, host: hostname(), start: processStart(process.pid), token };
    // Under a name of its own first: a link that lies in its place is replaced, not written through.
    const fresh = `${ownerFile}.${process.pid}.new`;
    rmSync(fresh, { force: true });
    writeFileSync(fresh, JSON.stringify(me), { mode: 0o600, flag: 'wx' });
    renameSync(fresh, ownerFile);
  };
  /** Of a lock that went missing the library still keeps the time: nothing on the disk is touched by it any more. */
  const forget = (): void => {
    try {
      unlockSync(target, { ...options, fs: { ...options.fs, rmdirSync: () => undefined } });
    } catch {
      // None was kept.
    }
  };
  const release = (): void => {
    held.delete(token);
    if (!ours) return;
    ours = false;
    try {
      if (readOwner(ownerFile)?.token === token) rmSync(ownerFile, { force: true });
      unlockSync(target, options);
    } catch {
      // A lock that can't be removed now is recognised by its dead owner later.
    }
  };
  const take = (): string | undefined => {
    const other = holder(folder, readOwner(ownerFile));
    if (other) return other;
    forget();
    try {
      lockSync(target, { ...options, onCompromised: () => (ours = false) });
    } catch (error) {
      if (errorCode(error) !== 'ELOCKED') throw error;
      return 'another window';
    }
    ours = true;
    held.add(token);
    try {
      sign();
    } catch (error) {
      release();
      throw error;
    }
    return undefined;
  };

  const other = take();
  if (other) return { other };
  return {
    heldBy() {
      const owner = readOwner(ownerFile);
      if (ours && owner?.token === token) return undefined;
      if (ours && !owner && existsSync(folder)) {
        sign();
        return undefined;
      }
      ours = false;
      held.delete(token);
      return take();
    },
    release,
  };
}
