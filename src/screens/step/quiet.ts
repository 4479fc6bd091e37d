/** In practice: readings that show the answer itself pass at one key, until there is something to see or to decide. */
import type { StepView } from '../../engine/steps/board.js';
import { suggestionOf } from '../../engine/values/suggest.js';
import type { Question } from '../../procedure/questions/index.js';
import type { Desk } from '../desk.js';

export const quietKey = '=';
/** Entries that pass at one key at most. */
const MOST = 400;

/** What would be typed for a question where nothing is to be looked at; undefined where somebody has to look. */
export function quietText(desk: Desk, { step, place }: StepView, asked: Question): string | undefined {
  const { state, practice } = desk;
  if (!practice?.quiet || practice.ways?.(step.id, place, asked.key, state).length) return undefined;
  const row = step.repeat ? state.values.completeRows(step.id, place).length : 0;
  return (
    practice.quiet(step.id, place, asked.key, row, state) ??
    // Of a log what is due is suggested.
    (step.repeat ? suggestionOf(state.values, asked, place) : undefined)
  );
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
    if (step.repeat) {
      const begins = question.key === step.ask?.[0]?.key;
      // Another stage is due, or it sounds otherwise: that is to be seen.
      const differs =
        Number.isNaN(Number.parseFloat(text)) || begins ? (before.get(question.key) ?? text) !== text : false;
      if (begins && (changed || differs)) break;
      changed ||= differs;
      before.set(question.key, text);
    }
    const acted = await desk.act({ do: 'answer', step: step.id, place, key: question.key, text });
    if (acted !== 'done') break;
    passed += 1;
  }
  return passed;
}
