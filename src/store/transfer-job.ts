/** One job as one file, to hand over or keep: checked entry by entry on the way in, never overwriting on the way out. */
import { readFileSync, type Stats, statSync } from 'node:fs';
import { dirname } from 'node:path';
import type { Entry } from '../engine/journal/entry.js';
import { syncFolder, writeNewFile } from '../files/new-file.js';
import { codeOf, isRecord } from '../guards/guards.js';
import { safeText } from '../text/safe-text.js';
import { isKnownKind, journalFault } from './check-entry.js';
import { isSummary, type JobContent, type Summary, sumOf } from './job-file.js';
import { largestFile } from './recover-job.js';
import { done, type Result, refused } from './trouble.js';

/** The format of export files that this version writes. */
const transferFormat = 1;

export interface TransferJob {
  readonly name: string;
  readonly entries: readonly Entry[];
  readonly summary: Summary;
}

/** The check sum of a job; nothing when it is nested too deep to be one. */
function sumOfJob(name: string, procedure: unknown, summary: Summary, entries: unknown): string | undefined {
  try {
    return sumOf(JSON.stringify([transferFormat, name, procedure, summary, entries]));
  } catch {
    return undefined;
  }
}

/** Writes a job to a file that must not exist yet. Throws the system's error and then leaves no file. */
export function writeTransfer(job: JobContent, file: string): void {
  const { name, summary, entries } = job;
  const first = entries[0];
  const procedure =
    first?.kind === 'job' ? { id: first.procedure, version: first.version, hash: first.hash } : undefined;
  const checksum = sumOfJob(name, procedure, summary, entries);
  const text = JSON.stringify({
    rotorside: 'job',
    format: transferFormat,
    name,
    procedure,
    summary,
    checksum,
    entries,
  });
  writeNewFile(file, `${text}\n`);
  syncFolder(dirname(file));
}

const notOurs = (): ReturnType<typeof refused> =>
  refused('invalid', 'This file is no job exported by rotorside; pick a file that the export command wrote.');

function damagedFile(why: string): ReturnType<typeof refused> {
  return refused('damaged', `This file is damaged (${why}); nothing was imported, so export the job again.`);
}

function statOf(file: string): Stats | 'too long' | undefined {
  try {
    return statSync(file, { throwIfNoEntry: false });
  } catch (e) {
    if (codeOf(e) === 'ENAMETOOLONG') return 'too long';
    throw e;
  }
}

/** Reads and proves an export file. Throws the system's error when it can't be read. */
export function readTransfer(file: string): Result<TransferJob> {
  const stat = statOf(file);
  if (stat === 'too long') return refused('gone', 'There is no such file: its name is too long.');
  if (!stat) return refused('gone', `There is no file ${safeText(file)}; name the file that the export command wrote.`);
  if (!stat.isFile()) return notOurs();
  if (stat.size > largestFile) return refused('too-large', 'This file is larger than 64 MB, so it is no exported job.');
  return readTransferText(readFileSync(file, 'utf8'));
}

/** Reads and proves the text of an export file. Never throws. */
export function readTransferText(text: string): Result<TransferJob> {
  let whole: unknown;
  try {
    // Editors of some systems put a mark of the byte order in front.
    whole = JSON.parse(text.replace(/^\ufeff/, ''));
  } catch {
    return text.trimStart().startsWith('{') ? damagedFile('it is cut off or garbled') : notOurs();
  }
  if (!isRecord(whole)) return notOurs();
  const { rotorside, format, name, procedure, summary, checksum, entries } = whole;
  if (rotorside !== 'job') return notOurs();
  if (typeof format === 'number' && format > transferFormat) {
    return refused(
      'newer',
      `This file was exported by a newer version of rotorside (format ${format}); update rotorside.`,
    );
  }
  if (format !== transferFormat) return notOurs();
  if (typeof name !== 'string' || name === '' || name.length > 200) return damagedFile('it has no proper name');
  if (!isSummary(summary)) return damagedFile('its summary is wrong');
  if (typeof checksum !== 'string' || checksum !== sumOfJob(name, procedure, summary, entries))
    return damagedFile('its check sum does not match');
  const strange = Array.isArray(entries) ? entries.find((entry) => entry?.kind && !isKnownKind(entry.kind)) : undefined;
  if (strange) return refused('newer', 'This file holds entries that only a newer version knows; update rotorside.');
  const fault = journalFault(entries);
  if (fault) return damagedFile(fault);
  return done({ name, entries: entries as Entry[], summary });
}
