/** One of the commands by the words of the command line. Loads only what that command needs. */
import { safeText } from '../text/safe-text.js';
import { type Options, parseArguments } from './arguments.js';
import type { Ended } from './ended.js';

const usage = `rotorside - a guide for regreasing high-speed hybrid bearings in place

  rotorside                          open the guide
  rotorside resume [JOB]             go on with a job (the last one when none is named)
  rotorside practice [ROTOR]         practise on an invented rotor
  rotorside practice --any [NUMBER]  one that is drawn; the number draws the same again
       … [--by INITIALS] [--mentor INITIALS] [--lessons at-end|at-once] [--from PHASE]
                                     what is set beforehand is not asked
       … --by AA,BB,CC                a job for each of a class; each begins with “rotorside resume AA”
       … --key                       what is set in it, for the mentor
  rotorside sheet [JOB] [--format md|html|json|tag] [--full] [--out FILE]
                                     the job sheet; --full adds every reading and how each figure came about
  rotorside table [--format csv|ndjson|columns] [--out FILE]
                                     all jobs as one table, a row for each bearing
  rotorside replay FILE [--format md|html|json|tag] [--full] [--out FILE] [--debrief]
                                     run a whole job from a file of readings
  rotorside debrief [JOB|INITIALS] [--format text|md|html|json] [--out FILE]
                                     what a practice job showed
  rotorside debrief --all …          the class that practised last: who is stuck, what all expected and misread
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
  rotorside outline [FILE] [--ids]   a procedure as readable text; --ids adds the names that files use
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

/** Runs it: what it prints, as it goes to the terminal, and how it ends. */
export async function run(words: readonly string[]): Promise<Ended> {
  const parsed = parseArguments(words);
  if ('message' in parsed) return { err: complaint(parsed.message), code: 2 };
  const { out, err, code } = await command(parsed);
  const json = parsed.json || parsed.format === 'json';
  return {
    code,
    ...(err ? { err: complaint(err) } : {}),
    ...(out ? { out: line(json ? quiet(out) : out) } : {}),
  };
}

const line = (text: string): string => (text.endsWith('\n') ? text : `${text}\n`);
/** What is quoted in a complaint came from a command line or a file: the terminal obeys none of it. */
export const complaint = (text: string): string => line(safeText(text, { lines: true, max: 100_000 }));

async function command(o: Options): Promise<Ended> {
  if (o.version) return { out: (await import('./version.js')).version, code: 0 };
  // A calculator has a page of its own.
  if (o.help && !(o.command === 'calc' && o.rest.length > 0)) return { out: usage, code: 0 };
  switch (o.command) {
    case undefined:
    case 'resume':
      return (await import('./open.js')).open(o);
    case 'practice':
      return (await import('./practice.js')).practiceCommand(o);
    case 'debrief':
      return (await import('./debrief.js')).debrief(o);
    case 'progress':
      return (await import('./debrief.js')).progress(o);
    case 'calc':
      return (await import('./calc.js')).calc(o);
    case 'replay':
      return (await import('./replay.js')).replayCommand(o);
    case 'sheet':
      return (await import('./sheet.js')).sheet(o);
    case 'table':
      return (await import('./table.js')).tableCommand(o);
    case 'check':
      return (await import('./check.js')).check(o);
    case 'due':
      return (await import('./due.js')).due(o);
    case 'history':
      return (await import('./history.js')).history(o);
    case 'sources':
      return (await import('./sources.js')).sources(o);
    case 'outline':
    case 'diff':
    case 'schema':
      return (await import('./review.js')).review(o);
    case 'export':
    case 'import':
      return (await import('./transfer.js')).transfer(o);
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
