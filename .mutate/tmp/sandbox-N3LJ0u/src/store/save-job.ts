/** The one place where a job file is replaced: previous generation first, then conf, then proof. */
// @ts-nocheck

import {
  closeSync,
  copyFileSync,
  fsyncSync,
  linkSync,
  lstatSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { makeFolder } from '../files/make-folder.js';
import { syncFolder } from '../files/new-file.js';
import { type ConfFile, confFile } from './conf-file.js';
import type { Places } from './data-folder.js';
import { type JobContent, jobFormat, jobText } from './job-file.js';
import { clearUnfinished } from './recover-job.js';
import { errorCode } from './trouble.js';

/** Tells one state of a file from another without reading it. */
export type Stamp = string;

export function stampOf(file: string): Stamp {
  const { ino, size, mtimeMs } = lstatSync(file);
  return `${ino}:${size}:${mtimeMs}`;
}

/** The same, or nothing when there is no such file. */
export function stampOrNone(file: string): Stamp | undefined {
  try {
    return stampOf(file);
  } catch (error) {
    if (errorCode(error) === 'ENOENT') return undefined;
    throw error;
  }
}

/** Keeps the file that is there now under another name, replacing what was kept there. */
function keep(from: string, to: string): void {
  makeFolder(dirname(to));
  if (!lstatSync(from).isFile()) {
    // A link is moved away rather than written through: its target is none of our business.
    renameSync(from, to);
    return;
  }
  const fresh = `${to}.new`;
  rmSync(fresh, { force: true });
  try {
    // A rewrite in place would reach through a link; conf falls back to one on Windows.
    if (process.platform === 'win32') throw Object.assign(new Error('copy'), { code: 'ENOTSUP' });
    linkSync(from, fresh);
  } catch (error) {
    if (['ENOENT', 'ENOSPC', 'EROFS', 'EACCES', 'EIO'].includes(errorCode(error))) throw error;
    copyFileSync(from, fresh);
    const handle = openSync(fresh, 'r+');
    try {
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
  }
  renameSync(fresh, to);
}

export interface JobWriter {
  /**
   * Makes `job` the content of its file, durably. When it throws, the file is as it was before.
   * @param backup where the file that is there now is kept: the previous generation, unless it is damaged
   * @returns the stamp of the new file
   */
  save(job: JobContent, backup?: string): Stamp;
}

/** A writer of one job's file. The caller holds the job's lock and has proven what is in the file. */
export async function jobWriter(places: Places, id: string): Promise<JobWriter> {
  const file = join(places.jobs, `${id}.json`);
  const previous = join(places.previous, `${id}.json`);
  let text = '';
  const conf: ConfFile = await confFile(places.jobs, id, () => text);
  const putBack = (before: Stamp | undefined, backup: string): void => {
    try {
      if (stampOrNone(file) !== before) {
        if (before) renameSync(backup, file);
        else rmSync(file, { force: true });
      }
      // The library removes its temporary file only later, and on a full disk each byte counts.
      clearUnfinished(places, id);
    } catch {
      // The error that led here is the one to tell; the next append proves the file again before it writes.
    }
  };
  return {
    save(job, backup = previous) {
      text = jobText(job);
      const before = stampOrNone(file);
      if (before) keep(file, backup);
      try {
        conf.write({ format: jobFormat });
        // A short write on a disk that is all but full raises no error in the library below conf.
        if (readFileSync(file, 'utf8') !== text) throw Object.assign(new Error('short write'), { code: 'ENOSPC' });
        syncFolder(places.jobs);
        return stampOf(file);
      } catch (error) {
        putBack(before, backup);
        throw error;
      } finally {
        text = '';
      }
    },
  };
}
