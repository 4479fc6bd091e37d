/** In training: what was expected held against the figure, as soon as it stands on the screen. */
import type { StepView } from '../../engine/steps/board.js';
import { predictionWords } from '../../engine/values/texts.js';
import type { Desk } from '../desk.js';
import { glyphs } from '../look/glyphs.js';
import type { Block, Room } from '../look/line.js';
import { spans } from '../words/blocks.js';
import { labelOf } from '../words/entry-words.js';
import { type MomentOf, momentId } from './moment.js';

/** What was typed here was not taken, or is to be read once more. */
const isRefused = ({ refused, unusual }: Desk, view: StepView): boolean =>
  [refused, unusual?.where].some((where) => where?.startsWith(momentId(view, '')));

export function judgedBlocks({ desk, view }: MomentOf, room: Room): Block[] {
  const { judge } = desk.basis;
  // At a stop, a hold point or a refusal it would take the lines, and tell a mentor what to find.
  if (!judge || !['question', 'confirm'].includes(view.wants) || isRefused(desk, view)) return [];
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
