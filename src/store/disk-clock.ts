/**
 * Time by the clock of the disk, which on a shared drive is not this computer's. A lock is kept fresh by it and judged by
 * it, so that laptops whose clocks differ see each other's locks alike.
 */
import fs, { type PathLike, type Stats } from 'node:fs';
import { dirname } from 'node:path';

const probeOf = (folder: string): string => `${folder}.${process.pid}.now`;

/** A probe that a share left behind when it went away is cleared by the next one. */
function clearProbe(folder: string): void {
  try {
    fs.rmSync(probeOf(folder), { force: true });
  } catch {
    // Nothing can be removed there now.
  }
}

/** How far the clock of the disk that a folder lies on was ahead of this computer's when it was last read. */
const ahead = new Map<string, number>();

/**
 * Milliseconds by the clock of the disk that the folder lies on. Where nothing can be written there now, as when the disk
 * is full, by what is known of it; throws the system's error where nothing is.
 */
export function diskTime(folder: string): number {
  clearProbe(folder);
  try {
    fs.writeFileSync(probeOf(folder), '', { mode: 0o600, flag: 'wx' });
    const now = fs.statSync(probeOf(folder)).mtimeMs;
    ahead.set(dirname(folder), now - Date.now());
    return now;
  } catch (error) {
    const known = ahead.get(dirname(folder));
    if (known === undefined) throw error;
    return Date.now() + known;
  } finally {
    clearProbe(folder);
  }
}

/**
 * What the lock library needs of a file system: it believes that it stamps its lock with this computer's time, and the
 * lock gets the disk's. What it stamped reads back as it stamped it; what somebody else did, by this computer's time.
 */
export function byDiskClock() {
  const own = new Map<string, { readonly told: number; readonly stamped: number }>();
  const { mkdirSync, realpathSync } = fs;
  return {
    ...{ mkdirSync, realpathSync },
    utimesSync(path: PathLike, _atime: Date, mtime: Date): void {
      const seconds = diskTime(String(path)) / 1000;
      fs.utimesSync(path, seconds, seconds);
      own.set(String(path), { told: mtime.getTime(), stamped: fs.statSync(path).mtimeMs });
    },
    statSync(path: PathLike): Stats {
      const stat = fs.statSync(path);
      const mine = own.get(String(path));
      stat.mtime = new Date(
        mine?.stamped === stat.mtimeMs ? mine.told : stat.mtimeMs + Date.now() - diskTime(String(path)),
      );
      return stat;
    },
    rmdirSync(path: PathLike): void {
      own.delete(String(path));
      clearProbe(String(path));
      fs.rmdirSync(path);
    },
  };
}
