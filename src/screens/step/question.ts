/** The question that a step asks now. */
import { fillIn } from '../../engine/texts.js';
import type { Question } from '../../procedure/schema.js';
import type { AskContext, Input } from '../ask/asker.js';
import { askerFor } from '../ask/index.js';
import type { Desk } from '../desk.js';
import { heading, paragraph, spans } from '../words/blocks.js';
import { alertBlock, isSafety, type Moment, type MomentOf, safetyBlock, whereOf } from './moment.js';

/** The question with the figures in its words filled in. */
export function filled<Q extends Question>(desk: Desk, q: Q, place: string): Q {
  const { values } = desk.state;
  return { ...q, label: fillIn(values, q.label, place), help: q.help && fillIn(values, q.help, place) };
}

function contextFor(desk: Desk, question: Question, place: string): AskContext {
  const to = question.kind === 'counter' ? desk.state.values.evaluate(question.to, place) : undefined;
  return {
    question,
    tables: desk.model.tables,
    target: to?.known && typeof to.value === 'number' ? to.value : undefined,
    ascii: desk.stack.room.ascii,
  };
}

const measured: readonly Question['kind'][] = ['quantity', 'number', 'dimensions', 'choice-from-table'];

/** `asked` differs from the step's next question when an answer is given once more. */
export function questionMoment({ desk, view }: MomentOf, asked: Question, after?: () => void): Moment {
  const { step, place } = view;
  const row = step.repeat ? desk.state.values.completeRows(step.id, place).length : 0;
  const where = whereOf(view, step.repeat ? `${asked.key}#${row}` : asked.key);
  const question = filled(desk, asked, place);
  const asker = askerFor(question);
  const context = contextFor(desk, question, place);
  const input = (): Input => desk.inputFor(where, (kept) => asker.restore(kept, context));
  const unusual = desk.unusual?.where === where ? desk.unusual : undefined;
  const shows = desk.practice?.shows(step.id, place, asked.key, row);

  const record = async (text: string, key: Parameters<Moment['press']>[0], sure: boolean): Promise<boolean> => {
    const acted = await desk.act({ do: 'answer', step: step.id, place, key: asked.key, text }, { key, sure });
    if (acted === 'unusual') {
      const p = desk.propose({ do: 'answer', step: step.id, place, key: asked.key, text });
      desk.unusual = { where, text, says: (p.ok && p.unusual) || 'This is unusual. Measure once more.' };
    } else desk.unusual = undefined;
    desk.refused = acted === 'done' ? undefined : where;
    if (acted === 'done') {
      desk.dropInput(where);
      after?.();
    }
    return true;
  };

  return {
    where,
    blocks: (room) => [
      heading(question.label),
      ...(shows
        ? [
            spans(
              [
                { text: 'The invented rotor shows  ', tone: 'quiet' },
                { text: shows, tone: 'strong' },
              ],
              { rank: 2 },
            ),
          ]
        : []),
      ...(question.help ? [paragraph(question.help, { rank: 4, tone: 'quiet' })] : []),
      ...asker.blocks(input(), { ...context, ascii: room.ascii }),
      ...(question.optional && !unusual ? [paragraph('May be left empty: Enter.', { rank: 4, tone: 'quiet' })] : []),
      ...(unusual
        ? [alertBlock(unusual.says, room), safetyBlock(desk, 'record it all the same; or type it again')]
        : []),
    ],
    hints: () =>
      unusual ? [{ key: desk.safetyKey, does: 'record it all the same', rank: 1 }] : asker.hints(input(), context),
    press(key) {
      if (unusual && isSafety(desk, key)) return record(unusual.text, key, true);
      // After a value that was not taken a digit begins anew: it must never be added to the old ones.
      const afresh = desk.refused === where && key.name === 'char' && measured.includes(asked.kind);
      const pressed = asker.press(afresh ? { ...input(), text: '', at: 0 } : input(), key, context);
      if (!pressed) return undefined;
      desk.refused = undefined;
      if (unusual && pressed.input === input() && 'submit' in pressed && pressed.submit === unusual.text) {
        desk.stack.say(`Enter does not record an unusual value; press ${desk.safetyKey}, or type it again.`);
        return true;
      }
      desk.setInput(where, pressed.input, asker.keep(pressed.input));
      if ('say' in pressed) desk.stack.say(pressed.say);
      else if (!('submit' in pressed)) desk.unusual = undefined;
      return 'submit' in pressed ? record(pressed.submit, key, false) : true;
    },
    typing: () => asker.takesLetters(input()),
  };
}
