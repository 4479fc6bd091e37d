/**
 * Commands as the program runs them, in this process: to start it takes longer than most of them. That the built program
 * says the same is tested once for each command (tests/shell/started.test.ts).
 */
import { run } from '../../src/commands/run.js';

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

type Variables = Readonly<Record<string, string | undefined>>;
function set(variables: Variables): void {
  for (const [name, value] of Object.entries(variables))
    if (value === undefined) delete process.env[name];
    else process.env[name] = value;
}

/** The command with these words, as if typed in that folder, with those variables of the environment. */
export async function ranIn(folder: string, words: readonly string[], variables: Variables = {}): Promise<Ran> {
  // Asked of the process each time: the lock's library remembers the folder, and forgets it only when told so there.
  const folderBefore = process.cwd();
  const before = Object.fromEntries(Object.keys(variables).map((name) => [name, process.env[name]]));
  process.chdir(folder);
  set(variables);
  try {
    return { out: '', err: '', ...(await run(words)) };
  } finally {
    set(before);
    process.chdir(folderBefore);
  }
}
