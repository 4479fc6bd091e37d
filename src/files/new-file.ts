/** A file that is written whole or not at all, and never over another. */
import { closeSync, fsyncSync, openSync, rmSync, writeSync } from 'node:fs';

/** Throws the system's error, EEXIST when there is such a file already, and then leaves no part of its own behind. */
export function writeNewFile(file: string, text: string): void {
  const bytes = Buffer.from(text);
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
