/** In practice: readings that show the answer itself pass at one key, until there is something to see or to decide. */
import { certainStops } from '../../engine/state/certain-stop.js';
import { withDrafts } from '../../engine/state/impact.js';
import type { StepView } from '../../engine/steps/board.js';
import { suggestionOf } from '../../engine/values/texts.js';
import type { Question } from '../../procedure/questions/index.js';
import type { Desk } from '../desk.js';
import { warningsAt } from './warnings.js';

export const quietKey = '=';
/** Entries that pass at one key at most. */
const MOST = 400;

/** A word or a figure that is copied: one after the other at one key. */
const copied: ReadonlySet<Question['kind']> = new Set([
  'text',
  'number',
  'quantity',
  'dimensions',
  'choice-from-table',
]);
/** Picked among others: somebody's choice, so each is taken by a key of its own. */
const picked: ReadonlySet<Question['kind']> = new Set(['choice', 'yes-no']);

/** What would be typed for a question where nothing is to be looked at or chosen; undefined where somebody has to. */
export function quietText(desk: Desk, { step, place }: StepView, asked: Question): string | undefined {
  const { state, practice } = desk;
  if (!practice?.quiet || practice.ways?.(step.id, place, asked.key, state).length) return undefined;
  if (step.decision) return undefined;
  const rows = step.repeat ? state.values.completeRows(step.id, place) : [];
  const row = rows.length;
  if (!copied.has(asked.kind) && (step.repeat || !picked.has(asked.kind))) {
    // Of a log what is as in the row before; the first is named by whoever hears it.
    const before = rows.at(-1)?.get(asked.key)?.value;
    const now = before === undefined ? undefined : practice.quiet(step.id, place, asked.key, row, state);
    return now === before ? now : undefined;
  }
  return (
    practice.quiet(step.id, place, asked.key, row, state) ??
    // Of a log what is due is suggested.
    (step.repeat ? suggestionOf(state.values, asked, place) : undefined)
  );
}

/** True where nothing is warned of and nothing stops because of it. */
function isQuiet(desk: Desk, view: StepView, action: Parameters<Desk['propose']>[0]): boolean {
  const proposal = desk.propose(action);
  if (!proposal.ok || proposal.unusual) return false;
  const after = withDrafts(desk.state, proposal.drafts, { earlier: desk.earlier });
  const then = after.view(view.step.id, view.place);
  if (!then || then.status === 'stopped' || then.gates.length || certainStops(after, then).length) return false;
  return warningsAt(after, then).length <= warningsAt(desk.state, view).length;
}

/** @returns how many readings have passed */
export async function passQuiet(desk: Desk): Promise<number> {
  const before = new Map<string, string>();
  let passed = 0;
  let changed = false;
  while (passed < MOST) {
    const stage = desk.stage();
    if (stage.kind !== 'step' || stage.view.wants !== 'question' || !stage.view.question) break;
    const { view } = stage;
    const { step, place } = view;
    const { question } = stage.view;
    const text = question && quietText(desk, view, question);
    if (!question || text === undefined) break;
    const chosen = !step.repeat && picked.has(question.kind);
    if (chosen && passed > 0) break;
    if (step.repeat) {
      const begins = question.key === step.ask?.[0]?.key;
      // Another stage is due, or it sounds otherwise: that is to be seen.
      const differs =
        Number.isNaN(Number.parseFloat(text)) || begins ? (before.get(question.key) ?? text) !== text : false;
      if (begins && (changed || differs)) break;
      changed ||= differs;
      before.set(question.key, text);
    }
    const action = { do: 'answer', step: step.id, place, key: question.key, text } as const;
    if (!isQuiet(desk, view, action)) break;
    const acted = await desk.act(action);
    if (acted !== 'done') break;
    passed += 1;
    if (chosen) break;
  }
  return passed;
}
