/** What still counts of a step that is asked anew of each person or in each sitting. */

import type { Question, Step } from '../../procedure/schema.js';
import type { Entry } from '../journal/entry.js';
import { type StepLedger, slot } from '../journal/ledger.js';
import type { Values } from '../values/values.js';

/**
 * The record of a step as far as it counts for whoever works now; `asked` is false where nothing is to be asked: the first
 * time before any step that it stands for was done, and while one of them was done by this person in this sitting. What
 * was proven before an event took back a step that undoes it counts no longer.
 * @param sitting number of the first entry of this sitting
 */
export function countedOf(
  values: Values,
  { id, anew }: Step,
  place: string,
  sitting: number,
): { readonly asked: boolean; readonly ledger: StepLedger | undefined } {
  const ledger = values.step(slot(id, place));
  if (!anew) return { asked: true, ledger };
  const lost = Math.max(0, ...(anew.lost_with ?? []).map((s) => values.ledger.reopened.get(slot(s, 'job')) ?? 0));
  const from = Math.max(anew.each === 'sitting' ? sitting : values.ledger.since, lost);
  const counts = (e: Entry): boolean => e.seq >= from;
  const proofs = anew.after.flatMap((step) =>
    values.model.places.flatMap((p) => values.step(slot(step, p.id))?.done ?? []),
  );
  const isProven = (step: string): boolean =>
    values.model.places.some((p) => isAnswered(values, values.model.steps.get(step)!, p.id, counts));
  if (proofs.some(counts) || anew.after.some(isProven) || (!ledger && proofs.length === 0 && lost === 0))
    return { asked: ledger !== undefined, ledger };
  if (!ledger) return { asked: true, ledger };
  const kept = <T extends Entry>(e: T | undefined): T | undefined => (e && counts(e) ? e : undefined);
  return {
    asked: true,
    ledger: {
      ...ledger,
      answers: new Map([...ledger.answers].filter(([, g]) => counts(g.first))),
      caution: kept(ledger.caution),
      done: kept(ledger.done),
    },
  };
}

/** A step that is only to be said done yet: all of it was answered of late, and nothing holds it. It is not interrupted. */
function isAnswered(values: Values, step: Step, place: string, counts: (e: Entry) => boolean): boolean {
  const ledger = values.step(slot(step.id, place));
  if (!ledger || ledger.done) return false;
  const isGiven = (q: Question): boolean => {
    const given = ledger.answers.get(q.key);
    if (given) return counts(given.first);
    return q.optional === true || (q.when !== undefined && values.holds(q.when, place) === false);
  };
  return (step.ask ?? []).every(isGiven) && (step.gates ?? []).every((g) => values.holds(g.must, place) === true);
}
