/** In the brisk pace: the other steps of one page, so that what belongs together stands on one screen. */
import type { StepView } from '../../engine/steps/board.js';
import { fillIn } from '../../engine/values/texts.js';
import { isBrisk, topOf } from '../desk.js';
import { glyphs } from '../look/glyphs.js';
import type { Block, Line, Room } from '../look/line.js';
import { wrapText } from '../look/wrap.js';
import { instructionLines, spans } from '../words/blocks.js';
import { valueWords } from '../words/entry-words.js';
import type { MomentOf } from './moment.js';
import { shorterOnce, toDo } from './read-before.js';

/** Steps of the same page at the same bearing, without the one that is on. */
function others({ desk, view }: MomentOf): readonly StepView[] {
  const { page } = view.step;
  if (page === undefined || !isBrisk(desk)) return [];
  return desk.state.views.filter(
    (v) =>
      v.step.page === page &&
      topOf(v.place) === topOf(view.place) &&
      v.status !== 'not-needed' &&
      !(v.step === view.step && v.place === view.place),
  );
}

const over = (v: StepView): boolean => v.status === 'done' || v.status === 'waiting';

/** Which of several places below the bearing it is; nothing for the bearing itself. */
function side({ desk, view }: MomentOf, v: StepView): string {
  const { values } = desk.state;
  if (v.place === view.place || v.place === topOf(v.place)) return '';
  // The bearing itself stands in the head.
  return ` (${values.placeLabel(v.place).replace(`${values.placeLabel(topOf(v.place))}, `, '')})`;
}

/** What was found on this page, a line an answer. */
export function doneOnPage(of: MomentOf, room: Room): Block[] {
  const { desk } = of;
  return others(of)
    .filter(over)
    .flatMap((v) => {
      // As they stood while their step was on: nothing jumps.
      const said = v.answered
        .filter(({ given }) => given.value !== '')
        .map(
          ({ question, given }) =>
            `${fillIn(desk.state.values, question.label, v.place)}  ${valueWords(desk.state, given.entry)}`,
        );
      return (said.length ? said : [v.step.title]).map((text) =>
        spans(
          [
            { text: `${glyphs(room.ascii).done} `, tone: 'good' },
            { text: `${text}${side(of, v)}`, tone: 'quiet' },
          ],
          { rank: 6, indent: 2 },
        ),
      );
    });
}

/** What follows on this page: its instructions, and what they ask. Figures stand there once they are due. */
export function laterOnPage(of: MomentOf, room: Room): Block[] {
  const { desk } = of;
  const { values } = desk.state;
  const training = Boolean(desk.state.ledger.job?.apprentice || desk.state.ledger.job?.practice);
  // One of which nobody knows yet whether it is needed is named once it is.
  const later = others(of).filter((v) => !over(v) && v.step !== of.view.step && v.because !== 'unsure');
  const places = (v: StepView): string => {
    const all = later.filter((o) => o.step === v.step).map((o) => desk.state.values.placeLabel(o.place));
    const own = `${desk.state.values.placeLabel(topOf(v.place))}, `;
    return v.place === topOf(v.place) ? '' : ` (${all.map((p) => p.replace(own, '')).join(', ')})`;
  };
  return later
    .filter((v, i) => later.findIndex((o) => o.step === v.step) === i)
    .map((v, i): Block => {
      // Nothing that somebody in training is still to expect.
      const open = (name: string) =>
        values.model.keys.has(name) && (training || !values.get(name, v.place).known)
          ? glyphs(room.ascii).more
          : undefined;
      const asks = (v.step.ask ?? [])
        .filter((q) => !q.when || values.holds(q.when, v.place) === true)
        .map((q) => fillIn(values, q.label, v.place));
      const what = fillIn(values, toDo(desk, v), v.place, open);
      const text = what && `${shorterOnce(desk, v, what, glyphs(room.ascii).more)}${places(v)}`;
      return {
        rank: 5,
        gap: i === 0,
        // Where it stands when its turn comes.
        lines: (width) => [
          ...(text ? instructionLines(text, width) : []).map((l): Line => [{ text: '   ' }, ...l]),
          ...(asks.length ? wrapText(`   ${asks.join(' · ')}${text ? '' : places(v)}`, width, 'quiet', 3) : []),
        ],
      };
    });
}
