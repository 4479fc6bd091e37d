/** What still counts of a step that is asked anew of each person or in each sitting. */

import type { Step } from '../../procedure/schema.js';
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
  if (proofs.some(counts) || (!ledger && proofs.length === 0 && lost === 0))
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
