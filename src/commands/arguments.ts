/** What stood on the command line. */
import { parseArgs } from 'node:util';

export interface Options {
  readonly command: string | undefined;
  /** Words after the command. */
  readonly rest: readonly string[];
  readonly data: string | undefined;
  readonly procedures: string | undefined;
  readonly format: string | undefined;
  readonly out: string | undefined;
  /** Of the sources: only those of this tag. */
  readonly tag: string | undefined;
  readonly json: boolean;
  /** Of a check: the words instead of the mistakes. */
  readonly words: boolean;
  /** Of a replay: its debrief instead of its sheet. */
  readonly debrief: boolean;
  /** Of a sheet: with the whole record after the first pages. */
  readonly full: boolean;
  /** Of practice: a rotor that is drawn, by the number that stands behind it or by a new one. */
  readonly any: boolean;
  /** Of practice: what is set beforehand, so that it is not asked. */
  readonly by: string | undefined;
  readonly mentor: string | undefined;
  readonly lessons: string | undefined;
  readonly from: string | undefined;
  /** Of practice: what is set in the rotor, for the mentor. */
  readonly key: boolean;
  /** Of an export: every job. */
  readonly all: boolean;
  /** Of an outline: with the ids of steps, questions and options. */
  readonly ids: boolean;
  readonly help: boolean;
  readonly version: boolean;
}

const laid = ['by', 'mentor', 'lessons', 'from'] as const;
const switches = ['json', 'words', 'debrief', 'full', 'any', 'key', 'all', 'ids'] as const;
const flags = ['data', 'procedures', 'format', 'out', 'tag', ...laid, ...switches] as const;
type Flag = (typeof flags)[number];
const guide: readonly Flag[] = ['data', 'procedures'];
/** What each command takes; a flag that means nothing to it is refused rather than passed over. */
const takes: Readonly<Record<string, readonly Flag[]>> = {
  '': guide,
  resume: guide,
  practice: [...guide, 'json', 'any', 'key', ...laid],
  sheet: [...guide, 'format', 'out', 'json', 'full'],
  table: [...guide, 'format', 'out'],
  due: ['data', 'format', 'json', 'out'],
  history: [...guide, 'json'],
  replay: ['procedures', 'format', 'out', 'json', 'full', 'debrief'],
  debrief: [...guide, 'json'],
  progress: [...guide, 'json', 'format', 'out'],
  calc: ['json'],
  check: ['procedures', 'words', 'json'],
  outline: ['procedures', 'ids'],
  diff: ['procedures'],
  schema: [],
  sources: ['procedures', 'tag', 'json'],
  export: ['data', 'all'],
  import: guide,
};

/** Words that each command takes behind its name; any number where it is not listed. */
const most: Readonly<Record<string, number>> = {
  resume: 1,
  practice: 1,
  sheet: 1,
  table: 0,
  due: 0,
  history: 1,
  replay: 1,
  debrief: 1,
  progress: 1,
  outline: 1,
  diff: 2,
  schema: 1,
  sources: 0,
  export: 2,
};

/** A word as it is typed again on a shell. */
export const typed = (word: string): string =>
  /^[\w./:@%+=-]+$/.test(word) ? word : `"${word.replace(/["\\$`]/g, '\\$&')}"`;

/** What to type instead where more words stand behind a command than it takes: nothing is dropped in silence. */
function tooMany(command: string | undefined, rest: readonly string[], all: boolean): string | undefined {
  const may = all ? 1 : most[command ?? ''];
  if (command === undefined || may === undefined || rest.length <= may) return undefined;
  const over = rest[may] ?? '';
  if (may === 0) return `“rotorside ${command}” takes no name; leave “${over}” out.`;
  const as = [...rest.slice(0, may - 1), rest.slice(may - 1).join(' ')].map(typed).join(' ');
  return may === 1
    ? `“rotorside ${command}” takes one name, and “${over}” is one too many; type a name of several words in quotes: rotorside ${command} ${all ? '--all ' : ''}${as}`
    : `“rotorside ${command}” takes two names, and “${over}” is one too many; put a name of several words in quotes.`;
}

/** The first flag that the command has no use for. */
function useless(command: string | undefined, given: Readonly<Record<string, unknown>>): string | undefined {
  const may = takes[command ?? ''];
  return may && flags.find((f) => given[f] && !may.includes(f));
}

export function parseArguments(argv: readonly string[]): Options | { readonly message: string } {
  // A calculator's key=value may hold a minus sign (temp=-5): such words are never options.
  try {
    const { values, positionals } = parseArgs({
      args: [...argv],
      allowPositionals: true,
      options: {
        data: { type: 'string' },
        procedures: { type: 'string' },
        format: { type: 'string' },
        out: { type: 'string' },
        tag: { type: 'string' },
        json: { type: 'boolean', default: false },
        words: { type: 'boolean', default: false },
        debrief: { type: 'boolean', default: false },
        full: { type: 'boolean', default: false },
        any: { type: 'boolean', default: false },
        by: { type: 'string' },
        mentor: { type: 'string' },
        lessons: { type: 'string' },
        from: { type: 'string' },
        key: { type: 'boolean', default: false },
        all: { type: 'boolean', default: false },
        ids: { type: 'boolean', default: false },
        help: { type: 'boolean', short: 'h', default: false },
        version: { type: 'boolean', default: false },
      },
    });
    // An empty name is a variable that was not set: what it should have named must not be passed over.
    for (const name of ['data', 'procedures', 'out'] as const)
      if (values[name]?.trim() === '')
        return { message: `--${name} is empty; name a ${name === 'out' ? 'file' : 'folder'}.` };
    const [command, ...rest] = positionals;
    const flag = values.help || values.version ? undefined : useless(command, values);
    if (flag !== undefined)
      return {
        message: `--${flag} means nothing to ${command === undefined ? 'the guide' : `“rotorside ${command}”`}; rotorside --help lists what each command takes.`,
      };
    const surplus = values.help ? undefined : tooMany(command, rest, command === 'export' && values.all === true);
    if (surplus !== undefined) return { message: surplus };
    return {
      command,
      rest,
      data: values.data,
      procedures: values.procedures ?? process.env.ROTORSIDE_PROCEDURES,
      format: values.format,
      out: values.out,
      tag: values.tag,
      json: values.json ?? false,
      words: values.words ?? false,
      debrief: values.debrief ?? false,
      full: values.full ?? false,
      any: values.any ?? false,
      by: values.by,
      mentor: values.mentor,
      lessons: values.lessons,
      from: values.from,
      key: values.key ?? false,
      all: values.all ?? false,
      ids: values.ids ?? false,
      help: (values.help ?? false) || command === 'help',
      version: values.version ?? false,
    };
  } catch (e) {
    const first = e instanceof Error ? (e.message.split('. ')[0] ?? '') : String(e);
    return { message: `${first}; rotorside --help lists the options.` };
  }
}
