/** How long something still takes, and until when. */
import type { StepView } from '../../engine/board.js';
import type { Desk } from '../desk.js';
import { glyphs } from '../look/glyphs.js';
import type { Block, Room } from '../look/line.js';
import { wrap } from '../look/wrap.js';
import { placeWords } from './entry-words.js';
import { left, timeOfDay } from './times.js';

/** `◷ Drive end: solvent drying, 12 min left, until 14:35`. */
export function waitLine(desk: Desk, view: StepView, room: Room, rank: number): Block {
  const { wait } = view;
  const { now } = desk.state;
  const until = wait ? timeOfDay(wait.until, now, desk.app.terminal.zone) : '';
  const clock = wait?.clockBack ? ' (the clock of this computer was set back; check it)' : '';
  return {
    rank,
    label: 'Waiting',
    lines: (width) =>
      wrap(
        [
          { text: `${glyphs(room.ascii).wait} ${placeWords(desk.state, view.place)}: ${wait?.label ?? 'time'}, ` },
          ...(Number.isFinite(wait?.left)
            ? [{ text: `${left(wait?.left ?? 0)} left`, tone: 'strong' as const }, { text: `, until ${until}${clock}` }]
            : [{ text: 'how long is not known yet', tone: 'strong' as const }]),
        ],
        width,
        2,
      ),
  };
}
