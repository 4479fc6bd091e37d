/** What a job reads from a finished one that it follows. */
import { isList } from '../../guards/guards.js';
import type { Procedure } from '../../procedure/schema.js';
import type { Answer } from '../journal/entry.js';
import { slot } from '../journal/ledger.js';
import { HALF } from '../values/known.js';
import type { Earlier } from '../values/values.js';
import type { State } from './state.js';

export type EarlierValues =
  | {
      readonly ok: true;
      /** "key@place" of the earlier job to its value; what was not known there is left out. */
      readonly values: Earlier;
      /** Labels of what the earlier job did not know. */
      readonly unknown: readonly string[];
    }
  /** One sentence. */
  | { readonly ok: false; readonly message: string };

const fits = (value: Answer, type: string): boolean => {
  const inner = /^list<(.*)>$/.exec(type)?.[1];
  if (inner !== undefined) return isList(value) && value.every((v) => fits(v, inner));
  if (typeof value === 'number' && !Number.isFinite(value)) return false;
  return typeof value === (type === 'double' ? 'number' : type === 'bool' ? 'boolean' : type);
};

/** Procedures of which a job can be followed. */
export const followed = ({ procedure, follows }: Procedure): readonly string[] =>
  follows ? [follows.procedure, ...(follows.again ? [procedure] : [])] : [];

/** Pure. `procedure` is that of the job that follows, `earlier` the state of the finished job. */
export function earlierValues(procedure: Procedure, earlier: State): EarlierValues {
  const follows = procedure.follows;
  if (!follows) return { ok: false, message: `“${procedure.title}” follows no earlier job; open it on its own.` };
  const its = earlier.model.procedure;
  if (!followed(procedure).includes(its.procedure))
    return {
      ok: false,
      message: `“${procedure.title}” follows a job of ${follows.procedure}, not of ${its.procedure}; choose another job.`,
    };
  if (!earlier.finished)
    return { ok: false, message: `The job “${earlier.ledger.job?.name ?? ''}” is not finished yet; finish it first.` };
  const values = new Map<string, Answer>();
  const unknown: string[] = [];
  const itself = its.procedure === procedure.procedure;
  for (const [own, read] of Object.entries(follows.reads))
    for (const place of earlier.model.places) {
      if (place.kind !== read.at || !earlier.values.takesPart(place.id)) continue;
      // A job of its own kind knows it under the key that this one gives it.
      const key = itself ? (read.again ?? own) : read.key;
      if (key === undefined) continue;
      const v = earlier.values.get(key, place.id);
      const name = slot(read.key ?? own, place.id);
      if (v.known && fits(v.value, read.type)) {
        values.set(name, v.value);
        if (typeof v.plusMinus === 'number' && v.plusMinus > 0) values.set(name + HALF, v.plusMinus);
      } else if (read.otherwise === undefined)
        unknown.push(place.id === 'job' ? read.label : `${read.label}, ${earlier.values.placeLabel(place.id)}`);
    }
  return { ok: true, values, unknown };
}

/**
 * The earlier figures that a job carries in its first entry. What its procedure does not read, or reads as another type,
 * is left out and counted: the entry may come from elsewhere. Pure.
 */
export function carriedValues(
  procedure: Procedure,
  carried: Readonly<Record<string, Answer>>,
): { readonly values: Earlier; readonly unfit: number } {
  const reads = Object.entries(procedure.follows?.reads ?? {});
  const types = new Map(reads.map(([own, r]) => [r.key ?? own, r.type]));
  const all = Object.entries(carried);
  const values = new Map(
    all.filter(([name, value]) => {
      const type = types.get(name.slice(0, name.indexOf('@')));
      if (name.endsWith(HALF)) return type === 'double' && fits(value, type) && Number(value) >= 0;
      return type !== undefined && fits(value, type);
    }),
  );
  return { values, unfit: all.length - values.size };
}
