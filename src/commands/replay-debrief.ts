/** `rotorside replay FILE --debrief`: what a practice job showed, from its file of readings. */
import { openLibrary } from '../library/open-library.js';
import { showProblem } from '../procedure/problem.js';
import { debriefOf } from '../training/debrief.js';
import { debriefText } from '../training/debrief-lines.js';
import type { Ended } from './ended.js';
import { rotorFor, rotorsOf } from './practice-rotors.js';
import { runReplay } from './run-replay.js';

export async function replayDebrief(
  file: string,
  { procedures, json }: { readonly procedures?: string | undefined; readonly json?: boolean | undefined },
): Promise<Ended> {
  const { library, problems } = await openLibrary(procedures);
  if (problems.length) return { err: problems.map(showProblem).join('\n'), code: 2 };
  const run = runReplay(file, library);
  if (!run.ok) return { err: run.message, code: run.code };
  const rotor = rotorFor(library, run.state.ledger.job?.practice, run.state.model);
  const made = debriefOf(run.state, rotor, rotorsOf(library));
  return { out: json ? JSON.stringify(made, undefined, 2) : debriefText(made), code: 0 };
}
