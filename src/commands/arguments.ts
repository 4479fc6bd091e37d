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
  readonly help: boolean;
  readonly version: boolean;
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
        help: { type: 'boolean', short: 'h', default: false },
        version: { type: 'boolean', default: false },
      },
    });
    // An empty name is a variable that was not set: what it should have named must not be passed over.
    for (const name of ['data', 'procedures', 'out'] as const)
      if (values[name]?.trim() === '')
        return { message: `--${name} is empty; name a ${name === 'out' ? 'file' : 'folder'}.` };
    const [command, ...rest] = positionals;
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
      help: (values.help ?? false) || command === 'help',
      version: values.version ?? false,
    };
  } catch (e) {
    const first = e instanceof Error ? (e.message.split('. ')[0] ?? '') : String(e);
    return { message: `${first}; rotorside --help lists the options.` };
  }
}
