#!/usr/bin/env node
/** Arguments to one of the commands, its words to the terminal, its end to the shell. */
import { argv, exit, stderr, stdout } from 'node:process';
import { complaint, run } from './commands/run.js';

/** Ends as a closed window ends a program: on the way out Node would set the terminal back, and aborts where it is gone. */
function hangUp(): never {
  const none = (): void => {};
  // Where hang-ups were ignored by whoever started it, this takes the default up again.
  process.on('SIGHUP', none).off('SIGHUP', none);
  process.kill(process.pid, 'SIGHUP');
  exit(129);
}
/** A reader that has seen enough is no failure; a disk that is full is. */
function unwritten(e: NodeJS.ErrnoException, code: number): never {
  if (e.code === 'EPIPE') exit(code);
  // A terminal that was closed: there is nobody left to tell.
  if (e.code === 'EIO' && stdout.isTTY) hangUp();
  const full = e.code === 'ENOSPC' || e.code === 'EDQUOT';
  const cure = full
    ? '(the disk is full); free some space or write it elsewhere'
    : `(${e.code ?? e.message}); write it elsewhere`;
  stderr.write(complaint(`The output could not be written whole ${cure}.`));
  exit(1);
}
stdout.on('error', (e: NodeJS.ErrnoException) => unwritten(e, 0));
async function main(): Promise<void> {
  try {
    const { out, err, code } = await run(argv.slice(2));
    if (err) stderr.write(err);
    if (out) stdout.write(out, (e) => (e ? unwritten(e, code) : exit(code)));
    else exit(code);
  } catch (e) {
    const why = e instanceof Error ? e.message : String(e);
    stderr.write(complaint(`Something went wrong that this program did not foresee: ${why}`));
    if (process.env.ROTORSIDE_TRACE && e instanceof Error) stderr.write(`${e.stack}\n`);
    exit(70);
  }
}
void main();
