/** `rotorside replay FILE`: a whole job from a file of readings, without a terminal. */

import { StopLog } from '../engine/state/stops.js';
import { openLibrary } from '../library/open-library.js';
import { showProblem } from '../procedure/problem.js';
import { sheetOf } from '../sheet/sheet.js';
import type { Options } from './arguments.js';
import type { Ended } from './ended.js';
import { runReplay } from './run-replay.js';
import { formatOf, sheetOutput } from './sheet-output.js';

export async function replayCommand(o: Options): Promise<Ended> {
  const file = o.rest[0];
  if (file === undefined) return { err: 'replay needs a file of readings; type rotorside replay FILE.', code: 2 };
  const format = formatOf(o);
  if (typeof format !== 'string') return format;
  if (o.debrief && (o.format !== undefined || o.out !== undefined || o.full))
    return { err: 'A debrief has no --format, --out or --full; leave them or --debrief out.', code: 2 };
  if (o.debrief) return (await import('./replay-debrief.js')).replayDebrief(file, o);
  const { library, problems } = await openLibrary(o.procedures);
  if (problems.length) return { err: problems.map(showProblem).join('\n'), code: 2 };
  const stops = new StopLog();
  const run = runReplay(file, library, (then) => stops.add(then));
  if (!run.ok) return { err: run.message, code: run.code };
  const ended = await sheetOutput(sheetOf(run.state, { stops: stops.lines }), format, o);
  return { ...ended, err: [...run.warnings, ...(ended.err ? [ended.err] : [])].join('\n') || undefined };
}
