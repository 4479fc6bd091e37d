/** Whether a stop that somebody went on against still counts. Pure. */
import type { Entry } from '../journal/entry.js';
import { slot } from '../journal/ledger.js';
import type { State } from './state.js';

/** in force; lapsed: readings changed since; not needed: the gate is satisfied by itself now. */
export type OverruleNow = 'in force' | 'lapsed' | 'not needed';

export function standingOf(state: State, e: Extract<Entry, { kind: 'overrule' }>): OverruleNow {
  const here = state.ledger.steps.get(slot(e.step, e.place));
  if (!here?.overrules.includes(e)) return 'lapsed';
  if (e.gate === 'wait') return 'in force';
  const view = state.view(e.step, e.place);
  const gate = state.model.steps.get(e.step)?.gates?.find((g) => g.id === e.gate);
  if (!gate || view?.status === 'not-needed') return 'lapsed';
  if (gate.when && state.values.holds(gate.when, e.place) === false) return 'not needed';
  if (state.values.holds(gate.must, e.place) === true) return 'not needed';
  if (view?.gates.some((g) => g.gate.id === e.gate)) return 'lapsed';
  return here.overrules.findLast((o) => o.gate === e.gate) === e ? 'in force' : 'lapsed';
}
