/** Cautions of a step at a place, and whether they were confirmed already in this sitting. Pure. */
import { kindOfCaution, sayOf, whenOf } from '../../procedure/caution.js';
import type { Model } from '../../procedure/model.js';
import type { Caution, Step } from '../../procedure/schema.js';
import { related, slot } from '../journal/ledger.js';
import type { Values } from '../values/values.js';
import type { StepView } from './step-view.js';

/** Those that can happen here: one whose condition is not known counts. */
export const cautionsAt = (values: Values, step: Step, place: string): readonly Caution[] =>
  (step.caution ?? []).filter((c) => {
    const when = whenOf(c);
    return when === undefined || values.holds(when, place) !== false;
  });

export const cautionWords = (values: Values, step: Step, place: string): readonly string[] =>
  cautionsAt(values, step, place).map(sayOf);

const byKind = new WeakMap<Model, ReadonlyMap<string, readonly Step[]>>();

function stepsWith(model: Model, kind: string): readonly Step[] {
  let known = byKind.get(model);
  if (!known) {
    const made = new Map<string, Step[]>();
    for (const s of model.procedure.steps)
      for (const c of s.caution ?? []) made.set(kindOfCaution(c), [...(made.get(kindOfCaution(c)) ?? []), s]);
    known = made;
    byKind.set(model, known);
  }
  return known.get(kind) ?? [];
}

const top = (place: string): string => place.split('.')[0] ?? place;

/** Why what was confirmed for this bearing is asked again: something unforeseen came since, or another sitting began. */
type Lapsed = 'event' | 'sitting';

/** How far a kind of danger was confirmed at or for this bearing, or for the whole job; undefined where it never was. */
function confirmedAs(values: Values, kind: string, place: string, from: number): 'holds' | Lapsed | undefined {
  const { model, ledger } = values;
  const ways = stepsWith(model, kind).flatMap((s) =>
    model.places.flatMap((p): ('holds' | Lapsed)[] => {
      if (p.kind !== s.at) return [];
      const given = values.step(slot(s.id, p.id))?.caution;
      if (!given || given.known) return [];
      if (![top(place), 'job'].includes(top(p.id)) && !given.also?.includes(top(place))) return [];
      const { seq } = given;
      // It stood there when it was confirmed: a caution with a condition may not have.
      if (!cautionsAt(values, s, p.id).some((c) => kindOfCaution(c) === kind)) return [];
      if (seq < from) return ['sitting'];
      const event = ledger.raised.some((r) => r.seq > seq && (related(r.place, place) || related(r.place, p.id)));
      return [event ? 'event' : 'holds'];
    }),
  );
  return (['holds', 'event', 'sitting'] as const).find((w) => ways.includes(w));
}

/**
 * True when each of these dangers was confirmed at or for this bearing, or for the whole job, in the sitting that began
 * with entry `from`, and nothing unforeseen was recorded there since.
 */
export const confirmedBefore = (values: Values, cautions: readonly Caution[], place: string, from: number): boolean =>
  cautions.every((c) => confirmedAs(values, kindOfCaution(c), place, from) === 'holds');

/** Why dangers that were all confirmed here before are asked again; undefined where one of them is new. */
export function lapsed(values: Values, cautions: readonly Caution[], place: string, from: number): Lapsed | undefined {
  const ways = cautions.map((c) => confirmedAs(values, kindOfCaution(c), place, from));
  if (ways.includes(undefined)) return undefined;
  return (['event', 'sitting'] as const).find((w) => ways.includes(w));
}

/** Other positions at which this very step is still to come: its danger is the same there. */
export function sameDangerAt(views: readonly StepView[], { step, place, cautions }: StepView): readonly string[] {
  const kinds = (list: readonly Caution[]): string => list.map(kindOfCaution).join('\n');
  const ahead = views.filter(
    (v) =>
      v.step === step &&
      top(v.place) !== top(place) &&
      v.status !== 'done' &&
      v.status !== 'waiting' &&
      v.status !== 'not-needed' &&
      !v.ledger?.caution &&
      kinds(v.cautions) === kinds(cautions),
  );
  return [...new Set(ahead.map((v) => top(v.place)))];
}
