/** `rotorside replay FILE`: a whole job from a file of readings, without a terminal. */
import { openLibrary } from '../library/open-library.js';
import { showProblem } from '../procedure/problem.js';
import { sheetOf } from '../sheet/sheet.js';
import { toJson } from '../sheet/to-json.js';
import { toMarkdown } from '../sheet/to-markdown.js';
import { debriefOf } from '../training/debrief.js';
import { debriefText } from '../training/debrief-lines.js';
import type { Options } from './arguments.js';
import type { Ended } from './ended.js';
import { rotorFor, rotorsOf } from './practice-rotors.js';
import { runReplay } from './run-replay.js';
import { formatOf, written } from './sheet-text.js';

export async function replayCommand(o: Options): Promise<Ended> {
  const file = o.rest[0];
  if (file === undefined) return { err: 'replay needs a file of readings; type rotorside replay FILE.', code: 2 };
  const format = formatOf(o);
  if (typeof format !== 'string') return format;
  const { library, problems } = await openLibrary(o.procedures);
  if (problems.length) return { err: problems.map(showProblem).join('\n'), code: 2 };
  const run = runReplay(file, library);
  if (!run.ok) return { err: run.message, code: run.code };
  if (o.debrief) {
    const made = debriefOf(
      run.state,
      rotorFor(library, run.state.ledger.job?.practice, run.state.model),
      rotorsOf(library),
    );
    return { out: o.json ? JSON.stringify(made, undefined, 2) : debriefText(made), code: 0 };
  }
  const sheet = sheetOf(run.state);
  // Markdown is what scripts ask for over and over; the page is loaded when it is wanted.
  const text =
    format === 'md'
      ? toMarkdown(sheet)
      : format === 'json'
        ? toJson(sheet)
        : (await import('../sheet/to-html.js')).toHtml(sheet);
  const ended = written(text, o);
  return { ...ended, err: [...run.warnings, ...(ended.err ? [ended.err] : [])].join('\n') || undefined };
}
