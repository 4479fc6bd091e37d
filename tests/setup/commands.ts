/**
 * Commands as the program runs them, in this process: to start it takes longer than most of them. That the built program
 * says the same is tested once for each command (tests/shell/started.test.ts).
 */
import { chdir, cwd, env } from 'node:process';
import { run } from '../../src/commands/run.js';

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

type Variables = Readonly<Record<string, string | undefined>>;
function set(variables: Variables): void {
  for (const [name, value] of Object.entries(variables))
    if (value === undefined) delete env[name];
    else env[name] = value;
}

/** The command with these words, as if typed in that folder, with those variables of the environment. */
export async function ranIn(folder: string, words: readonly string[], variables: Variables = {}): Promise<Ran> {
  const before = { folder: cwd(), variables: Object.fromEntries(Object.keys(variables).map((n) => [n, env[n]])) };
  chdir(folder);
  set(variables);
  try {
    return { out: '', err: '', ...(await run(words)) };
  } finally {
    set(before.variables);
    chdir(before.folder);
  }
}
