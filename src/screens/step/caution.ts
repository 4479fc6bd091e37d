/** Cautions that are read before anything else of the step. Confirmed by a key of their own. */

import { sameDangerAt } from '../../engine/cautions.js';
import { fillIn } from '../../engine/texts.js';
import { sayOf } from '../../procedure/caution.js';
import { topOf } from '../desk.js';
import { glyphs } from '../look/glyphs.js';
import { wrap } from '../look/wrap.js';
import { placeWords } from '../words/entry-words.js';
import { alertSign, bySeverity, signalled } from '../words/signal-word.js';
import { behindCaution } from './brisk.js';
import { isSafety, type Moment, type MomentOf, safetyBlock, whereOf, wrongKey } from './moment.js';
import { isBrisk } from './pace.js';
import { instruction } from './step-blocks.js';

/** What is vouched for by the key, and at which positions. */
function reads({ desk, view }: MomentOf): string {
  const also = isBrisk(desk) ? sameDangerAt(desk.state.views, view) : [];
  const all = [topOf(view.place), ...also].map((p) => placeWords(desk.state, p));
  return `I have read this and will keep to it${also.length ? `, at ${all.join(' and ')}` : ''}`;
}

export function cautionMoment(of: MomentOf): Moment {
  const { desk, view } = of;
  const { step, place } = view;
  return {
    where: whereOf(view, 'caution'),
    readWhole: true,
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
      { ...safetyBlock(desk, reads(of)), rank: 0, mustSee: true },
      ...behindCaution(of),
    ],
    hints: () => [{ key: desk.safetyKey, does: 'read, go on', rank: 1 }],
    press(key) {
      if (isSafety(desk, key)) return desk.act({ do: 'caution', step: step.id, place, wide: true }).then(() => true);
      return wrongKey(desk, key, 'A caution is confirmed');
    },
    asks: () => ({ confirm: 'danger' }),
  };
}
