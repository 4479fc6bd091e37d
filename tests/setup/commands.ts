/**
 * Commands as the program runs them, in this process: to start it takes longer than most of them. That the built program
 * says the same is tested once for each command (tests/shell/started.test.ts).
 */
import { chdir, cwd } from 'node:process';
import { run } from '../../src/commands/run.js';

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** The command with these words, as if typed in that folder. */
export async function ranIn(folder: string, ...words: readonly string[]): Promise<Ran> {
  const before = cwd();
  chdir(folder);
  try {
    return { out: '', err: '', ...(await run(words)) };
  } finally {
    chdir(before);
  }
}
