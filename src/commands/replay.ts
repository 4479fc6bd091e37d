/** `rotorside replay FILE`: a whole job from a file of readings, without a terminal. */

import { calculators } from '../calc/index.js';
import type { Ended } from '../cli.js';
import { replay } from '../engine/replay.js';
import { type ReplayFile, replaySchema } from '../engine/replay-file.js';
import { openLibrary } from '../library/open-library.js';
import { readText } from '../library/read-folder.js';
import { readDocument } from '../procedure/document.js';
import { modelOf } from '../procedure/model.js';
import { showProblem } from '../procedure/problem.js';
import { sheetOf } from '../sheet/sheet.js';
import { toJson } from '../sheet/to-json.js';
import { toMarkdown } from '../sheet/to-markdown.js';
import type { Options } from './arguments.js';

export async function replayCommand(o: Options): Promise<Ended> {
  const file = o.rest[0];
  if (file === undefined) return { err: 'replay needs a file of readings; type rotorside replay FILE.', code: 2 };
  const text = readText(file);
  if ('problem' in text) return { err: text.problem, code: 2 };
  const read = readDocument<ReplayFile>(text.text, file, replaySchema);
  if (!read.value) {
    const first = read.problems[0];
    return { err: first ? showProblem(first) : `${file} can’t be read.`, code: 2 };
  }
  const { library, problems } = await openLibrary(o.procedures);
  if (problems[0]) return { err: showProblem(problems[0]), code: 2 };
  const found = library.procedures.get(read.value.procedure);
  if (!found)
    return {
      err: `There is no procedure “${read.value.procedure}”; known are ${[...library.procedures.keys()].join(', ')}.`,
      code: 2,
    };
  const model = modelOf(found.procedure, found.hash, library.tables, calculators);
  if (read.value.start !== undefined && Number.isNaN(Date.parse(read.value.start)))
    return {
      err: `${file}: start: “${read.value.start}” is no instant; write one such as 2026-03-02T08:00:00Z.`,
      code: 2,
    };
  const outcome = replay(model, read.value);
  if (!outcome.ok) {
    read.complain(['steps', outcome.item], outcome.message, '');
    const p = read.problems.at(-1);
    const item = read.value.steps[outcome.item];
    const name = item && 'step' in item ? ` step ${item.step}${item.at ? ` at ${item.at}` : ''}:` : '';
    return { err: `${p?.file}:${p?.line}:${name} ${outcome.message}`, code: 1 };
  }
  const sheet = sheetOf(outcome.state);
  return { out: o.json ? toJson(sheet) : toMarkdown(sheet), err: outcome.warnings.join('\n') || undefined, code: 0 };
}
