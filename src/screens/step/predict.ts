/** In training a figure is expected before it is shown. */
import { predictionOptions } from '../../engine/actions/predictable.js';
import type { Option } from '../../procedure/questions/kind.js';
import { canonicalUnit } from '../../units/kinds.js';
import { emptyInput, type Input } from '../ask/asker.js';
import { pickHints, pickOne } from '../ask/choice.js';
import { fieldLines } from '../ask/edit-line.js';
import { itemsOf } from '../ask/pick-list.js';
import { display } from '../ask/quantity.js';
import type { Block } from '../look/line.js';
import { heading, paragraph } from '../words/blocks.js';
import { labelOf } from '../words/entry-words.js';
import { type Moment, type MomentOf, momentId } from './moment.js';
import { typedLine } from './typed.js';

/** Figures of the step that nobody has said their expectation of. */
export const unpredicted = ({ view }: MomentOf): readonly string[] =>
  (view.step.predict ?? []).filter((k) => !view.ledger?.predictions.some((p) => p.key === k));

export function predictMoment(of: MomentOf): Moment {
  const { desk, view } = of;
  const { step, place } = view;
  const key = unpredicted(of)[0] ?? '';
  const where = momentId(view, `predict:${key}`);
  const title = heading(`${labelOf(desk.state, key, place)}: what do you expect?`);
  const invite = paragraph('Say it before the guide does. A guess is allowed.', { rank: 4, tone: 'quiet' });
  const expect = async (text: string): Promise<boolean> => {
    const read = desk.basis.judge?.(desk.state, key, place, text);
    if (read?.verdict === 'unreadable') {
      desk.stack.say(read.why);
      return true;
    }
    return desk.act({ do: 'predict', step: step.id, place, key, text }).then((acted) => {
      if (acted === 'done') desk.dropInput(where);
      return true;
    });
  };
  const options = predictionOptions(desk.model, key);
  if (options.length) return pickMoment(of, where, options, [title, invite], expect);
  const line = typedLine(desk, where);
  const { quantity, type } = desk.model.keys.get(key) ?? {};
  const unit = quantity && display(canonicalUnit[quantity], quantity);
  const how = unit
    ? [
        paragraph(`In ${unit}${type === 'double' ? '' : ', one for each'}; another unit is typed with it.`, {
          rank: 2,
          tone: 'quiet',
        }),
      ]
    : [];
  return {
    where,
    blocks: (room) => [
      title,
      invite,
      ...how,
      {
        rank: 0,
        lines: (width) => fieldLines(line.input(), width, room.ascii),
      },
    ],
    hints: () => [{ key: 'Enter', does: 'that is what I expect', rank: 1 }],
    press(pressed) {
      if (line.press(pressed, 120)) return true;
      return pressed.name === 'enter' ? expect(line.input().text) : undefined;
    },
    asks: () => ({ field: 'text' }),
  };
}

/** A word is picked: the guide's own words stand there, and what else it could say. */
function pickMoment(
  { desk }: MomentOf,
  where: string,
  options: readonly Option[],
  above: readonly Block[],
  expect: (text: string) => Promise<boolean>,
): Moment {
  const input = (): Input => desk.inputFor(where, () => emptyInput);
  return {
    where,
    blocks: () => [
      ...above,
      {
        rank: 1,
        choices: { id: where, items: itemsOf(options), index: input().index },
      },
    ],
    hints: () => pickHints(options.length, input().index),
    press(key) {
      const pressed = pickOne(options, input(), key);
      if (!pressed) return undefined;
      desk.setInput(where, pressed.input, undefined);
      if ('say' in pressed) desk.stack.say(pressed.say);
      return 'submit' in pressed ? expect(pressed.submit) : true;
    },
  };
}
