/** Bundles a small program on the store and starts it as a process of its own. */
// @ts-nocheck

import { type ChildProcess, spawn } from 'node:child_process';
import { join } from 'node:path';
import { build } from 'esbuild';
import { afterAll } from 'vitest';
import { newFolder } from './sample-job.js';

/** Builds `name` (a file in tests/store) once; gives the path of the program. */
export async function buildChild(name: string): Promise<string> {
  const outfile = join(newFolder(), 'child.mjs');
  await build({
    entryPoints: [new URL(name, import.meta.url).pathname],
    bundle: true,
    platform: 'node',
    format: 'esm',
    outfile,
    logLevel: 'error',
    banner: { js: "import {createRequire as r} from 'node:module';const require=r(import.meta.url);" },
  });
  return outfile;
}

const started: ChildProcess[] = [];
afterAll(() => {
  for (const child of started) if (child.exitCode === null && child.signalCode === null) child.kill('SIGKILL');
});

export interface Child {
  readonly process: ChildProcess;
  /** What it has printed so far, by line. */
  lines(): string[];
  /** Resolves at the line that starts so. */
  said(start: string): Promise<string>;
  ended: Promise<void>;
}

/** @param command what is run with its arguments: a built program, or one that runs it */
export function startChild(...command: readonly [string, ...string[]]): Child {
  const [name, ...args] = command[0].endsWith('.mjs') ? [process.execPath, ...command] : command;
  const child = spawn(name, args, { stdio: ['ignore', 'pipe', 'inherit'] });
  started.push(child);
  let text = '';
  child.stdout.on('data', (chunk) => {
    text += chunk;
  });
  const ended = new Promise<void>((resolve) => child.on('close', () => resolve()));
  const lines = (): string[] => text.split('\n').slice(0, -1);
  return {
    process: child,
    lines,
    ended,
    async said(start) {
      for (let turn = 0; turn < 12_000; turn++) {
        const line = lines().find((one) => one.startsWith(start));
        if (line !== undefined) return line;
        await new Promise((resolve) => setTimeout(resolve, 5));
      }
      throw new Error(`the child never said '${start}'`);
    },
  };
}
