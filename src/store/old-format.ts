/**
 * Format 0, the first one: `{format: 0, name, log: [{t, who, what, …}]}`, t in milliseconds since 1970,
 * who the initials, what the kind of the entry; entries were numbered by their place in the list.
 */
import type { Entry } from '../engine/journal/entry.js';
import { isRecord } from '../guards/guards.js';
import { journalFault } from './check-entry.js';

export interface OldJob {
  readonly name: string;
  readonly entries: readonly Entry[];
}

export function isOldFormat(value: unknown): boolean {
  return isRecord(value) && value.format === 0;
}

/** A job of format 0 as today's entries, or what is wrong with it. */
export function migrateOldJob(value: unknown): OldJob | string {
  const { name, log }: Readonly<Record<string, unknown>> = isRecord(value) ? value : {};
  if (typeof name !== 'string' || !Array.isArray(log)) return 'a job of format 0 should have a name and a log';
  const entries: unknown[] = [];
  for (const [index, item] of log.entries()) {
    const { t, who, what, ...rest }: Readonly<Record<string, unknown>> = isRecord(item) ? item : {};
    const at = new Date(typeof t === 'number' ? t : Number.NaN);
    if (Number.isNaN(at.getTime())) return `entry ${index + 1}: t should be a time in milliseconds`;
    entries.push({ ...rest, kind: what, by: who, seq: index + 1, at: at.toISOString() });
  }
  const fault = journalFault(entries);
  return fault ?? { name, entries: entries as Entry[] };
}
