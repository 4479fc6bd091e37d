/** Something stops the step: why, and the ways on. */
import type { GateView } from '../../engine/board.js';
import { gateSentence } from '../../engine/propose.js';
import { emptyInput } from '../ask/asker.js';
import { pickFirst } from '../ask/choice.js';
import { itemsOf, pickBy } from '../ask/pick-list.js';
import { correctPage } from '../pages/correct.js';
import { overrulePage } from '../pages/overrule.js';
import { heading } from '../words/blocks.js';
import { labelOf, valueWords } from '../words/entry-words.js';
import { alertBlock, type Moment, type MomentOf, whereOf } from './moment.js';
import { questionMoment } from './question.js';

interface Way {
  readonly value: string;
  readonly label: string;
}

function waysOf({ desk, view }: MomentOf, gate: GateView | undefined): Way[] {
  // Rows of a log are corrected: another answer would be another row.
  const leave = gate?.gate.at === 'leave' && !view.step.repeat;
  const again = leave
    ? view.answered.map(({ question, given }) => ({
        value: `again:${question.key}`,
        label: `Answer again: ${labelOf(desk.state, question.key, view.place)} (now ${valueWords(desk.state, given.entry)})`,
      }))
    : [];
  return [
    ...again,
    { value: 'correct', label: 'Correct an earlier reading' },
    ...(gate?.gate.overrule === 'with-reason'
      ? [{ value: 'overrule', label: 'Go on all the same, with a reason and initials' }]
      : []),
  ];
}

export function gateMoment(of: MomentOf): Moment {
  const { desk, view } = of;
  const gate = view.gates[0];
  const where = whereOf(view, `gate:${gate?.gate.id}`);
  const asked = desk.again?.where === where ? view.step.ask?.find((q) => q.key === desk.again?.key) : undefined;
  if (asked) {
    const inner = questionMoment(of, asked, () => {
      desk.again = undefined;
    });
    return {
      ...inner,
      press(key) {
        const taken = inner.press(key);
        if (taken !== undefined || key.name !== 'esc') return taken;
        desk.again = undefined;
        return true;
      },
      hints: () => [...inner.hints(), { key: 'Esc', does: 'back', rank: 1 }],
    };
  }
  const ways = waysOf(of, gate);
  const input = () => desk.inputFor(where, () => emptyInput);
  const take = (way: string): boolean => {
    if (way === 'correct') desk.stack.push(correctPage(desk));
    else if (way === 'overrule')
      desk.stack.push(overrulePage(desk, view, gate?.gate.id ?? '', gateSentence(desk.state, view)));
    else desk.again = { where, key: way.slice('again:'.length) };
    return true;
  };
  return {
    where,
    blocks: (room) => [
      alertBlock(`STOP  ${gateSentence(desk.state, view)}`, room),
      heading('Ways on'),
      { rank: 1, choices: { id: where, items: itemsOf(ways), index: input().index } },
    ],
    hints: () => [{ key: `1-${Math.min(9, ways.length)}`, does: 'pick', rank: 1 }],
    press(key) {
      const picked = pickBy(input(), ways, key);
      if (!picked) return undefined;
      if ('index' in picked) desk.inputs.set(where, { ...input(), index: picked.index });
      else if ('value' in picked) return take(picked.value);
      else desk.stack.say(pickFirst);
      return true;
    },
    typing: () => false,
  };
}
