/** Runs the built program on a replay file. */
// @ts-nocheck

import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const folder = mkdtempSync(join(tmpdir(), 'rotorside-replay-'));
export const goodFile = new URL('../../procedures/practice/college-30kw.replay.yaml', import.meta.url).pathname;
export const goodText = readFileSync(goodFile, 'utf8');
const program = new URL('../../dist/cli.js', import.meta.url).pathname;

let count = 0;
export function written(content: string | Uint8Array): string {
  const file = join(folder, `r${++count}.yaml`);
  writeFileSync(file, content);
  return file;
}

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}
export function replayed(file: string, ...more: string[]): Ran {
  const r = spawnSync(process.execPath, [program, 'replay', file, ...more], { encoding: 'utf8', timeout: 300_000 });
  return { code: r.status, out: r.stdout, err: r.stderr };
}

/** The good file with one part changed; the part must be there just once. */
export function bent(from: string, to: string, text = goodText): string {
  const parts = text.split(from);
  if (parts.length !== 2) throw new Error(`“${from}” stands there ${parts.length - 1} times`);
  return parts.join(to);
}
export const lineOf = (text: string, part: string): number => text.slice(0, text.indexOf(part)).split('\n').length;
