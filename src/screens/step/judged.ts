/** In training: what was expected held against the figure, as soon as it stands on the screen. */
import { expectedOf } from '../../training/expected.js';
import { judgePrediction } from '../../training/judge-prediction.js';
import { glyphs } from '../look/glyphs.js';
import type { Block, Room } from '../look/line.js';
import { spans } from '../words/blocks.js';
import { labelOf } from '../words/entry-words.js';
import type { MomentOf } from './moment.js';

export function judgedBlocks({ desk, view }: MomentOf, room: Room): Block[] {
  if (view.wants === 'predict') return [];
  const { state } = desk;
  const seen = new Map(view.ledger?.predictions.map((p) => [p.key, p]));
  return [...seen.values()].flatMap((p): Block[] => {
    const j = judgePrediction(p.typed ?? String(p.value), expectedOf(state, p.key, view.place));
    if (j.verdict === 'not-judged' || j.verdict === 'unreadable') return [];
    const g = glyphs(room.ascii);
    const good = j.verdict !== 'wrong';
    const why = j.slip?.says ?? (good ? '' : (j.says ?? 'The n key shows the working.'));
    return [
      spans(
        [
          { text: `${good ? g.done : g.warn} `, tone: good ? 'good' : 'alert' },
          { text: `${labelOf(state, p.key, view.place)}: you expected ${p.typed ?? String(p.value)} - ` },
          { text: j.verdict, tone: 'strong' },
          { text: why ? `. ${why}` : '.' },
        ],
        { rank: 3, indent: 2 },
      ),
    ];
  });
}
