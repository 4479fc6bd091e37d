/** Procedures as they were when a job began, kept beside the jobs so that an old sheet stays as it was. */
import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Tables } from '../calc/types.js';
import { makeFolder } from '../files/make-folder.js';
import type { Procedure } from '../procedure/schema.js';

export interface Kept {
  readonly procedure: Procedure;
  readonly tables: Tables;
  /** It came from a shop's own folder. */
  readonly shop?: boolean;
}

const pathOf = (dataFolder: string, hash: string): string => join(dataFolder, 'procedures', `${hash}.json`);

/** Keeps a copy; one that is there already is left alone. Failing is no harm: the library still has it. */
export function keep(dataFolder: string, hash: string, kept: Kept): void {
  const path = pathOf(dataFolder, hash);
  try {
    if (existsSync(path)) return;
    makeFolder(join(dataFolder, 'procedures'));
    writeFileSync(`${path}.new`, JSON.stringify(kept), { mode: 0o600 });
    renameSync(`${path}.new`, path);
  } catch {
    // The job itself says which version it was.
  }
}

export function readKept(dataFolder: string, hash: string): Kept | undefined {
  if (!/^[0-9a-f]{16}$/.test(hash)) return undefined;
  try {
    const kept = JSON.parse(readFileSync(pathOf(dataFolder, hash), 'utf8')) as Kept;
    return Array.isArray(kept.procedure?.steps) && kept.tables ? kept : undefined;
  } catch {
    return undefined;
  }
}
