/** Cautions that are read before anything else of the step. Confirmed by a key of their own. */
// @ts-nocheck


import { fillIn } from '../../engine/texts.js';
import { sayOf } from '../../procedure/caution.js';
import { glyphs } from '../look/glyphs.js';
import { wrap } from '../look/wrap.js';
import { alertSign, bySeverity, signalled } from '../words/signal-word.js';
import { isSafety, type Moment, type MomentOf, safetyBlock, whereOf, wrongKey } from './moment.js';
import { isBrisk } from './pace.js';
import { instruction } from './step-blocks.js';

export function cautionMoment(of: MomentOf): Moment {
  const { desk, view } = of;
  const { step, place } = view;
  return {
    where: whereOf(view, 'caution'),
    blocks: (room) => [
      ...view.cautions
        .map(sayOf)
        .map(signalled)
        .sort(bySeverity)
        .map(({ word, text }) => ({
          rank: 0,
          mustSee: true,
          gap: true,
          label: word,
          lines: (width: number) =>
            wrap(
              [
                { text: `${alertSign(word, glyphs(room.ascii).warn)}${word}: `, tone: 'alert' as const },
                { text: fillIn(desk.state.values, text, place), tone: 'strong' as const },
              ],
              width,
              2,
            ),
        })),
      ...(step.otherwise && !isBrisk(desk)
        ? [
            {
              rank: 3,
              gap: true,
              lines: (width: number) => wrap([{ text: `If you skip this: ${step.otherwise}`, tone: 'quiet' }], width),
            },
          ]
        : []),
      instruction(of, room),
      { ...safetyBlock(desk, 'I have read this and will keep to it'), rank: 0, mustSee: true },
    ],
    hints: () => [{ key: desk.safetyKey, does: 'read, go on', rank: 1 }],
    press(key) {
      if (isSafety(desk, key)) return desk.act({ do: 'caution', step: step.id, place }).then(() => true);
      return wrongKey(desk, key, 'A caution is confirmed');
    },
    careful: () => true,
    typing: () => false,
  };
}
