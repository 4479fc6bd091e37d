/** A hold point: initials of who vouches, then a key of its own. */

import { sameInitials } from '../../engine/journal/initials.js';
import { type Apart, apartWords, ownFigure, readOwn } from '../../engine/state/own-figure.js';
import { vouchWords } from '../../engine/state/vouch.js';
import type { StepView } from '../../engine/steps/board.js';
import { fillIn } from '../../engine/values/texts.js';
import { fieldLines } from '../ask/edit-line.js';
import { type Desk, isBrisk } from '../desk.js';
import type { Block, Room } from '../look/line.js';
import { refuseToSignPage } from '../pages/refuse-to-sign.js';
import { signAnywayPage } from '../pages/sign-anyway.js';
import { heading, paragraph } from '../words/blocks.js';
import { alertBlock, isSafety, type Moment, type MomentOf, momentId, safetyBlock, wrongKey } from './moment.js';
import { typedLine } from './typed.js';

interface Parted {
  readonly initials: string;
  readonly own?: string;
}

/**
 * What a mentor finds and the initials behind it, as they stand in one line: "1.7 mL MN", of a figure also "1.7MN". A figure
 * alone has no initials: its unit is none, unless the mentor's are written so and a unit stands before them.
 */
function parted(text: string, figure: (text: string) => boolean, mentor: string): Parted {
  const words = text.trim().split(/\s+/);
  const [before, last] = [words.slice(0, -1).join(' '), words.at(-1) ?? ''];
  const [, number = '', rest = ''] = /^(.*\d)(\D+)$/.exec(words.join(' ')) ?? [];
  if (figure(words.join(' ')) && !(before && sameInitials(last, mentor))) return { initials: '', own: words.join(' ') };
  if (!before && number && figure(number)) return { initials: rest, own: number };
  return { initials: last, ...(before ? { own: before } : {}) };
}

/** What was said when it was asked for and not given. */
function refusedBefore(view: StepView, room: Room): Block[] {
  const last = view.ledger?.refusals.at(-1);
  if (!last || last.seq < (view.ledger?.signs.at(-1)?.seq ?? 0)) return [];
  return [alertBlock(`Not signed by ${last.initials}: ${last.reason}`, room, 1)];
}

/** In the brisk pace: who signed in this sitting is offered, so that one key of its own signs again. */
function signedBefore(desk: Desk, mentor: string | undefined): string | undefined {
  if (!isBrisk(desk)) return undefined;
  const { entries, sitting } = desk.state;
  const role = mentor ? 'mentor' : 'self';
  const last = entries.findLast((e) => e.kind === 'sign' && e.role === role && e.seq >= sitting);
  return last?.kind === 'sign' ? last.initials : undefined;
}

/** Both figures before it is signed: nobody vouches for a figure that their own denies without a word. */
const apartBlocks = (apart: Apart | undefined, room: Room): Block[] =>
  apart ? [alertBlock(`${apartWords(apart)} Find the slip first: press !`, room, 0)] : [];

/** What signs stands there whatever else has room. */
const signBlocks = (desk: Desk, initials: string, allTheSame: boolean): Block[] => [
  { ...safetyBlock(desk, `I sign this as ${initials}${allTheSame ? ' all the same, with a reason' : ''}`), rank: 0 },
];

export function signMoment({ desk, view }: MomentOf): Moment {
  const { step, place } = view;
  const mentor = desk.state.ledger.job?.mentor;
  const where = momentId(view, 'sign');
  const own = mentor ? step.hold?.own : undefined;
  const bare = `${where} bare`;
  const known = own ? undefined : signedBefore(desk, mentor);
  const line = typedLine(desk, where, mentor ? (known ?? '') : desk.by);
  const longest = own ? 60 : 8;
  const isFigure = (text: string): boolean => readOwn(desk.state, step, text)?.ok === true;
  const typed = (): Parted => {
    const text = line.input().text.trim();
    return own ? parted(text, isFigure, mentor ?? '') : { initials: text };
  };
  if (known !== undefined && !desk.signing.has(where)) {
    desk.signing.add(where);
    if (desk.propose({ do: 'sign', step: step.id, place, initials: known }).ok) desk.ready = where;
  }
  const ready = (): boolean => desk.ready === where;
  const found = (): string | undefined => typed().own;
  const apart = () => {
    const text = found();
    const read = text === undefined ? undefined : ownFigure(desk.state, step, place, text);
    return read?.ok ? read.apart : undefined;
  };
  // Why it is signed all the same is asked for once both figures are seen.
  const proposed = () =>
    desk.propose({ do: 'sign', step: step.id, place, ...typed(), ...(apart() ? { reason: 'asked next' } : {}) });
  const other = (): string | undefined => {
    if (!ready()) return undefined;
    const p = proposed();
    return p.ok ? p.unusual : undefined;
  };
  const says = vouchWords(desk.state, step, place, mentor ? 'mentor' : 'self');
  return {
    where,
    blocks: (room) => [
      // It was read before the initials; a danger stays.
      alertBlock(`HOLD  ${says}`, room, other() ? 2 : 1),
      // Who knows the job needs no name for what stands in the next line.
      ...(ready() && isBrisk(desk)
        ? []
        : [
            {
              ...heading(
                own
                  ? `${fillIn(desk.state.values, own, place)}, then the initials of the mentor (${mentor}), in one line`
                  : mentor
                    ? `Initials of the mentor (${mentor})`
                    : 'Your initials',
              ),
              // What is to be typed stands there until it is.
              rank: ready() ? 3 : 0,
            },
          ]),
      ...(own && !ready() && signedBefore(desk, mentor) === undefined
        ? [paragraph('Find it yourself first: the guide’s figures stand here afterwards.', { rank: 3, tone: 'quiet' })]
        : []),
      ...refusedBefore(view, room),
      ...(mentor ? [] : [paragraph('No mentor on this job: you check yourself.', { rank: 4, tone: 'quiet' })]),
      ...(ready() && isBrisk(desk) && found() === undefined
        ? []
        : [{ rank: 0, lines: (width: number) => fieldLines(line.input(), width, room.ascii, !ready()) }]),
      ...(other() ? [paragraph(other() ?? '', { rank: 0, tone: 'strong' })] : []),
      ...(own && ready() && found() === undefined
        ? [paragraph('Without a finding of your own. The sheet says so.', { rank: 1, tone: 'strong' })]
        : []),
      ...(ready() ? apartBlocks(apart(), room) : []),
      ...(ready() ? signBlocks(desk, typed().initials, apart() !== undefined) : []),
    ],
    hints: () =>
      ready()
        ? [
            { key: desk.safetyKey, does: 'sign', rank: 1, told: true },
            { key: 'Backspace', does: found() === undefined ? 'other initials' : 'type again', rank: 2, always: true },
            { key: '!', does: 'not right yet', rank: 2 },
          ]
        : [
            { key: 'Enter', does: 'these initials', rank: 1, told: true },
            { key: '!', does: 'not right yet', rank: 2 },
          ],
    press(key) {
      const said = typed();
      if (ready()) {
        if (isSafety(desk, key) && apart()) {
          desk.stack.push(signAnywayPage(desk, view, said, apart()!, () => line.drop()));
          return true;
        }
        if (isSafety(desk, key))
          return desk.act({ do: 'sign', step: step.id, place, ...said }, { sure: true }).then((acted) => {
            desk.ready = undefined;
            if (acted === 'done') line.drop();
            return true;
          });
        if (key.name === 'char' && key.char === '!') {
          desk.stack.push(refuseToSignPage(desk, view));
          return true;
        }
        if (key.name !== 'backspace')
          return wrongKey(desk, key, 'A hold point is signed', apart() && 'Backspace, then type it again.');
        // Behind the initials nobody types a figure.
        if (found() !== undefined) line.empty();
        desk.ready = undefined;
        return true;
      }
      // Initials of those who sign here are whole: the key that signs is none of them, and stands for Enter.
      const whole = isSafety(desk, key) && sameInitials(said.initials, mentor ?? desk.by);
      if (key.name === 'enter' || whole) {
        if (!whole && line.press(key, longest)) return true;
        if (own && said.own && !said.initials) {
          desk.stack.say(
            `${said.own} is there. Now type the initials of the mentor behind it: “${said.own} ${mentor}”.`,
          );
          return true;
        }
        const proposal = proposed();
        // Initials alone would vouch for what nobody looked at: a finding is asked for once, then it is theirs to say.
        const blind = own !== undefined && found() === undefined && !desk.signing.has(bare);
        if (!proposal.ok) desk.stack.say(proposal.message);
        else if (!blind) desk.ready = where;
        else {
          desk.signing.add(bare);
          desk.stack.say(
            `Type what you find yourself before the initials: “… ${said.initials}”. Enter once more signs without it, and the sheet says so.`,
          );
        }
        return true;
      }
      if (key.name === 'char' && key.char === '!') {
        desk.stack.push(refuseToSignPage(desk, view));
        return true;
      }
      // What stands there was offered: initials that are typed take its place.
      if (!mentor && key.name === 'char' && said.initials === desk.by) line.empty();
      return line.press(key, longest) || undefined;
    },
    asks: () => (ready() ? { id: 'ready', confirm: 'danger' } : { field: 'text', confirm: 'other-key' }),
  };
}
