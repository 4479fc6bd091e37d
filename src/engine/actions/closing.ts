/** What may not be changed while a stop holds that nobody may overrule. Pure. */
import type { Gate } from '../../procedure/schema.js';
import type { Draft } from '../journal/entry.js';
import { certainStops } from '../state/certain-stop.js';
import { withDrafts } from '../state/impact.js';
import { stopWords } from '../state/refusals.js';
import type { State } from '../state/state.js';
import type { StepView } from '../steps/board.js';

/** Stops by what was seen or measured there, the certain ones of a row that is not whole yet among them. */
const heldAt = (state: State, view: StepView): readonly { gate: Gate; says: () => string }[] =>
  view.status === 'stopped'
    ? (view.ledger?.answers.size ? view.gates : []).map((held) => ({
        gate: held.gate,
        says: () => stopWords(state, held, view.place),
      }))
    : certainStops(state, view).map(({ gate, says }) => ({ gate, says: () => says }));

/**
 * Why another value cannot be taken now: the step in which something was seen that stops the work would be asked no more,
 * and the stop would be gone with it though nothing was done about it. What the stop itself goes by may always change.
 * @returns one sentence; undefined when the drafts hide no stop
 */
export function hidesStop(state: State, drafts: readonly Draft[]): string | undefined {
  const given = drafts.flatMap((d) => (d.kind === 'answer' || d.kind === 'correct' ? [d] : []));
  const { board, ledger } = state;
  let after: State | undefined;
  for (const [id] of ledger.steps) {
    const [step = '', place = ''] = id.split('@');
    const spec = state.model.steps.get(step);
    if (!spec?.gates?.some((g) => g.overrule === 'never') || given.some((d) => d.step === step && d.place === place))
      continue;
    for (const { gate, says } of heldAt(state, board.own(spec, place))) {
      const own = [...(gate.correct ?? []), ...state.model.expression(gate.must).names];
      if (gate.overrule !== 'never' || given.every((d) => own.includes(d.key))) continue;
      after ??= withDrafts(state, drafts);
      if (after.board.own(spec, place).status !== 'not-needed') continue;
      const where = place === 'job' ? '' : ` (${state.values.placeLabel(place)})`;
      return `“${spec.title}”${where} stops the work and would be asked no more: ${says()} First do what it says, or correct the reading that stops it.`;
    }
  }
  return undefined;
}
