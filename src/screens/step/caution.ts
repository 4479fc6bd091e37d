/** Cautions that are read before anything else of the step. Confirmed by a key of their own. */
import { lapsed, sameDangerAt } from '../../engine/steps/cautions.js';
import { fillIn } from '../../engine/values/texts.js';
import { sayOf } from '../../procedure/caution.js';
import { isBrisk, topOf } from '../desk.js';
import { glyphs } from '../look/glyphs.js';
import type { Block, Line, Room } from '../look/line.js';
import { wrap } from '../look/wrap.js';
import { firstSentence, paragraph } from '../words/blocks.js';
import { placeWords } from '../words/entry-words.js';
import { alertSign, bySeverity, type SignalWord, signalled } from '../words/signal-word.js';
import { behindCaution } from './brisk.js';
import { isSafety, type Moment, type MomentOf, momentId, safetyBlock, wrongKey } from './moment.js';
import { instruction } from './step-blocks.js';

/** What is vouched for by the key, and at which positions. */
function reads({ desk, view }: MomentOf): string {
  const also = isBrisk(desk) ? sameDangerAt(desk.state.views, view) : [];
  const all = [topOf(view.place), ...also].map((p) => placeWords(desk.state, p));
  if (!isBrisk(desk)) return 'I have read this and will keep to it';
  return `read, I keep to it${also.length ? `: ${all.join(' and ')}` : ''}`;
}

/** Who read it a while ago is told why it is asked once more. */
function againBlocks({ desk, view }: MomentOf): Block[] {
  const { values, sitting } = desk.state;
  const why = isBrisk(desk) ? lapsed(values, view.cautions, view.place, sitting) : undefined;
  if (!why) return [];
  const since = why === 'event' ? 'something unforeseen was recorded since' : 'there was a pause, or other hands';
  return [paragraph(`Asked again: ${since}.`, { rank: 3, tone: 'quiet' })];
}

/** The hazard with what to do stands on lines of its own: these stay when it is known. */
function cautionLines(word: SignalWord, text: string, width: number, room: Room): Line[] {
  // In a small window no line is given away.
  const first = room.cols >= 80 && room.rows >= 24 ? firstSentence(text) : text;
  const rest = text.slice(first.length).trim();
  return [
    ...wrap(
      [
        { text: `${alertSign(word, glyphs(room.ascii).warn)}${word}: `, tone: 'alert' },
        { text: first, tone: 'strong' },
      ],
      width,
      2,
    ),
    ...(rest ? wrap([{ text: `  ${rest}`, tone: 'strong' }], width, 2) : []),
  ];
}

export function cautionMoment(of: MomentOf): Moment {
  const { desk, view } = of;
  const { step, place } = view;
  return {
    where: momentId(view, 'caution'),
    readWhole: true,
    blocks: (room) => [
      ...againBlocks(of),
      ...view.cautions
        .map(sayOf)
        .map(signalled)
        .sort(bySeverity)
        .map(({ word, text }) => ({
          rank: 0,
          mustSee: true,
          gap: true,
          label: word,
          lines: (width: number) => cautionLines(word, fillIn(desk.state.values, text, place), width, room),
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
    hints: () => [{ key: desk.safetyKey, does: 'read, go on', rank: 1, told: true }],
    press(key) {
      if (isSafety(desk, key)) return desk.act({ do: 'caution', step: step.id, place, wide: true }).then(() => true);
      return wrongKey(desk, key, 'A caution is confirmed');
    },
    asks: () => ({ confirm: 'danger' }),
  };
}
