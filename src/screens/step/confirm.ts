/** The step is done when a person says so. Where it is dangerous, with a key of its own. */
import { fillIn } from '../../engine/texts.js';
import { glyphs } from '../look/glyphs.js';
import { wrap } from '../look/wrap.js';
import { isSafety, type Moment, type MomentOf, pressBlock, safetyBlock, whereOf, wrongKey } from './moment.js';

export function confirmMoment({ desk, view }: MomentOf): Moment {
  const { step, place } = view;
  const does = 'done as said';
  return {
    where: whereOf(view, 'done'),
    blocks: (room) => [
      ...(step.tell
        ? [
            {
              rank: 2,
              gap: true,
              lines: (width: number) =>
                wrap(
                  [
                    { text: `${glyphs(room.ascii).done} Right when  `, tone: 'quiet' as const },
                    { text: fillIn(desk.state.values, step.tell ?? '', place) },
                  ],
                  width,
                  2,
                ),
            },
          ]
        : []),
      step.hazard ? safetyBlock(desk, does) : pressBlock('Enter', does),
    ],
    hints: () => [{ key: step.hazard ? desk.safetyKey : 'Enter', does, rank: 1 }],
    press(key) {
      const right = step.hazard ? isSafety(desk, key) : key.name === 'enter';
      if (right) return desk.act({ do: 'done', step: step.id, place }).then(() => true);
      return step.hazard ? wrongKey(desk, key, 'A dangerous step is confirmed') : undefined;
    },
    careful: () => step.hazard === true,
    typing: () => false,
  };
}
