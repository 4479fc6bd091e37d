/**
 * Commands as the program runs them, in this process: to start it takes longer than most of them. That the built program
 * says the same is tested once for each command (tests/shell/started.test.ts).
 */
import process from 'node:process';
import { run } from '../../src/commands/run.js';

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

type Variables = Readonly<Record<string, string | undefined>>;
const { env } = process;
function set(variables: Variables): void {
  for (const [name, value] of Object.entries(variables))
    if (value === undefined) delete env[name];
    else env[name] = value;
}

/** Folder and environment are the process's own: one command after the other. */
let before: Promise<unknown> = Promise.resolve();
// By way of the process, never by an import of `chdir` alone: a library (graceful-fs) keeps the folder until told so.
const home = process.cwd();

/** The command with these words, as if typed in that folder, with those variables of the environment. */
export function ranIn(folder: string, words: readonly string[], variables: Variables = {}): Promise<Ran> {
  const ran = before.then(async () => {
    const kept = Object.fromEntries(Object.keys(variables).map((n) => [n, env[n]]));
    process.chdir(folder);
    set(variables);
    try {
      return { out: '', err: '', ...(await run(words)) };
    } finally {
      set(kept);
      process.chdir(home);
    }
  });
  before = ran.catch(() => undefined);
  return ran;
}
