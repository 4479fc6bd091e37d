/** What can go wrong with jobs on disk, as data: one sentence for the person, one code for the program. */
import { codeOf } from '../guards/guards.js';
import { safeText } from '../text/safe-text.js';

export type TroubleCode =
  | 'full'
  | 'read-only'
  | 'gone'
  | 'locked'
  | 'changed'
  | 'damaged'
  | 'newer'
  | 'invalid'
  | 'unknown-job'
  | 'exists'
  | 'too-large'
  | 'closed'
  | 'failed';

/** What can be had back from a damaged job. */
export interface Offer {
  /** Entries that were proven good. */
  readonly entries: number;
  readonly from: 'good part' | 'previous save' | 'unfinished save';
  /** ISO instant of the last good entry. */
  readonly last: string;
  /** Which entries are missing, as far as that can be read; absent when none is. */
  readonly missing?: string;
}

const two = (n: number): string => String(n).padStart(2, '0');

/** `2026-11-26 06:00` in the computer's own zone. */
export const onTheWall = (d: Date): string =>
  `${d.getFullYear()}-${two(d.getMonth() + 1)}-${two(d.getDate())} ${two(d.getHours())}:${two(d.getMinutes())}`;

/** `2026-11-26 06:00 UTC+5:30`: what is kept in a record is read in another zone too. */
export function withZone(d: Date): string {
  const ahead = -d.getTimezoneOffset();
  const [hours, minutes] = [Math.floor(Math.abs(ahead) / 60), Math.abs(ahead) % 60];
  const zone = ahead === 0 ? '' : `${ahead < 0 ? '-' : '+'}${hours}${minutes ? `:${two(minutes)}` : ''}`;
  return `${onTheWall(d)} UTC${zone}`;
}

export interface StoreTrouble {
  readonly code: TroubleCode;
  /** What could not be done and why; what is kept; what to do. */
  readonly sentence: string;
  readonly offer?: Offer;
}

/** Nothing in the store throws at its caller: every outcome comes back as one of these. */
export type Result<T> =
  | { readonly ok: true; readonly value: T; readonly notice?: string }
  | { readonly ok: false; readonly trouble: StoreTrouble };

export function done<T>(value: T, notice?: string): Result<T> {
  return notice === undefined ? { ok: true, value } : { ok: true, value, notice };
}

export function refused(code: TroubleCode, words: string, offer?: Offer): { ok: false; trouble: StoreTrouble } {
  // Words may quote what stood in a file from anywhere.
  const sentence = safeText(words, { max: 1000 });
  return { ok: false, trouble: offer ? { code, sentence, offer } : { code, sentence } };
}

const causes: Readonly<Record<string, readonly [TroubleCode, string, string]>> = {
  ENOSPC: ['full', 'the disk is full', 'Free some space and try again.'],
  EDQUOT: ['full', 'your share of the disk is used up', 'Free some space and try again.'],
  EFBIG: ['full', 'the file would be larger than this disk allows', 'Export the job and go on in a new one.'],
  EROFS: ['read-only', 'the disk can only be read', 'Make it writable or choose another folder with --data.'],
  EACCES: [
    'read-only',
    'the folder may not be written',
    'Ask for the right to write there, or choose another with --data.',
  ],
  EPERM: [
    'read-only',
    'the folder may not be written',
    'Ask for the right to write there, or choose another with --data.',
  ],
  ENOENT: ['gone', 'the folder or file is no longer there', 'Put it back (plug the drive in again) and try again.'],
  ENOTDIR: ['gone', 'a file stands where the folder should be', 'Move that file away and try again.'],
  ENODEV: ['gone', 'the drive is no longer there', 'Plug it in again and try again.'],
  ESTALE: ['gone', 'the shared drive went away', 'Connect it again and try again.'],
  ENOTCONN: ['gone', 'the shared drive went away', 'Connect it again and try again.'],
  EHOSTDOWN: ['gone', 'the shared drive went away', 'Connect it again and try again.'],
  EHOSTUNREACH: ['gone', 'the shared drive went away', 'Connect it again and try again.'],
  ENETUNREACH: ['gone', 'the shared drive went away', 'Connect it again and try again.'],
  ETIMEDOUT: ['gone', 'the shared drive does not answer', 'Connect it again and try again.'],
  EIO: ['failed', 'the disk reported a fault', 'Try again; if it goes on, copy the folder to another disk.'],
  EISDIR: ['failed', 'a folder stands where the file should be', 'Move that folder away and try again.'],
  EEXIST: ['exists', 'a file of that name is already there', 'Choose another name.'],
  ENAMETOOLONG: ['invalid', 'the name is too long', 'Choose a shorter name.'],
};

/** The system's error code, or its message when it has none. */
export function errorCode(error: unknown): string {
  return codeOf(error) ?? (error instanceof Error ? error.message : String(error));
}

/**
 * Turns an error of the file system into trouble.
 * @param what what could not be done, e.g. 'This answer could not be saved'
 * @param kept what is safe, e.g. 'All 41 earlier entries are kept.'; may be empty
 */
export function troubleOf(error: unknown, what: string, kept: string): { ok: false; trouble: StoreTrouble } {
  const code = errorCode(error);
  const [name, why, cure] = causes[code] ?? (['failed', `something failed (${code})`, 'Try again.'] as const);
  return refused(name, [`${what} because ${why}.`, kept, cure].filter(Boolean).join(' '));
}
