/** A job sheet in the format that was asked for, to the standard output or to a new file. */
import { writeNewFile } from '../files/new-file.js';
import { safeText } from '../text/safe-text.js';
import type { Options } from './arguments.js';
import type { Ended } from './ended.js';
import { notWritten } from './not-written.js';

const formats = ['md', 'html', 'json'] as const;
type Format = (typeof formats)[number];

/** The format that the options name, or what is wrong with it. */
export function formatOf(o: Options): Format | Ended {
  const format = formats.find((f) => f === (o.format ?? (o.json ? 'json' : 'md')));
  return format ?? { err: `There is no format “${o.format}”; choose md, html or json.`, code: 2 };
}

/** To the standard output, or to the file that the options name. */
export function written(text: string, o: Options): Ended {
  // A dash is the usual word for the standard output.
  if (o.out === undefined || o.out === '-') return { out: text, code: 0 };
  try {
    writeNewFile(o.out, text);
    return { out: `Written to ${safeText(o.out)}.`, code: 0 };
  } catch (e) {
    return { err: notWritten(o.out, e), code: 1 };
  }
}
