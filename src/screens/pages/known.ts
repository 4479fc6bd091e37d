/** Before a late start: what the steps that were passed over have found, with what there was to be seen. */
import { entriesOf } from '../../engine/state/state.js';
import type { StepView } from '../../engine/steps/board.js';
import type { Desk } from '../desk.js';
import type { Block } from '../look/line.js';
import { heading, paragraph, spans } from '../words/blocks.js';
import { entryWords, labelOf, placeWords, valueWords } from '../words/entry-words.js';
import { ReadingPage } from './reading-page.js';

/** True where steps were passed over in this practice job. */
export const beganLate = ({ state }: Desk): boolean => state.ledger.job?.from !== undefined;

/** What is typed 14000 rpm or 58 C is shown 14 000 rpm and 58 °C. */
const plain = (text: string): string => text.replace(/[\s\u00a0\u202f°]/g, '');

/** Each answer of a step with what was seen; of a log the last row. */
function answersOf(desk: Desk, view: StepView): Block[] {
  const { step, place } = view;
  const rows = view.ledger?.rows ?? [];
  const given = step.repeat ? rows.at(-1) : view.ledger?.answers;
  const where = place === 'job' ? '' : `${placeWords(desk.state, place)}: `;
  return (step.ask ?? []).flatMap((q): Block[] => {
    const g = given?.get(q.key);
    if (!g) return [];
    const value = valueWords(desk.state, g.entry);
    const way = g.entry.way ?? g.first.way;
    const seen = step.repeat ? undefined : desk.practice?.shows(step.id, place, q.key, 0, desk.state, way);
    return [
      spans(
        [
          { text: `${where}${labelOf(desk.state, q.key, place)}  `, tone: 'quiet' },
          { text: value, tone: 'strong' },
          ...(seen && !plain(seen).includes(plain(value)) ? [{ text: `  ${seen}` }] : []),
        ],
        { rank: 1, indent: 2 },
      ),
    ];
  });
}

export function knownPage(desk: Desk): ReadingPage {
  const { state } = desk;
  const begun = desk.model.procedure.phases.find((p) => p.id === state.ledger.job?.from)?.title ?? '';
  const blocks = (): Block[] => {
    const phases = desk.model.procedure.phases.flatMap((phase) => {
      const own = state.views.filter((v) => v.step.phase === phase.id).flatMap((v) => answersOf(desk, v));
      return own.length ? [heading(phase.title), ...own] : [];
    });
    const events = entriesOf(state, 'raise', 'overrule');
    return [
      heading('What is known of this rotor'),
      ...(desk.practice?.story ? [paragraph(desk.practice.story)] : []),
      paragraph(`What comes before “${begun}” is done. This was found. In the menu it can be read again.`),
      ...(events.length
        ? [heading('What happened'), ...events.map((e) => paragraph(entryWords(state, e), { indent: 2 }))]
        : []),
      ...phases,
    ];
  };
  return new ReadingPage(
    {
      name: 'known',
      head: `What is known · ${state.ledger.job?.name ?? ''}`,
      blocks,
      hints: [{ key: 'Enter', does: 'go on', rank: 1 }],
      press(key) {
        if (key.name !== 'enter') return false;
        desk.stack.pop();
        return true;
      },
    },
    desk.stack,
  );
}
