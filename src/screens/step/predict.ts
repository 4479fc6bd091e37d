/** In training a figure is expected before it is shown. */
import { fieldLines } from '../ask/edit-line.js';
import { heading, paragraph } from '../words/blocks.js';
import { labelOf } from '../words/entry-words.js';
import { type Moment, type MomentOf, whereOf } from './moment.js';
import { typedLine } from './typed.js';

/** Figures of the step that nobody has said their expectation of. */
export const unpredicted = ({ view }: MomentOf): readonly string[] =>
  (view.step.predict ?? []).filter((k) => !view.ledger?.predictions.some((p) => p.key === k));

export function predictMoment(of: MomentOf): Moment {
  const { desk, view } = of;
  const { step, place } = view;
  const key = unpredicted(of)[0] ?? '';
  const where = whereOf(view, `predict:${key}`);
  const line = typedLine(desk, where);
  return {
    where,
    blocks: (room) => [
      heading(`${labelOf(desk.state, key, place)}: what do you expect?`),
      paragraph('Say it before the guide does. A guess is allowed; nobody marks it.', { rank: 4, tone: 'quiet' }),
      { rank: 1, lines: (width) => fieldLines(line.input(), width, room.ascii) },
    ],
    hints: () => [{ key: 'Enter', does: 'that is what I expect', rank: 1 }],
    press(pressed) {
      if (pressed.name === 'enter') {
        const text = line.input().text;
        return desk.act({ do: 'predict', step: step.id, place, key, text }, { key: pressed }).then((acted) => {
          if (acted === 'done') line.drop();
          return true;
        });
      }
      return line.press(pressed, 120) || undefined;
    },
    typing: () => true,
  };
}
