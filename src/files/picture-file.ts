/** A picture that somebody names or drops: read whole, proven to be one by its first bytes, never changed. */
import { createHash } from 'node:crypto';
import { readFileSync, statSync } from 'node:fs';
import { homedir } from 'node:os';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { codeOf } from '../guards/guards.js';

export interface PictureFile {
  readonly bytes: Buffer;
  readonly ending: 'jpg' | 'png' | 'webp';
  /** Name of the file as it was taken, without its folder. */
  readonly name: string;
  readonly sha256: string;
}

/** Largest picture that is taken; telephones make some 3 to 15 MB. */
const LARGEST = 40_000_000;
const LONGEST_PATH = 4000;

/**
 * The path in what a terminal types when a file is dropped on it: bare, in quotes, with blanks escaped, or as file://.
 * Empty for what can be no path.
 */
export function pathIn(text: string): string {
  const bare = text.trim();
  if (!bare || bare.length > LONGEST_PATH || bare.includes('\0')) return '';
  const quoted = /^'([^']*)'$/.exec(bare) ?? /^"([^"]*)"$/.exec(bare);
  const inside = quoted?.[1] ?? (process.platform === 'win32' ? bare : bare.replace(/\\(.)/g, '$1'));
  if (/^file:\/\//i.test(inside)) {
    try {
      return fileURLToPath(inside);
    } catch {
      return '';
    }
  }
  return inside.startsWith('~/') ? join(homedir(), inside.slice(2)) : inside;
}

const endings: readonly (readonly [PictureFile['ending'], (b: Buffer) => boolean])[] = [
  ['jpg', (b) => b[0] === 0xff && b[1] === 0xd8 && b[2] === 0xff],
  ['png', (b) => b.subarray(0, 8).equals(Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]))],
  ['webp', (b) => b.toString('latin1', 0, 4) === 'RIFF' && b.toString('latin1', 8, 12) === 'WEBP'],
];

/** The picture, or one sentence that says what to do. */
export function readPicture(path: string): PictureFile | string {
  if (!path) return 'Type the path of a picture, or drop the picture on this window.';
  let bytes: Buffer;
  try {
    const stat = statSync(path);
    if (stat.isDirectory()) return 'That is a folder; name a picture in it.';
    if (!stat.isFile()) return 'That is no file that can be read; name a picture.';
    if (stat.size === 0) return 'That file is empty; copy the picture from the telephone again.';
    if (stat.size > LARGEST)
      return `That file has ${Math.round(stat.size / 1e6)} MB, and ${LARGEST / 1e6} MB is the most; take the picture smaller.`;
    bytes = readFileSync(path);
  } catch (e) {
    const code = codeOf(e);
    if (code === 'EACCES' || code === 'EPERM') return 'That file may not be read; change its rights or copy it.';
    if (code === 'ENAMETOOLONG') return 'That path is too long; copy the picture to a folder nearer by.';
    return 'There is no such file; look at its path, or drop the picture on this window.';
  }
  if (bytes.toString('latin1', 4, 12).match(/^ftyp(hei|mif|avif)/))
    return 'That picture is HEIC or AVIF; set the telephone to JPEG (“most compatible”), or save it as JPEG.';
  const ending = endings.find(([, is]) => is(bytes))?.[0];
  if (!ending) return 'That is no picture in JPEG, PNG or WebP; save it as JPEG and name that file.';
  return { bytes, ending, name: basename(path), sha256: createHash('sha256').update(bytes).digest('hex') };
}
