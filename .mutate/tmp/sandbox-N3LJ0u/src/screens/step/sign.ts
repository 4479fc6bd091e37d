/** A hold point: initials of who vouches, then a key of its own. */
// @ts-nocheck

import { fillIn } from '../../engine/texts.js';
import { fieldLines } from '../ask/edit-line.js';
import { heading, paragraph } from '../words/blocks.js';
import { alertBlock, isSafety, type Moment, type MomentOf, safetyBlock, whereOf, wrongKey } from './moment.js';
import { typedLine } from './typed.js';

export function signMoment({ desk, view }: MomentOf): Moment {
  const { step, place } = view;
  const mentor = desk.state.ledger.job?.mentor;
  const where = whereOf(view, 'sign');
  const line = typedLine(desk, where, mentor ? '' : desk.by);
  const ready = (): boolean => desk.ready === where;
  const other = (): string | undefined => {
    if (!ready()) return undefined;
    const p = desk.propose({ do: 'sign', step: step.id, place, initials: line.input().text.trim() });
    return p.ok ? p.unusual : undefined;
  };
  const says = mentor ? step.hold?.say : step.hold?.self_check;
  return {
    where,
    blocks: (room) => [
      alertBlock(`HOLD  ${fillIn(desk.state.values, says ?? '', place)}`, room),
      heading(mentor ? `Initials of the mentor (${mentor})` : 'Your initials'),
      ...(mentor ? [] : [paragraph('No mentor on this job: you check yourself.', { rank: 4, tone: 'quiet' })]),
      { rank: 1, lines: (width) => fieldLines(line.input(), width, room.ascii, !ready()) },
      ...(other() ? [paragraph(other() ?? '', { rank: 1, tone: 'strong' })] : []),
      ...(ready() ? [safetyBlock(desk, `I sign this as ${line.input().text.trim()}`)] : []),
    ],
    hints: () =>
      ready()
        ? [
            { key: desk.safetyKey, does: 'sign', rank: 1 },
            { key: 'Backspace', does: 'other initials', rank: 2 },
          ]
        : [{ key: 'Enter', does: 'these initials', rank: 1 }],
    press(key) {
      const initials = line.input().text.trim();
      if (ready()) {
        if (isSafety(desk, key))
          return desk.act({ do: 'sign', step: step.id, place, initials }, { sure: true }).then((acted) => {
            desk.ready = undefined;
            if (acted === 'done') line.drop();
            return true;
          });
        if (key.name !== 'backspace') return wrongKey(desk, key, 'A hold point is signed');
        desk.ready = undefined;
        return true;
      }
      if (key.name === 'enter') {
        const proposal = desk.propose({ do: 'sign', step: step.id, place, initials });
        if (proposal.ok) desk.ready = where;
        else desk.stack.say(proposal.message);
        return true;
      }
      // What stands there was offered: initials that are typed take its place.
      if (!mentor && key.name === 'char' && initials === desk.by) line.empty();
      return line.press(key, 8) || undefined;
    },
    typing: () => !ready(),
    careful: ready,
    enterOnlyCloses: () => !ready(),
  };
}
