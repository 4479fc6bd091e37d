/** What stood on the command line. */
import { parseArgs } from 'node:util';

const word = { type: 'string' } as const;
const yes = { type: 'boolean', default: false } as const;
const options = {
  data: word,
  procedures: word,
  format: word,
  out: word,
  /** Of the sources: only those of this tag. */
  tag: word,
  json: yes,
  /** Of a check: the words instead of the mistakes. */
  words: yes,
  /** Of a replay: its debrief instead of its sheet. */
  debrief: yes,
  /** Of a sheet: with the whole record after the first pages. */
  full: yes,
  /** Of practice: a rotor that is drawn, by the number that stands behind it or by a new one. */
  any: yes,
  /** Of practice: what is set beforehand, so that it is not asked. */
  by: word,
  mentor: word,
  lessons: word,
  from: word,
  /** Of practice: what is set in the rotor, for the mentor. */
  key: yes,
  /** Of an export: every job. Of a debrief: the class that practised last. */
  all: yes,
  /** Of an outline: with the ids of steps, questions and options. */
  ids: yes,
} as const;
const always = { help: { ...yes, short: 'h' }, version: yes } as const;

type Flag = keyof typeof options;
type Given = ReturnType<typeof parsed>['values'];
export interface Options extends Given {
  readonly command: string | undefined;
  /** Words after the command. */
  readonly rest: readonly string[];
}

const laid = ['by', 'mentor', 'lessons', 'from'] as const;
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
  debrief: [...guide, 'json', 'all', 'format', 'out'],
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
function useless(command: string | undefined, given: Given): string | undefined {
  const may: readonly string[] | undefined = takes[command ?? ''];
  return may && Object.entries(given).find(([flag, value]) => value && !may.includes(flag))?.[0];
}

const parsed = (args: string[]) => parseArgs({ args, allowPositionals: true, options: { ...options, ...always } });

export function parseArguments(argv: readonly string[]): Options | { readonly message: string } {
  // A calculator's key=value may hold a minus sign (temp=-5): such words are never options.
  try {
    const { values, positionals } = parsed([...argv]);
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
    const procedures = values.procedures ?? process.env.ROTORSIDE_PROCEDURES;
    return { ...values, command, rest, procedures, help: values.help || command === 'help' };
  } catch (e) {
    const first = e instanceof Error ? (e.message.split('. ')[0] ?? '') : String(e);
    return { message: `${first}; rotorside --help lists the options.` };
  }
}
