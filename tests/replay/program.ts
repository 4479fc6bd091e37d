/** Replays a file as the command does. */
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Ran, ranIn } from '../setup/commands.js';

const folder = mkdtempSync(join(tmpdir(), 'rotorside-replay-'));
export const goodFile = new URL('../../procedures/practice/college-30kw.replay.yaml', import.meta.url).pathname;
export const goodText = readFileSync(goodFile, 'utf8');

let count = 0;
export function written(content: string | Uint8Array): string {
  const file = join(folder, `r${++count}.yaml`);
  writeFileSync(file, content);
  return file;
}

export const replayed = (file: string, ...more: string[]): Promise<Ran> => ranIn('.', ['replay', file, ...more]);

/** The good file with one part changed; the part must be there just once. */
export function bent(from: string, to: string, text = goodText): string {
  const parts = text.split(from);
  if (parts.length !== 2) throw new Error(`“${from}” stands there ${parts.length - 1} times`);
  return parts.join(to);
}
export const lineOf = (text: string, part: string): number => text.slice(0, text.indexOf(part)).split('\n').length;
