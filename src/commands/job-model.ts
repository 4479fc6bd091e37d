/** The checked procedure that a job was begun with, found again by its hash. */
import { calculators } from '../calc/index.js';
import type { Entry } from '../engine/entry.js';
import { readKept } from '../library/kept.js';
import type { Library } from '../library/library.js';
import { type Model, modelOf } from '../procedure/model.js';

export interface JobModel {
  readonly model: Model;
  /** Set when it is another version than the job was begun with. */
  readonly changed: boolean;
}

/** The version kept with the data first, then the library's; a sentence when there is neither. */
export function modelForJob(library: Library, dataFolder: string, entries: readonly Entry[]): JobModel | string {
  const head = entries.find((e) => e.kind === 'job');
  if (head?.kind !== 'job') return 'This job has no first entry; import it again from an export.';
  const moved = entries.findLast((e) => e.kind === 'procedure');
  const hash = moved?.kind === 'procedure' ? moved.hash : head.hash;
  const current = library.procedures.get(head.procedure);
  if (current?.hash === hash)
    return { model: modelOf(current.procedure, hash, library.tables, calculators), changed: false };
  const kept = readKept(dataFolder, hash);
  if (kept) return { model: modelOf(kept.procedure, hash, kept.tables, calculators), changed: false };
  if (current) return { model: modelOf(current.procedure, current.hash, library.tables, calculators), changed: true };
  return `The procedure “${head.procedure}” of this job is not here; name its folder with --procedures.`;
}
