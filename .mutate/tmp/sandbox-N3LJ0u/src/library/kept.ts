/** Procedures as they were when a job began, kept beside the jobs so that an old sheet stays as it was. */
// @ts-nocheck

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Tables } from '../calc/types.js';
import { makeFolder } from '../files/make-folder.js';
import { replaceFile } from '../files/new-file.js';
import type { Procedure } from '../procedure/schema.js';
import { contentHash } from './hash.js';

export interface Kept {
  readonly procedure: Procedure;
  readonly tables: Tables;
  /** It came from a shop's own folder. */
  readonly shop?: boolean;
}

const pathOf = (dataFolder: string, hash: string): string => join(dataFolder, 'procedures', `${hash}.json`);

/**
 * Keeps a copy, on disk for good when this returns. One that is there and proves to be this procedure is left alone; any
 * other is replaced. Failing is no harm: the library still has it.
 */
export function keep(dataFolder: string, hash: string, kept: Kept): void {
  if (readKept(dataFolder, hash)) return;
  try {
    makeFolder(join(dataFolder, 'procedures'));
    replaceFile(pathOf(dataFolder, hash), JSON.stringify(kept));
  } catch {
    // The job itself says which version it was.
  }
}

/** The procedure with this hash; undefined where it is not kept or where what is kept is not what the hash was made of. */
export function readKept(dataFolder: string, hash: string): Kept | undefined {
  if (!/^[0-9a-f]{16}$/.test(hash)) return undefined;
  try {
    const kept = JSON.parse(readFileSync(pathOf(dataFolder, hash), 'utf8')) as Kept;
    return contentHash(kept.procedure, kept.tables) === hash ? kept : undefined;
  } catch {
    return undefined;
  }
}
