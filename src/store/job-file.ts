/**
 * The text of a job file: JSON with one entry a line, each with a sum over itself and all before it,
 * so that a file cut off or altered anywhere still gives a proven good part.
 */
import { createHash } from 'node:crypto';
import type { Entry } from '../engine/journal/entry.js';
import { isRecord } from '../guards/guards.js';
import { entryFault, isKnownKind } from './check-entry.js';
import { withZone } from './trouble.js';

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

/** Check number of a record: over all entries in their order, as its file ends with it; the same in each copy. */
export const recordSum = (entries: readonly Entry[]): string => newContent('', '', entries).end;

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
  /** What is wrong with the first line that does not go on from the one before. */
  readonly why?: string;
  readonly unknownKind?: string;
}

/**
 * The entries of a file that go on from those that are there. A line that does not is passed over: where one after it goes
 * on from the same entry, it was put in by somebody else.
 */
function readLines(rows: readonly string[], from: Pick<JobContent, 'entries' | 'lines' | 'end'>): Good {
  const entries = [...from.entries];
  const lines = [...from.lines];
  let { end } = from;
  let why: string | undefined;
  const good = (): Good => ({ entries, lines, end, ...(why ? { why } : {}) });
  const wrong = (index: number, what: string): void => {
    why ??= `line ${index + 1} (entry ${entries.length + 1}) ${what}`;
  };
  for (let index = 1; index < rows.length; index++) {
    const row = rows[index]!;
    if (row === ']}') return good();
    const match = entryLine.exec(row);
    const json = match?.[2] ?? '';
    if (!match) wrong(index, 'is cut off or garbled');
    else if (sumOf(end + json) !== match[1]) wrong(index, 'does not match its check sum');
    else {
      const entry = parse(json);
      const kind = isRecord(entry) ? entry.kind : undefined;
      if (typeof kind === 'string' && !isKnownKind(kind)) return { ...good(), unknownKind: kind };
      const fault = entryFault(entry, entries.length + 1);
      if (fault) wrong(index, `is wrong (${fault})`);
      else {
        entries.push(entry as Entry);
        lines.push(`["${match[1]}",${json}]`);
        end = match[1]!;
      }
    }
  }
  wrong(rows.length, 'is cut off');
  return good();
}

const rowsOf = (text: string): string[] => text.split(/\r?\n/);

/** A job with those entries of a damaged file of it that go on from its last one. */
export function wentOn(job: JobContent, text: string): JobContent {
  const { entries, lines, end } = readLines(rowsOf(text), job);
  return { ...job, entries, lines, end };
}

/** What can still be read of one entry, for a person. */
function remains(row: string): { readonly seq: number | undefined; readonly words: string } {
  const whole = parse(entryLine.exec(row)?.[2] ?? '');
  const of = (name: string): string | undefined => {
    const plain = isRecord(whole) ? whole[name] : undefined;
    if (typeof plain === 'string' || typeof plain === 'number') return String(plain);
    return new RegExp(`"${name}":(?:"([^"]*)"|(\\d+))`).exec(row)?.slice(1).find(Boolean);
  };
  const [seq, kind, step, key, place, at] = ['seq', 'kind', 'step', 'key', 'place', 'at'].map(of);
  const time = at === undefined || Number.isNaN(Date.parse(at)) ? undefined : withZone(new Date(at));
  const parts = [kind, step && `step ${step}`, key && `question ${key}`, place && `at ${place}`, time];
  return { seq: seq === undefined ? undefined : Number(seq), words: parts.filter(Boolean).join(', ') };
}

/** Lost entries that are named one by one. */
const NAMED_MOST = 6;

/** Which entries of a damaged file are not among those that are kept; undefined when none is. */
export function lostWords(text: string, kept: JobContent): string | undefined {
  const rows = rowsOf(text);
  const head = readHead(rows[0]!);
  const there = new Set(kept.lines);
  const last = kept.entries.length;
  const lost = new Map<number, string>();
  for (const [index, row] of rows.entries()) {
    if (index === 0 || row === '' || row === ']}' || there.has(row.replace(/,$/, ''))) continue;
    const { seq = index, words } = remains(row);
    if (seq > last) lost.set(seq, words || lost.get(seq) || '');
  }
  const count = head && 'count' in head ? head.count : undefined;
  for (let seq = last + 1; seq <= (count ?? 0) && lost.size <= NAMED_MOST; seq++) if (!lost.has(seq)) lost.set(seq, '');
  const named = [...lost].sort(([a], [b]) => a - b).slice(0, NAMED_MOST);
  const more = (count === undefined ? lost.size : Math.max(lost.size, count - last)) - named.length;
  const ended = rows.includes(']}');
  if (!named.length) return ended ? undefined : 'whatever was recorded after that';
  const said = named.map(([seq, words]) => `entry ${seq} (${words || 'nothing of it can be read'})`).join('; ');
  const rest = more > 0 ? `; and ${more} more` : '';
  return `${said}${rest}${count === undefined && !ended ? '; and whatever was recorded after that' : ''}`;
}

/** Reads and proves the text of a job file. Never throws. */
export function readJobText(text: string, id: string): ReadJob {
  if (text === '') return { kind: 'damaged', why: 'the file is empty' };
  if (/^\0+$/.test(text)) return { kind: 'damaged', why: 'the file holds only zeros' };
  const rows = rowsOf(text);
  const head = readHead(rows[0]!);
  if (head && 'newer' in head) return { kind: 'newer', what: `format ${head.newer}` };
  if (!head) {
    const whole = parse(text);
    const format = isRecord(whole) ? whole.format : undefined;
    if (typeof format === 'number' && format > jobFormat) return { kind: 'newer', what: `format ${format}` };
  }
  const good = readLines(rows, { entries: [], lines: [], end: '' });
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
