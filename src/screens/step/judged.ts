/** In training: what was expected held against the figure, as soon as it stands on the screen. */
import { predictionWords } from '../../engine/values/texts.js';
import { glyphs } from '../look/glyphs.js';
import type { Block, Room } from '../look/line.js';
import { spans } from '../words/blocks.js';
import { labelOf } from '../words/entry-words.js';
import type { MomentOf } from './moment.js';

export function judgedBlocks({ desk, view }: MomentOf, room: Room): Block[] {
  const { judge } = desk.basis;
  if (view.wants === 'predict' || !judge) return [];
  const { state } = desk;
  const said = new Map(view.ledger?.predictions.map((p) => [p.key, predictionWords(state.model, p)]));
  return [...said].flatMap(([key, typed]): Block[] => {
    const j = judge(state, key, view.place, typed);
    if (!j || j.verdict === 'unreadable') return [];
    const g = glyphs(room.ascii);
    const good = j.verdict !== 'wrong';
    const why = j.why || (good ? '' : 'The n key shows the working.');
    return [
      spans(
        [
          { text: `${good ? g.done : g.warn} `, tone: good ? 'good' : 'alert' },
          {
            text: `${labelOf(state, key, view.place)}: you expected ${typed} - `,
          },
          { text: j.verdict, tone: 'strong' },
          { text: why ? `. ${why}` : '.' },
        ],
        // At a stop the ways on need the room.
        { rank: view.wants === 'gate' ? 2 : 0, indent: 2 },
      ),
    ];
  });
}
