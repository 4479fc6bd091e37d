/** Pictures of jobs: each copied under its hash beside the jobs, with a small one for the sheet. The original stays as it is. */
// @ts-nocheck

import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { syncFolder, writeNewFile } from '../files/new-file.js';
import { pathIn, readPicture } from '../files/picture-file.js';
import { smallPicture } from '../files/small-picture.js';
import { safeText } from '../text/safe-text.js';
import { troubleOf } from './trouble.js';

export interface KeptPicture {
  /** Its name in the job's folder of pictures: hash and ending. */
  readonly file: string;
  readonly sha256: string;
  readonly bytes: number;
  /** Name of the file as it was taken. */
  readonly name: string;
  /** Set where this computer could make no small one for the sheet. */
  readonly notShown?: true;
}

/** Names that this store gives: nothing that an entry names can lead elsewhere. */
const ours = /^[0-9a-f]{64}\.(jpg|png|webp)$/;
const smallName = (file: string): string => file.replace(/\.[a-z]+$/, '.small.jpg');
/** A small picture is never larger than this. */
const largestSmall = 4_000_000;

export const pictureFolder = (root: string, job: string): string => join(root, 'pictures', job);

/** Writes a file unless it is there already. */
function putOnce(folder: string, name: string, bytes: Uint8Array): void {
  mkdirSync(folder, { recursive: true });
  const path = join(folder, name);
  if (existsSync(path)) return;
  writeNewFile(path, bytes);
  syncFolder(folder);
}

/** Copies the picture that a person named or dropped; one sentence when it can't be taken. */
export async function keepPicture(root: string, job: string, typed: string): Promise<KeptPicture | string> {
  const found = readPicture(pathIn(typed));
  if (typeof found === 'string') return found;
  const small = await smallPicture(found.bytes);
  if (small === 'damaged') return 'That picture is damaged or too large to be drawn; take it again.';
  const { sha256, ending, bytes, name } = found;
  const file = `${sha256}.${ending}`;
  const folder = pictureFolder(root, job);
  try {
    putOnce(folder, file, bytes);
    if (small !== 'no-library') putOnce(folder, smallName(file), small);
  } catch (error) {
    return troubleOf(error, 'The picture could not be kept', 'Nothing else is lost.').trouble.sentence;
  }
  return {
    file,
    sha256,
    bytes: bytes.length,
    name: safeText(name, { max: 200 }) || 'picture',
    ...(small === 'no-library' ? { notShown: true as const } : {}),
  };
}

/** The small picture as a data URI for the sheet; undefined when there is none. */
export function shownPicture(root: string, job: string, file: string): string | undefined {
  if (!ours.test(file)) return undefined;
  try {
    const path = join(pictureFolder(root, job), smallName(file));
    if (statSync(path).size > largestSmall) return undefined;
    return `data:image/jpeg;base64,${readFileSync(path).toString('base64')}`;
  } catch {
    return undefined;
  }
}

/** Takes pictures from one folder to another, each proven by its hash; gives how many came and how many did not. */
export async function carryPictures(
  from: string,
  to: string,
  files: readonly string[],
): Promise<{ readonly carried: number; readonly lost: number }> {
  let carried = 0;
  let lost = 0;
  for (const file of new Set(files)) {
    try {
      if (!ours.test(file)) throw new Error('no name of ours');
      const bytes = readFileSync(join(from, file));
      if (createHash('sha256').update(bytes).digest('hex') !== file.slice(0, 64)) throw new Error('altered');
      putOnce(to, file, bytes);
      const small = await smallPicture(bytes);
      if (typeof small !== 'string') putOnce(to, smallName(file), small);
      carried += 1;
    } catch {
      lost += 1;
    }
  }
  return { carried, lost };
}
