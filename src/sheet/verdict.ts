/** The first line of the sheet: what the next owner has to know before anything else. Pure. */

import type { StopLine } from '../engine/state/stops.js';
import type { DecisionMade, Head, Overrule, RemedyLine, Said } from './sheet-data.js';
import { atPlace, count, inShort, saidThere } from './words.js';

interface Of {
  readonly head: Head;
  readonly decisions: readonly DecisionMade[];
  readonly overruled: readonly Overrule[];
  readonly remedies: readonly RemedyLine[];
  readonly stopped?: readonly StopLine[];
  /** Why it may not be run. */
  readonly barred?: readonly Said[];
  /** The procedure's own words for what became of it. */
  readonly says?: string | undefined;
}

/** Neither seen to, nor found to need nothing. */
export const isToDo = (r: RemedyLine): boolean => !r.settled && r.nothing === undefined;

/** @param last id of the step by which the work is accepted, where the procedure has one */
export function verdictOf(
  { head, decisions, overruled, remedies, stopped = [], barred = [], says }: Of,
  last: string | undefined,
): string {
  const state = head.finished ? 'FINISHED.' : `NOT FINISHED: ${head.done} of ${head.total} steps done.`;
  const bar = barred.length ? [`DO NOT RUN. ${barred.map(saidThere).join(' ')}`] : [];
  const closing = decisions.filter((d) => d.step === last);
  const accepted = (d: DecisionMade): string => {
    if (d.reopened) return `${atPlace(d.title, d.where)}: to be decided again.`;
    const words = d.answers.map((a) => `${a.label}: ${a.text}`).join(', ');
    return words ? `${atPlace(d.title, d.where)} - ${words}.` : `${atPlace(d.title, d.where)}: confirmed.`;
  };
  const given = closing.filter((d) => d.answers.length || d.confirmed);
  const again = given.filter((d) => d.reopened).map(accepted);
  const own = says === undefined ? given.map(accepted) : [says, ...again];
  // What was accepted before something was opened again is not told as accepted.
  const accepting = bar.length && !head.finished ? again : given.length ? own : ['Not accepted yet.'];
  const acceptance = last === undefined ? (says === undefined ? [] : [says]) : accepting;
  const force = overruled.filter((o) => o.now === 'in force');
  const stops = force.length
    ? [
        `${count(overruled.length, 'stop was', 'stops were')} OVERRULED${force.length < overruled.length ? `, ${force.length} still ${force.length === 1 ? 'counts' : 'count'}` : ''}: ${[...new Set(force.map((o) => atPlace(o.title, o.where)))].join('; ')}.`,
      ]
    : [];
  const now = stopped
    .filter((s) => !s.ended)
    .map((s) => `STOPPED by a check: ${atPlace(s.title, s.where)}. ${inShort(s.says)}`);
  const todo = remedies.filter(isToDo);
  const open = [
    ...(todo.length ? [`Still to be put right: ${todo.map((r) => atPlace(r.title, r.where)).join('; ')}.`] : []),
    ...(head.open.length ? [`Open: ${head.open.join('; ')}.`] : []),
  ];
  return [...bar, state, ...now, ...acceptance, ...stops, ...open].join(' ');
}
