/** Reads a job and, when its file is damaged, finds the best that can be had back. Reading changes nothing. */
import { lstatSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { makeFolder } from '../files/make-folder.js';
import type { Places } from './data-folder.js';
import { type JobContent, lostWords, type ReadJob, readJobText, wentOn } from './job-file.js';
import { errorCode, type Offer } from './trouble.js';

/** Job files larger than this are not read, in bytes. */
export const largestFile = 64 * 1024 * 1024;

interface Salvage {
  readonly offer: Offer;
  readonly content: JobContent;
}

export type FoundJob =
  | { readonly kind: 'good'; readonly content: JobContent }
  | { readonly kind: 'newer'; readonly what: string }
  | { readonly kind: 'none' }
  | { readonly kind: 'damaged'; readonly why: string; readonly salvage?: Salvage };

/** One file of a job, with its text where it is damaged. */
type One = ReadJob & { readonly text?: string };

/** Reads one file of a job. Throws the system's error, except when there is no such file. */
function readOne(file: string, id: string): One | undefined {
  try {
    const stat = lstatSync(file);
    if (!stat.isFile()) return { kind: 'damaged', why: 'it is no ordinary file' };
    if (stat.size > largestFile) return { kind: 'damaged', why: 'it is larger than 64 MB' };
    const text = readFileSync(file, 'utf8');
    const read = readJobText(text, id);
    return read.kind === 'damaged' ? { ...read, text } : read;
  } catch (error) {
    if (errorCode(error) === 'ENOENT') return undefined;
    throw error;
  }
}

function contentOf(read: One | undefined): JobContent | undefined {
  if (read?.kind === 'good') return read.content;
  return read?.kind === 'damaged' ? read.part : undefined;
}

/** Files that a save cut short left beside the job. */
function unfinishedSaves(places: Places, id: string): string[] {
  const start = `${id}.json.tmp-`;
  return readdirSync(places.jobs)
    .filter((name) => name.startsWith(start))
    .map((name) => join(places.jobs, name));
}

function offerOf(content: JobContent, from: Offer['from']): Salvage {
  return { content, offer: { entries: content.entries.length, from, last: content.entries.at(-1)!.at } };
}

/** The best that can be had back, with what the damaged file itself holds beyond it, and which entries of it are missing. */
function salvageOf(places: Places, id: string, own: One | undefined): Salvage | undefined {
  const best = bestOf(places, id, contentOf(own));
  if (!best) return undefined;
  const { content, offer } = offerOf(wentOn(best.content, own?.text ?? ''), best.offer.from);
  const missing = lostWords(own?.text ?? '', content);
  return { content, offer: missing === undefined ? offer : { ...offer, missing } };
}

/** The most complete proven content among a save cut short, the previous generation and the file's own good part. */
function bestOf(places: Places, id: string, own: JobContent | undefined): Salvage | undefined {
  const found: Salvage[] = [];
  const previous = contentOf(readQuietly(join(places.previous, `${id}.json`), id));
  if (previous) found.push(offerOf(previous, 'previous save'));
  if (own) found.push(offerOf(own, 'good part'));
  for (const file of unfinishedSaves(places, id)) {
    const read = readQuietly(file, id);
    if (read?.kind === 'good') found.push(offerOf(read.content, 'unfinished save'));
  }
  return found.reduce<Salvage | undefined>(
    (best, one) => (best && best.offer.entries >= one.offer.entries ? best : one),
    undefined,
  );
}

function readQuietly(file: string, id: string): One | undefined {
  try {
    return readOne(file, id);
  } catch {
    return undefined;
  }
}

/** Reads a job. Throws the system's error when its file is there and can't be read. */
export function lookUpJob(places: Places, id: string): FoundJob {
  const read = readOne(join(places.jobs, `${id}.json`), id);
  if (read?.kind === 'good' || read?.kind === 'newer') return read;
  let salvage: Salvage | undefined;
  try {
    salvage = salvageOf(places, id, read);
  } catch (error) {
    if (errorCode(error) !== 'ENOENT') throw error;
  }
  if (!read && !salvage) return { kind: 'none' };
  const why = read ? read.why : 'its file is missing';
  return salvage ? { kind: 'damaged', why, salvage } : { kind: 'damaged', why };
}

/** A free name under `damaged/`, where nothing is ever overwritten. */
export function damagedName(places: Places, id: string, at: string): string {
  makeFolder(places.damaged);
  const stamp = at.replace(/\D/g, '').slice(0, 14);
  const names = new Set(readdirSync(places.damaged));
  let turn = 1;
  while (names.has(`${id}-${stamp}-${turn}.json`)) turn++;
  return join(places.damaged, `${id}-${stamp}-${turn}.json`);
}

/** Clears what saves cut short left behind. Only for the holder of the lock, and only beside a good file. */
export function clearUnfinished(places: Places, id: string): void {
  for (const file of unfinishedSaves(places, id)) rmSync(file, { force: true });
}
