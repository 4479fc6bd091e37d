/** What a stored job stands on: the procedure that it was begun with, found again by its hash. */
import { calculators } from '../calc/index.js';
import type { Draft, Entry } from '../engine/journal/entry.js';
import { carriedValues, earlierValues } from '../engine/state/earlier.js';
import { State } from '../engine/state/state.js';
import type { Earlier } from '../engine/values/values.js';
import { readKept } from '../library/kept.js';
import type { Library } from '../library/library.js';
import { type Model, modelOf } from '../procedure/model.js';
import type { Procedure } from '../procedure/schema.js';

export interface FoundBasis {
  readonly model: Model;
  readonly earlier?: Earlier;
  readonly notice?: string;
}

/** The entries of another stored job, or undefined. */
export type ReadEntries = (id: string) => Promise<readonly Entry[] | undefined>;

/** What a stored job stands on, with the values of the job that it follows. */
export async function basisOfJob(
  library: Library,
  dataFolder: string,
  entries: readonly Entry[],
  read: ReadEntries,
): Promise<FoundBasis | string> {
  const basis = await procedureOf(library, dataFolder, entries);
  const head = entries.find((e) => e.kind === 'job');
  if (typeof basis === 'string' || head?.kind !== 'job') return basis;
  const telling = (said: string, earlier?: Earlier): FoundBasis => ({
    ...basis,
    earlier,
    notice: [basis.notice, said].filter(Boolean).join(' '),
  });
  if (head.earlierValues) {
    const { values, unfit } = carriedValues(basis.model.procedure, head.earlierValues);
    if (unfit === 0) return { ...basis, earlier: values };
    return telling(`Of the figures of the job that this one follows ${unfit} do not fit and do not count.`, values);
  }
  // Begun before jobs carried what they read.
  if (head.earlier === undefined) return basis;
  const found = await readEarlier(library, dataFolder, basis.model.procedure, head.earlier, read);
  if (typeof found !== 'string') return { ...basis, earlier: found };
  return telling(`The job that this one follows can’t be read (${found}); its figures are asked for instead.`);
}

/** Reads what a job takes over from a stored one that it follows; in a few words why not. */
async function readEarlier(
  library: Library,
  dataFolder: string,
  procedure: Procedure,
  id: string,
  read: ReadEntries,
): Promise<Earlier | string> {
  const before = await read(id);
  if (!before) return 'it is not here';
  const its = await procedureOf(library, dataFolder, before);
  if (typeof its === 'string') return 'its procedure is not here';
  const found = earlierValues(procedure, new State(its.model, before, Date.now()));
  return found.ok ? found.values : found.message.replace(/\.$/, '');
}

type First = Extract<Draft, { kind: 'job' }>;

/** A first entry with the figures of the job that it follows, so that it needs that job no more. */
export async function carrying(library: Library, dataFolder: string, first: First, read: ReadEntries): Promise<First> {
  const procedure = library.procedures.get(first.procedure)?.procedure;
  if (!procedure || first.earlier === undefined) return first;
  const found = await readEarlier(library, dataFolder, procedure, first.earlier, read);
  return typeof found === 'string' ? first : { ...first, earlierValues: Object.fromEntries(found) };
}

const models = new WeakMap<Library, Map<string, Model>>();

/** Made once: several jobs of one rotor stand on the same. The procedure is there. */
export function modelToday(library: Library, id: string): Model {
  const known = models.get(library) ?? new Map<string, Model>();
  models.set(library, known);
  const of = library.procedures.get(id)!;
  const model = known.get(id) ?? modelOf(of.procedure, of.hash, library.tables, calculators, of.shop, library.trees);
  known.set(id, model);
  return model;
}

/** The version that the job was begun with; today's only when that one is nowhere kept. A sentence when there is neither. */
async function procedureOf(
  library: Library,
  dataFolder: string,
  entries: readonly Entry[],
): Promise<FoundBasis | string> {
  const head = entries.find((e) => e.kind === 'job');
  if (head?.kind !== 'job') return 'This job has no first entry; import it again from an export.';
  const moved = entries.findLast((e) => e.kind === 'procedure');
  const hash = moved?.kind === 'procedure' ? moved.hash : head.hash;
  const current = library.procedures.get(head.procedure);
  const today = (): Model => modelToday(library, head.procedure);
  if (current?.hash === hash) return { model: today() };
  const kept = readKept(dataFolder, hash);
  if (kept) {
    const model = modelOf(kept.procedure, hash, kept.tables, calculators, kept.shop, library.trees);
    if (!current) return { model };
    const steps = await differing(kept.procedure, current.procedure);
    return {
      model,
      notice: `The procedure has changed since this job began (${steps}). The job goes on by the version that it began with.`,
    };
  }
  if (current)
    return {
      model: today(),
      notice: `This job was begun by another version of the procedure, which is not kept here; it goes on by version ${current.procedure.version}. Look at each finished step before you rely on it.`,
    };
  return `The procedure “${head.procedure}” of this job is not here; name its folder with --procedures.`;
}

async function differing(before: Procedure, after: Procedure): Promise<string> {
  const { changedSteps } = await import('../review/changed-steps.js');
  const d = changedSteps(before, after, calculators);
  const titles = [
    ...d.changed.map((c) => c.id),
    ...d.added.map((id) => `${id} new`),
    ...d.removed.map((id) => `${id} gone`),
  ];
  if (!titles.length) return 'in its tables only';
  return `steps ${titles.slice(0, 6).join(', ')}${titles.length > 6 ? ` and ${titles.length - 6} more` : ''}`;
}
