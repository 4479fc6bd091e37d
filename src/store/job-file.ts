/**
 * The text of a job file: JSON with one entry a line, each with a sum over itself and all before it,
 * so that a file cut off or altered anywhere still gives a proven good part.
 */
import { createHash } from 'node:crypto';
import type { Entry } from '../engine/journal/entry.js';
import { isRecord } from '../guards/guards.js';
import { entryFault, isKnownKind } from './check-entry.js';
import { isOldFormat, migrateOldJob } from './old-format.js';

/** The format that this version writes. */
export const jobFormat = 1;

/** Small facts that the first screen shows of a job without reading it. */
export type Summary = Readonly<Record<string, string | number | boolean>>;

/** A job as it stands on disk. */
export interface JobContent {
  readonly id: string;
  readonly name: string;
  readonly summary: Summary;
  readonly entries: readonly Entry[];
  /** The written line of each entry, kept so that a save need not write them anew. */
  readonly lines: readonly string[];
  /** Sum over all entries. */
  readonly end: string;
}

export type ReadJob =
  | { readonly kind: 'good'; readonly content: JobContent }
  | { readonly kind: 'damaged'; readonly why: string; readonly part?: JobContent }
  | { readonly kind: 'newer'; readonly what: string };

/** Finds damage, not malice: the first 64 bits of SHA-256. */
export function sumOf(text: string): string {
  return createHash('sha256').update(text).digest('hex').slice(0, 16);
}

/** A job's content with more entries at its end. */
export function withEntries(job: JobContent, more: readonly Entry[], summary: Summary = job.summary): JobContent {
  let end = job.end;
  const lines = more.map((entry) => {
    const json = JSON.stringify(entry);
    end = sumOf(end + json);
    return `["${end}",${json}]`;
  });
  return { ...job, summary, entries: [...job.entries, ...more], lines: [...job.lines, ...lines], end };
}

export function newContent(id: string, name: string, entries: readonly Entry[], summary: Summary = {}): JobContent {
  return withEntries({ id, name, summary, entries: [], lines: [], end: '' }, entries);
}

const headSum = (id: string, name: string, summary: Summary, count: number, end: string): string =>
  sumOf(JSON.stringify([jobFormat, id, name, summary, count, end]));

export function jobText(job: JobContent): string {
  const count = job.entries.length;
  const check = headSum(job.id, job.name, job.summary, count, job.end);
  const head = { format: jobFormat, id: job.id, name: job.name, summary: job.summary, count, end: job.end, check };
  return `${JSON.stringify(head).slice(0, -1)},"entries":[\n${job.lines.join(',\n')}\n]}\n`;
}

/** Whether a value can serve as a summary: small, flat, plain. */
export function isSummary(value: unknown): value is Summary {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return false;
  const plain = Object.values(value).every(
    (one) => typeof one === 'string' || typeof one === 'boolean' || (typeof one === 'number' && Number.isFinite(one)),
  );
  return plain && JSON.stringify(value).length <= 4000;
}

interface Head {
  readonly name: string;
  readonly summary: Summary;
  readonly count: number;
  readonly end: string;
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

function readHead(line: string): Head | { readonly newer: number } | undefined {
  const head = parse(`${line}]}`);
  if (!isRecord(head)) return undefined;
  const { format, id, name, summary, count, end, check } = head;
  if (typeof format === 'number' && format > jobFormat) return { newer: format };
  if (
    format !== jobFormat ||
    typeof id !== 'string' ||
    typeof name !== 'string' ||
    typeof end !== 'string' ||
    !isSummary(summary)
  )
    return undefined;
  if (typeof count !== 'number' || check !== headSum(id, name, summary, count, end)) return undefined;
  return { name, summary, count, end };
}

const entryLine = /^\["([0-9a-f]{16})",(\{.*\})\](,?)$/s;

interface Good {
  readonly entries: Entry[];
  readonly lines: string[];
  readonly end: string;
  readonly why?: string;
  readonly unknownKind?: string;
}

function readLines(rows: readonly string[]): Good {
  const entries: Entry[] = [];
  const lines: string[] = [];
  let end = '';
  const stop = (why: string): Good => ({ entries, lines, end, why: `entry ${entries.length + 1} ${why}` });
  for (let index = 1; index < rows.length; index++) {
    const row = rows[index]!;
    if (row === ']}') return { entries, lines, end };
    const match = entryLine.exec(row);
    if (!match) return stop('is cut off or garbled');
    const json = match[2]!;
    if (sumOf(end + json) !== match[1]) return stop('does not match its check sum');
    const entry = parse(json);
    const kind = isRecord(entry) ? entry.kind : undefined;
    if (typeof kind === 'string' && !isKnownKind(kind)) return { ...stop('is not known'), unknownKind: kind };
    const fault = entryFault(entry, entries.length + 1);
    if (fault) return stop(`is wrong (${fault})`);
    entries.push(entry as Entry);
    lines.push(`["${match[1]}",${json}]`);
    end = match[1]!;
  }
  return stop('is cut off');
}

/** Reads and proves the text of a job file. Never throws. */
export function readJobText(text: string, id: string): ReadJob {
  if (text === '') return { kind: 'damaged', why: 'the file is empty' };
  if (/^\0+$/.test(text)) return { kind: 'damaged', why: 'the file holds only zeros' };
  const rows = text.split(/\r?\n/);
  const head = readHead(rows[0]!);
  if (head && 'newer' in head) return { kind: 'newer', what: `format ${head.newer}` };
  if (!head) {
    const whole = parse(text);
    const format = isRecord(whole) ? whole.format : undefined;
    if (typeof format === 'number' && format > jobFormat) return { kind: 'newer', what: `format ${format}` };
    if (isOldFormat(whole)) return fromOld(whole, id);
  }
  const good = readLines(rows);
  if (good.unknownKind) return { kind: 'newer', what: `an entry of kind '${good.unknownKind.slice(0, 40)}'` };
  const { entries, lines, end } = good;
  const first = entries[0];
  if (!first) return { kind: 'damaged', why: good.why ?? 'the file holds no entry' };
  const name = head?.name ?? (first.kind === 'job' ? first.name : id);
  const part: JobContent = { id, name, summary: head?.summary ?? {}, entries, lines, end };
  if (good.why) return { kind: 'damaged', why: good.why, part };
  if (!head) return { kind: 'damaged', why: 'its first line is garbled', part };
  if (head.count !== entries.length || head.end !== end) {
    return { kind: 'damaged', why: `it says ${head.count} entries and holds ${entries.length}`, part };
  }
  return { kind: 'good', content: part };
}

function fromOld(whole: unknown, id: string): ReadJob {
  const old = migrateOldJob(whole);
  if (typeof old === 'string') return { kind: 'damaged', why: old };
  return { kind: 'good', content: newContent(id, old.name, old.entries) };
}
