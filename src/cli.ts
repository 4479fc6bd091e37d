#!/usr/bin/env node
/** Arguments to one of the commands. Loads only what the command needs. */
import { argv, exit, stderr, stdout } from 'node:process';
import { type Options, parseArguments } from './commands/arguments.js';
import type { Ended } from './commands/ended.js';
import { safeText } from './text/safe-text.js';

const usage = `rotorside - a guide for regreasing high-speed hybrid bearings in place

  rotorside                          open the guide
  rotorside resume [JOB]             go on with a job (the last one when none is named)
  rotorside practice [ROTOR]         practise on an invented rotor
  rotorside practice --any [NUMBER]  one that is drawn; the number draws the same again
  rotorside sheet [JOB] [--format md|html|json|tag] [--full] [--out FILE]
                                     the job sheet; --full adds every reading and how each figure came about
  rotorside table [--format csv|ndjson|columns] [--out FILE]
                                     all jobs as one table, a row for each bearing
  rotorside replay FILE [--format md|html|json|tag] [--full] [--out FILE] [--debrief]
                                     run a whole job from a file of readings
  rotorside debrief [JOB] [--json]   what a practice job showed
  rotorside progress [INITIALS] [--json]
  rotorside progress --format html [--out FILE]
                                     people by skills, as a page to be printed
  rotorside due [--format text|json|ics] [--out FILE]
                                     which rotor has to be looked at, and when
  rotorside history [ROTOR] [--json]  jobs and looks of one rotor, and what moved
  rotorside calc [NAME key=value …] [--json]
  rotorside check [FILE …]           check procedure files
  rotorside check --words FILE …     words in them that can be misread
  rotorside sources [--tag P|M|CP|A|shop] [--json]
                                     what is published, usual, or nobody's word
  rotorside outline [FILE]           a procedure as readable text
  rotorside diff OLD NEW             what changed between two procedures
  rotorside schema [procedure|part|table|sheet]
                                     JSON Schema of these files, for editors and other software
  rotorside export JOB FILE          one job as one file
  rotorside export --all FOLDER      every job, a file each, into a new folder
  rotorside import FILE...           or a folder of them; what is here already is not kept twice
  rotorside --version

  --data DIR         where jobs are kept (or ROTORSIDE_DATA)
  --procedures DIR   a shop's own procedures and table rows
`;

async function run(): Promise<Ended> {
  const parsed = parseArguments(argv.slice(2));
  if ('message' in parsed) return { err: parsed.message, code: 2 };
  const ended = await command(parsed);
  const json = parsed.json || parsed.format === 'json';
  return json && ended.out !== undefined ? { ...ended, out: quiet(ended.out) } : ended;
}

async function command(o: Options): Promise<Ended> {
  if (o.version) return { out: (await import('./commands/version.js')).version, code: 0 };
  // A calculator has a page of its own.
  if (o.help && !(o.command === 'calc' && o.rest.length > 0)) return { out: usage, code: 0 };
  switch (o.command) {
    case undefined:
    case 'resume':
      return (await import('./commands/open.js')).open(o);
    case 'practice':
      return (await import('./commands/practice.js')).practiceCommand(o);
    case 'debrief':
      return (await import('./commands/debrief.js')).debrief(o);
    case 'progress':
      return (await import('./commands/debrief.js')).progress(o);
    case 'calc':
      return (await import('./commands/calc.js')).calc(o);
    case 'replay':
      return (await import('./commands/replay.js')).replayCommand(o);
    case 'sheet':
      return (await import('./commands/sheet.js')).sheet(o);
    case 'table':
      return (await import('./commands/table.js')).tableCommand(o);
    case 'check':
      return (await import('./commands/check.js')).check(o);
    case 'due':
      return (await import('./commands/due.js')).due(o);
    case 'history':
      return (await import('./commands/history.js')).history(o);
    case 'sources':
      return (await import('./commands/sources.js')).sources(o);
    case 'outline':
    case 'diff':
    case 'schema':
      return (await import('./commands/review.js')).review(o);
    case 'export':
    case 'import':
      return (await import('./commands/transfer.js')).transfer(o);
    default:
      return { err: `There is no command “${o.command.slice(0, 40)}”; rotorside --help lists them.`, code: 2 };
  }
}

/**
 * JSON as it goes to a terminal: controls and marks that turn the direction of text are written as escapes, which leaves
 * the data as it is.
 */
const quiet = (json: string): string =>
  json.replace(
    /[\u007f-\u009f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff]/g,
    (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
const end = (text: string): string => (text.endsWith('\n') ? text : `${text}\n`);
/** What is quoted in a complaint came from a command line or a file: the terminal obeys none of it. */
const complain = (text: string): boolean => stderr.write(end(safeText(text, { lines: true, max: 100_000 })));
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
  complain(`The output could not be written whole ${cure}.`);
  exit(1);
}
stdout.on('error', (e: NodeJS.ErrnoException) => unwritten(e, 0));
async function main(): Promise<void> {
  try {
    const ended = await run();
    if (ended.err) complain(ended.err);
    if (ended.out) stdout.write(end(ended.out), (e) => (e ? unwritten(e, ended.code) : exit(ended.code)));
    else exit(ended.code);
  } catch (e) {
    complain(`Something went wrong that this program did not foresee: ${e instanceof Error ? e.message : String(e)}`);
    if (process.env.ROTORSIDE_TRACE && e instanceof Error) stderr.write(`${e.stack}\n`);
    exit(70);
  }
}
void main();
