/** The step is done when a person says so. Where it is dangerous, with a key of its own. */
import { fillIn } from '../../engine/values/texts.js';
import { isBrisk } from '../desk.js';
import { glyphs } from '../look/glyphs.js';
import { wrap } from '../look/wrap.js';
import { isSafety, type Moment, type MomentOf, momentId, pressBlock, safetyBlock, wrongKey } from './moment.js';

export function confirmMoment({ desk, view }: MomentOf): Moment {
  const { step, place } = view;
  const does = 'done';
  // Nothing dangerous can happen here, or it was confirmed a moment ago by somebody who knows the job.
  const danger = step.hazard === true && view.cautions.length > 0 && !isBrisk(desk);
  return {
    where: momentId(view, 'done'),
    blocks: (room) => [
      ...(step.tell && !isBrisk(desk)
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
      danger ? safetyBlock(desk, does) : pressBlock('Enter', does, isBrisk(desk)),
    ],
    hints: () => [{ key: danger ? desk.safetyKey : 'Enter', does, rank: 1, told: true }],
    press(key) {
      const right = danger ? isSafety(desk, key) : key.name === 'enter';
      if (right) return desk.act({ do: 'done', step: step.id, place }).then(() => true);
      return danger ? wrongKey(desk, key, 'A dangerous step is confirmed') : undefined;
    },
    asks: () => ({ confirm: danger ? 'danger' : 'none' }),
  };
}
