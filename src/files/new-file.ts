/** Files that are written whole or not at all, and that survive a power cut. */
import { closeSync, fsyncSync, openSync, renameSync, rmSync, writeSync } from 'node:fs';
import { dirname } from 'node:path';
import { codeOf } from '../guards/guards.js';

/** Writes a file that is not there yet. Throws the system's error, EEXIST when there is such a file already, and then leaves no part of its own behind. */
export function writeNewFile(file: string, content: string | Uint8Array): void {
  const bytes = typeof content === 'string' ? Buffer.from(content) : content;
  const handle = openSync(file, 'wx', 0o600);
  try {
    for (let at = 0; at < bytes.length; ) at += writeSync(handle, bytes, at);
    fsyncSync(handle);
  } catch (error) {
    closeSync(handle);
    rmSync(file, { force: true });
    throw error;
  }
  closeSync(handle);
}

/** Puts a file in the place of another, or of none. Throws the system's error and then leaves the old one. */
export function replaceFile(file: string, text: string): void {
  const fresh = `${file}.${process.pid}.new`;
  rmSync(fresh, { force: true });
  writeNewFile(fresh, text);
  try {
    renameSync(fresh, file);
  } catch (error) {
    rmSync(fresh, { force: true });
    throw error;
  }
  syncFolder(dirname(file));
}

/** Makes a rename inside a folder survive a power cut. */
export function syncFolder(folder: string): void {
  // Windows can't open a folder; its journal keeps the rename.
  if (process.platform === 'win32') return;
  const handle = openSync(folder, 'r');
  try {
    fsyncSync(handle);
  } catch (error) {
    // Some network and removable file systems can't do this for a folder; there is no more that we could do.
    if (!['EINVAL', 'ENOTSUP', 'ENOSYS', 'EBADF'].includes(codeOf(error) ?? '')) throw error;
  } finally {
    closeSync(handle);
  }
}
