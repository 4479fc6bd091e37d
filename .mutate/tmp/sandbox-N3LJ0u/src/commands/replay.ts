/** `rotorside replay FILE`: a whole job from a file of readings, without a terminal. */
// @ts-nocheck

import { openLibrary } from '../library/open-library.js';
import { showProblem } from '../procedure/problem.js';
import { sheetOf } from '../sheet/sheet.js';
import { debriefOf } from '../training/debrief.js';
import { debriefText } from '../training/debrief-lines.js';
import type { Options } from './arguments.js';
import type { Ended } from './ended.js';
import { rotorFor, rotorsOf } from './practice-rotors.js';
import { runReplay } from './run-replay.js';
import { formatOf, sheetOutput } from './sheet-output.js';

export async function replayCommand(o: Options): Promise<Ended> {
  const file = o.rest[0];
  if (file === undefined) return { err: 'replay needs a file of readings; type rotorside replay FILE.', code: 2 };
  const format = formatOf(o);
  if (typeof format !== 'string') return format;
  if (o.debrief && (o.format !== undefined || o.out !== undefined || o.full))
    return { err: 'A debrief has no --format, --out or --full; leave them or --debrief out.', code: 2 };
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
  const ended = await sheetOutput(sheetOf(run.state), format, o);
  return { ...ended, err: [...run.warnings, ...(ended.err ? [ended.err] : [])].join('\n') || undefined };
}
