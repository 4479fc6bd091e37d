/** What somebody signs at a hold point: its words, and what they cannot vouch for since it went on against a stop. */
import type { Step } from '../../procedure/schema.js';
import { slot } from '../journal/ledger.js';
import { fillIn } from '../values/texts.js';
import type { State } from './state.js';

/** Without its last part the words would claim what the record next to them denies. */
export function vouchWords(state: State, step: Step, place: string, role: 'mentor' | 'self'): string {
  const says = (role === 'mentor' ? step.hold?.say : step.hold?.self_check) ?? '';
  const overruled = new Map(
    (state.ledger.steps.get(slot(step.id, place))?.overrules ?? []).map((o) => [o.gate, o.reason]),
  );
  const open = (step.gates ?? []).filter(
    (g) =>
      overruled.has(g.id) &&
      (g.when === undefined || state.values.holds(g.when, place) !== false) &&
      state.values.holds(g.must, place) !== true,
  );
  const except = open.map((g) => `“${overruled.get(g.id)}”`).join(' and ');
  return fillIn(state.values, says, place) + (except ? ` Except what went on against a stop here: ${except}.` : '');
}
