/** The step is done when a person says so. Where it is dangerous, with a key of its own. */
import { fillIn } from '../../engine/values/texts.js';
import { isBrisk } from '../desk.js';
import { glyphs } from '../look/glyphs.js';
import type { Line } from '../look/line.js';
import { wrap } from '../look/wrap.js';
import { isSafety, type Moment, type MomentOf, momentId, pressBlock, safetyBlock, wrongKey } from './moment.js';

export function confirmMoment({ desk, view }: MomentOf): Moment {
  const { step, place } = view;
  const does = 'done';
  // Nothing dangerous can happen here, or it was confirmed a moment ago by somebody who knows the job.
  const tell = (width: number): Line[] =>
    wrap(
      [
        { text: `${glyphs(desk.stack.room.ascii).done} Right when  `, tone: 'quiet' },
        { text: fillIn(desk.state.values, step.tell ?? '', place) },
      ],
      width,
      2,
    );
  const danger = step.hazard === true && view.cautions.length > 0 && !isBrisk(desk);
  return {
    where: momentId(view, 'done'),
    blocks: () => [
      ...(step.tell && !isBrisk(desk)
        ? // What is confirmed is seen.
          [{ rank: 2, gap: true, lines: tell, least: tell }]
        : []),
      danger ? safetyBlock(desk, does) : pressBlock('Enter', does, isBrisk(desk)),
    ],
    hints: () => [{ key: danger ? desk.safetyKey : 'Enter', does, rank: 1, told: true }],
    press(key) {
      // The key of a danger is right wherever one is confirmed.
      const right = (step.hazard && isSafety(desk, key)) || (!danger && key.name === 'enter');
      if (right) return desk.act({ do: 'done', step: step.id, place }).then(() => true);
      if (danger) return wrongKey(desk, key, 'A dangerous step is confirmed');
      if (!isSafety(desk, key)) return undefined;
      desk.stack.say(`Here Enter says ${does}.`);
      return true;
    },
    asks: () => ({ confirm: danger ? 'danger' : 'none' }),
  };
}
