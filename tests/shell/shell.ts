/** Runs commands in a folder of their own, and the built program in a shell. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll } from 'vitest';
import type { Draft, Entry } from '../../src/engine/journal/entry.js';
import { replay } from '../../src/engine/replay/replay.js';
import { type ReplayFile, replaySchema } from '../../src/engine/replay/replay-file.js';
import { readDocument } from '../../src/procedure/document.js';
import { openStore } from '../../src/store/open-store.js';
import { type Ran, ranIn } from '../setup/commands.js';
import { allModels } from '../training/library.js';

const program = fileURLToPath(new URL('../../dist/cli.js', import.meta.url));
export const root = fileURLToPath(new URL('../..', import.meta.url));
export const goodFile = join(root, 'procedures/practice/college-30kw.replay.yaml');

const made: string[] = [];
export function newFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'rotorside-shell-'));
  made.push(folder);
  return folder;
}
afterAll(() => {
  for (const folder of made) rmSync(folder, { recursive: true, force: true });
});

interface Ended {
  /** Null when it had to be stopped. */
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** The command with these words, in this process. */
export const run = (...words: string[]): Promise<Ran> => ranIn(root, words);
/** The built program with these words. */
export function started(...words: string[]): Ended {
  const r = spawnSync(process.execPath, [program, ...words], { encoding: 'utf8', timeout: 300_000, cwd: root });
  return { code: r.status, out: r.stdout, err: r.stderr };
}
/** A line for the shell, in which $R is the program. */
export function shell(line: string): Ended {
  const R = `${process.execPath} ${program}`;
  const r = spawnSync('bash', ['-c', line], { encoding: 'utf8', timeout: 300_000, env: { ...process.env, R } });
  return { code: r.status, out: r.stdout, err: r.stderr };
}

/** The good job's first steps in a data folder; `bend` may put other values in it. */
export async function storedJob(data: string, bend: (e: Entry) => Entry = (e) => e): Promise<string> {
  const file = readDocument<ReplayFile>(readFileSync(goodFile, 'utf8'), goodFile, replaySchema).value!;
  const { state } = replay(allModels.get(file.procedure)!, { ...file, steps: file.steps.slice(0, 4) });
  const entries = state.entries.map(bend);
  const store = openStore(data);
  const [first, ...rest] = entries.map(({ seq: _, at: __, ...draft }) => draft as Draft);
  const job = await store.create('Bench', first as Extract<Draft, { kind: 'job' }>);
  if (!job.ok) throw new Error(job.trouble.sentence);
  for (const draft of rest) {
    const saved = job.value.append(draft);
    if (!saved.ok) throw new Error(saved.trouble.sentence);
  }
  await job.value.close();
  return job.value.id;
}
