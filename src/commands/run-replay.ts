/** A replay file and, before it, the file of the job that it follows. */
import { dirname, resolve } from 'node:path';
import { calculators } from '../calc/index.js';
import type { LifeEvent } from '../engine/journal/entry.js';
import { isPlainReplay } from '../engine/replay/plain-form.js';
import { headTrouble, replay } from '../engine/replay/replay.js';
import { type ReplayFile, replaySchema } from '../engine/replay/replay-file.js';
import { earlierValues } from '../engine/state/earlier.js';
import type { State } from '../engine/state/state.js';
import type { Earlier } from '../engine/values/values.js';
import type { Library } from '../library/library.js';
import { readText } from '../library/read-text.js';
import { lifeOf } from '../life/history.js';
import { readSurely } from '../procedure/document.js';
import { modelOf } from '../procedure/model.js';
import { near } from '../procedure/near.js';
import { quoted, showProblem } from '../procedure/problem.js';

export type Replayed =
  | { readonly ok: true; readonly state: State; readonly file: ReplayFile; readonly warnings: readonly string[] }
  /** `code` 1: a reading was refused; 2: the file can't be used at all. */
  | { readonly ok: false; readonly message: string; readonly code: 1 | 2 };

const LONGEST_CHAIN = 5;

/** @param each told the state after each entry, as it stood at that instant */
export function runReplay(
  path: string,
  library: Library,
  each?: (then: State) => void,
  chain: readonly string[] = [],
): Replayed {
  const cannot = (message: string): Replayed => ({ ok: false, message, code: 2 });
  const whole = resolve(path);
  if (chain.includes(whole)) return cannot(`${path}: these jobs follow each other in a circle; mend an “earlier:”.`);
  if (chain.length >= LONGEST_CHAIN) return cannot(`${path}: more than ${LONGEST_CHAIN} jobs follow each other.`);
  const text = readText(path);
  if ('problem' in text) return cannot(text.problem);
  const read = readSurely<ReplayFile>(text.text, path, isPlainReplay, () => replaySchema);
  const file = read.value;
  if (!file) return cannot(read.problems.map(showProblem).join('\n') || `${path} can’t be read.`);
  const at = (key: string, message: string, cure: string): Replayed => {
    read.complain('replay', [key], message, cure);
    const last = read.problems.at(-1);
    return cannot(last ? showProblem(last) : message);
  };
  const found = library.procedures.get(file.procedure);
  if (!found) {
    const names = [...library.procedures.keys()];
    const cure =
      near(file.procedure, names) || `Known are: ${names.join(', ')}; name a folder of your own with --procedures.`;
    return at('procedure', `There is no procedure “${quoted(file.procedure)}”.`, cure);
  }
  const trouble = headTrouble(file);
  if (trouble) return at(trouble.key, `“${quoted(file[trouble.key])}”: ${trouble.message}`, '');

  const before = earlierOf(file, path, library, [...chain, whole], found.procedure.follows?.procedure);
  if ('ok' in before) return before;
  if (before.complaint) return at(before.complaint.key, before.complaint.message, before.complaint.cure);
  const model = modelOf(found.procedure, found.hash, library.tables, calculators, found.shop, library.trees);
  const outcome = replay(model, { ...file, earlier: before.name }, { earlier: before.values, life: before.life }, each);
  if (outcome.ok) return { ok: true, state: outcome.state, file, warnings: outcome.warnings };
  const item = file.steps[outcome.item];
  read.complain('replay', ['steps', outcome.item], '', '');
  const name = item && 'step' in item ? ` step ${item.step}${item.at ? ` at ${item.at}` : ''}:` : '';
  return { ok: false, message: `${path}:${read.problems.at(-1)?.line}:${name} ${outcome.message}`, code: 1 };

  function earlierOf(
    own: ReplayFile,
    from: string,
    lib: Library,
    seen: readonly string[],
    follows: string | undefined,
  ):
    | Replayed
    | {
        name?: string;
        values?: Earlier;
        life?: readonly LifeEvent[];
        complaint?: { key: string; message: string; cure: string };
      } {
    if (own.earlier === undefined)
      return follows === undefined
        ? {}
        : {
            complaint: {
              key: 'procedure',
              message: `“${own.procedure}” follows a finished job of ${follows}.`,
              cure: 'Add “earlier:” with the replay file of that job.',
            },
          };
    const run = runReplay(resolve(dirname(from), own.earlier), lib, undefined, seen);
    if (!run.ok) return run;
    const procedure = lib.procedures.get(own.procedure)?.procedure;
    const read = procedure && earlierValues(procedure, run.state);
    if (!read?.ok) return { complaint: { key: 'earlier', message: read?.message ?? '', cure: '' } };
    return { name: run.file.name, values: read.values, life: lifeOf(run.state, run.file.name) };
  }
}
