/** Small files that may be lost without harm (preferences, progress, half-typed text): read by hand, written by conf. */
import { lstatSync, readFileSync, renameSync } from 'node:fs';
import { join } from 'node:path';
import { makeFolder } from '../files/make-folder.js';
import { isRecord } from '../guards/guards.js';
import { type ConfFile, confFile } from './conf-file.js';
import { errorCode } from './trouble.js';

const largest = 1024 * 1024;

type Fields = Readonly<Record<string, unknown>>;

export interface SmallFile {
  /** What is in it; nothing in it when it is missing or damaged. */
  read(): Fields;
  /** Replaces its content by what is made of it as it stands at that moment. Throws the system's error. */
  update(change: (now: Fields) => Fields): Promise<void>;
}

type Read = { readonly kind: 'good'; readonly value: Fields } | { readonly kind: 'missing' | 'damaged' };

function readFields(file: string): Read {
  try {
    const stat = lstatSync(file);
    if (!stat.isFile() || stat.size > largest) return { kind: 'damaged' };
    const value: unknown = JSON.parse(readFileSync(file, 'utf8'));
    return isRecord(value) ? { kind: 'good', value } : { kind: 'damaged' };
  } catch (error) {
    return { kind: errorCode(error) === 'ENOENT' ? 'missing' : 'damaged' };
  }
}

export function smallFile(folder: string, name: string): SmallFile {
  const file = join(folder, `${name}.json`);
  let conf: ConfFile | undefined;
  return {
    read() {
      const found = readFields(file);
      return found.kind === 'good' ? found.value : {};
    },
    async update(change) {
      makeFolder(folder);
      conf ??= await confFile(folder, name);
      // From here on nothing is awaited, so that two changes at once both count.
      const found = readFields(file);
      if (found.kind === 'damaged') renameSync(file, `${file}.damaged`);
      conf.write({ ...change(found.kind === 'good' ? found.value : {}) });
    },
  };
}
