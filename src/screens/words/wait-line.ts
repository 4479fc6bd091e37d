/** How long things still take, and until when. */
import type { StepView } from '../../engine/steps/board.js';
import { fillIn } from '../../engine/values/texts.js';
import type { Desk } from '../desk.js';
import { glyphs } from '../look/glyphs.js';
import type { Block, Line, Room, Span } from '../look/line.js';
import { wrap } from '../look/wrap.js';
import { placeWords } from './entry-words.js';
import { left, timeOfDay } from './times.js';

/** What ends first stands first; what nobody knows the end of, last. */
export function soonestFirst(waiting: readonly StepView[]): StepView[] {
  const ends = (v: StepView): number => v.wait?.left ?? 0;
  return [...waiting].sort((a, b) => (ends(a) === ends(b) ? 0 : ends(a) - ends(b)));
}

/** What there is to do where nothing goes on before a wait is over. */
export function whileWaiting({ state }: Desk): string {
  const says = state.waiting.flatMap(({ step, place }) =>
    step.wait?.meanwhile ? [fillIn(state.values, step.wait.meanwhile, place)] : [],
  );
  return says.length ? `Wait. ${[...new Set(says)].join(' ')}` : 'Nothing to do but wait.';
}

/** `◷ Drive end: solvent drying, 12 min left, until 14:35`. */
function words(desk: Desk, view: StepView, room: Room): Span[] {
  const { wait } = view;
  const until = wait?.clockBack
    ? 'counted anew once something is recorded (the clock of this computer was set back)'
    : `until ${timeOfDay(wait?.until ?? 0, desk.state.now, desk.app.terminal.zone)}`;
  return [
    { text: `${glyphs(room.ascii).wait} ${placeWords(desk.state, view.place)}: ${wait?.label ?? 'time'}, ` },
    ...(Number.isFinite(wait?.left)
      ? [{ text: `${left(wait?.left ?? 0)} left`, tone: 'strong' as const }, { text: `, ${until}` }]
      : [{ text: 'how long is not known yet', tone: 'strong' as const }]),
  ];
}

/**
 * A line for each wait, what ends first at the top. The last line says how many are left out, where `most` leaves
 * some out or where there is room for the first alone.
 */
export function waitBlocks(
  desk: Desk,
  waiting: readonly StepView[],
  room: Room,
  { rank, gap, most = Number.POSITIVE_INFINITY }: { rank: number; gap?: boolean; most?: number },
): Block[] {
  if (waiting.length === 0) return [];
  const sorted = soonestFirst(waiting);
  const first = (count: number, width: number): Line[] => {
    const more = sorted.length - count;
    return sorted.slice(0, count).flatMap((v, i) => {
      const tail: Span[] =
        i === count - 1 && more > 0 ? [{ text: `, and ${more} more ${more === 1 ? 'wait' : 'waits'}` }] : [];
      return wrap([...words(desk, v, room), ...tail], width, 2);
    });
  };
  return [
    {
      rank,
      gap,
      label: 'Waiting',
      lines: (width) => first(Math.min(most, sorted.length), width),
      small: (width) => first(1, width),
    },
  ];
}
