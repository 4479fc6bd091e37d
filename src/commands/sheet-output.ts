/** A sheet in one of its formats, printed or written to a new file. */
import { writeNewFile } from '../files/new-file.js';
import type { Sheet } from '../sheet/sheet-data.js';
import { toJson } from '../sheet/to-json.js';
import { toMarkdown } from '../sheet/to-markdown.js';
import { safeText } from '../text/safe-text.js';
import type { Options } from './arguments.js';
import { type Ended, notWritten } from './ended.js';

const formats = ['md', 'html', 'json', 'tag'] as const;
type Format = (typeof formats)[number];

/** The format that was asked for; a sentence when there is none such, or two were asked for. */
export function formatOf(o: Options): Format | Ended {
  if (o.json && o.format !== undefined && o.format !== 'json')
    return { err: `--json and --format ${safeText(o.format, { max: 20 })} say different things; give one.`, code: 2 };
  const named = o.json ? 'json' : (o.format ?? 'md');
  const format = formats.find((f) => f === named);
  return (
    format ?? { err: `There is no format “${safeText(named, { max: 40 })}”; choose md, html, json or tag.`, code: 2 }
  );
}

export async function sheetOutput(made: Sheet, format: Format, o: Options, zone?: string): Promise<Ended> {
  const options = { ...(zone ? { zone } : {}), appendix: o.full || format === 'json' };
  if (format === 'tag') {
    if (!made.front.tag.length)
      return { err: 'This procedure names nothing for a tag, or nothing of it is known yet.', code: 1 };
    return written((await import('../sheet/to-html.js')).toHtml(made, { ...options, only: 'tag' }), o.out);
  }
  const text =
    format === 'json'
      ? toJson(made, options)
      : format === 'html'
        ? (await import('../sheet/to-html.js')).toHtml(made, options)
        : toMarkdown(made, options);
  return written(text, o.out);
}

/** Text on standard output, or in a new file where one is named. */
export function written(text: string, file: string | undefined): Ended {
  // A dash is the usual word for the standard output.
  if (file === undefined || file === '-') return { out: text, code: 0 };
  try {
    writeNewFile(file, text);
    return { out: `Written to ${safeText(file)}.`, code: 0 };
  } catch (e) {
    return { err: notWritten(file, e), code: 1 };
  }
}
