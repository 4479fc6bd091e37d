/** The question that a step asks now. */

import { boundsOf } from '../../engine/actions/propose-answer.js';
import type { StepView } from '../../engine/steps/step-view.js';
import { fillIn, suggestionOf } from '../../engine/values/texts.js';
import { isChar } from '../../keys/key.js';
import { optionsOf, ownUnitOf, pickedWords, type Question, quantityOf } from '../../procedure/questions/index.js';
import { canonicalUnit } from '../../units/kinds.js';
import { type AskContext, emptyInput, type Input } from '../ask/asker.js';
import { pickHints, pickOne } from '../ask/choice.js';
import { asAsked, askerFor, isTyped, takesDigits } from '../ask/index.js';
import { itemsOf } from '../ask/pick-list.js';
import { display, isBareSize } from '../ask/quantity.js';
import { type Desk, isBrisk } from '../desk.js';
import { glyphs } from '../look/glyphs.js';
import type { Block, Room } from '../look/line.js';
import { shorten, wrapText } from '../look/wrap.js';
import { heading, paragraph, spans } from '../words/blocks.js';
import { loneKey } from './command-keys.js';
import { alertBlock, type Moment, type MomentOf, momentId, pressBlock } from './moment.js';
import { passQuiet, quietKey, quietText } from './quiet.js';
import { readBefore } from './read-before.js';

/** The question with the figures in its words filled in. */
export function filled<Q extends Question>(desk: Desk, q: Q, place: string): Q {
  const { values } = desk.state;
  return { ...q, label: fillIn(values, q.label, place), help: q.help && fillIn(values, q.help, place) };
}

function contextFor(desk: Desk, view: StepView, question: Question, goesOn: boolean): AskContext {
  const { counted, near } = boundsOf(desk.state, question, view.place);
  const options = optionsOf(question, desk.model.tables);
  return {
    ...(isBrisk(desk) ? { near, goesOn, brief: true } : {}),
    question: asAsked(question),
    // What stands behind an option was read at the other place.
    options: readBefore(desk, view) ? options.map(({ note: _, ...o }) => o) : options,
    target: counted,
    ascii: desk.stack.room.ascii,
    unit: desk.unitOf(question.key),
  };
}

/** What is suggested, as it is shown. */
function offered(desk: Desk, question: Question, suggestion: string): string {
  const kind = quantityOf(question);
  const unit = kind && canonicalUnit[kind];
  if (!kind || !unit) return pickedWords(question, suggestion, desk.model.tables);
  return suggestion.replace(unit, display(unit, kind));
}

const forYou = 'This one is for you to look at: something follows from it.';

const pass = (desk: Desk, from: NonNullable<Desk['passed']>['from']): void => {
  desk.passed = { from, at: desk.job.entries.length };
};

/** What the last key went on from by itself; nothing once more was recorded. */
const passedBy = ({ passed, job }: Desk) => (passed?.at === job.entries.length ? passed.from : undefined);

/** Records what is unusual. No digit: it must not be taken for a part of the value. */
const unusualKey = '+';

export const isEmpty = ({ text, index, items, count }: Input): boolean =>
  text === '' && index < 0 && items.length === 0 && count === 0;

/** What an invented rotor shows: without it the answer would be a guess, so it takes the place of whatever else can go. */
function shownBlock(shows: string): Block {
  const shown = spans(
    [
      { text: 'The invented rotor shows  ', tone: 'quiet' },
      { text: shows, tone: 'strong' },
    ],
    { rank: 1 },
  );
  return { ...shown, least: shown.lines };
}

/** Why it shows nothing: in little room no more than two lines, as what can be picked stands below. */
const absentBlock = (text: string, more: string): Block => ({
  ...paragraph(text, { tone: 'strong' }),
  small: (width) => wrapText(shorten(text, 2 * width - 12, more), width, 'strong').slice(0, 2),
});

/**
 * `asked` differs from the step's next question when an answer is given once more; `goesOn` is true where another field
 * of the same row follows, `inRow` where it is a cell of a table.
 */
export function questionMoment(
  { desk, view }: MomentOf,
  asked: Question,
  { after, goesOn = false, inRow = false }: { after?: () => void; goesOn?: boolean; inRow?: boolean } = {},
): Moment {
  const { step, place } = view;
  const row = step.repeat ? desk.state.values.completeRows(step.id, place).length : 0;
  const where = momentId(view, step.repeat ? `${asked.key}#${row}` : asked.key);
  const question = filled(desk, asked, place);
  const asker = askerFor(question);
  const context = contextFor(desk, view, question, goesOn);
  const cell = inRow && asker.line !== undefined;
  const input = (): Input => desk.inputFor(where, (kept) => asker.restore(kept, context));
  const unusual = desk.unusual?.where === where ? desk.unusual : undefined;
  const ways = desk.practice?.ways?.(step.id, place, asked.key, desk.state) ?? [];
  const way = desk.ways.get(where);
  if (ways.length > 0 && way === undefined) return wayMoment(desk, where, question.label, ways);
  const due = suggestionOf(desk.state.values, asked, place);
  // In practice what the rotor shows is read off: nothing else is offered.
  const read = { step: step.id, place, key: asked.key, row };
  const suggestion = due !== undefined && desk.practice?.contradicts?.(read, due, desk.state, way) ? undefined : due;
  const shows = desk.practice?.shows(step.id, place, asked.key, row, desk.state, way);

  const absent = shows === undefined ? desk.practice?.absent?.(step.id, place, asked.key, row, desk.state) : undefined;
  const quiet = after ? undefined : quietText(desk, view, asked);

  const record = async (text: string, sure: boolean): Promise<boolean> => {
    const { unit: picked, text: typed } = input();
    const acted = await desk.act({ do: 'answer', step: step.id, place, key: asked.key, text, way }, { sure });
    if (acted === 'unusual') {
      const p = desk.propose({ do: 'answer', step: step.id, place, key: asked.key, text, way });
      desk.unusual = { where, text, says: (p.ok && p.unusual) || 'This is unusual. Read it once more.' };
    } else desk.unusual = undefined;
    desk.refused = acted === 'done' ? undefined : where;
    if (acted === 'done') {
      // Picked by an arrow it stays for this question; typed behind a figure it was meant for that figure alone, and
      // whoever types one no longer thinks in what was picked before.
      const kind = quantityOf(asked);
      const unit = ownUnitOf(asked);
      if (kind && unit !== undefined) {
        const own = display(unit, kind);
        desk.noteUnit(asked.key, isBareSize(typed, kind) ? picked || undefined : own);
      }
      desk.dropInput(where);
      desk.ways.delete(where);
      after?.();
    }
    return true;
  };

  return {
    where,
    blocks: (room) => [
      ...(cell ? [] : [heading(question.label)]),
      ...(shows ? [shownBlock(shows)] : []),
      ...(absent === undefined ? [] : [absentBlock(absent, glyphs(room.ascii).more)]),
      ...(question.help && !isBrisk(desk) ? [paragraph(question.help, { rank: 4, tone: 'quiet' })] : []),
      ...(cell ? [] : asker.blocks(input(), { ...context, ascii: room.ascii })),
      ...(suggestion !== undefined && isEmpty(input()) && !unusual
        ? [pressBlock('Enter', `takes ${offered(desk, question, suggestion)}`, isBrisk(desk))]
        : []),
      ...(question.optional && suggestion === undefined && !unusual
        ? [paragraph(isBrisk(desk) ? 'Enter: left empty' : 'May be left empty: Enter.', { rank: 1, tone: 'quiet' })]
        : []),
      ...(unusual
        ? [alertBlock(unusual.says, room), pressBlock(unusualKey, 'record it all the same; Backspace to type it again')]
        : []),
    ],
    line: (room: Room, width: number) => asker.line?.(input(), { ...context, ascii: room.ascii }, width) ?? [],
    hints: () =>
      quiet !== undefined && !unusual && isEmpty(input())
        ? [...asker.hints(input(), context), { key: quietKey, does: 'take what the rotor shows', rank: 3 }]
        : unusual
          ? [
              { key: unusualKey, does: 'record it all the same', rank: 1, told: true },
              { key: 'Backspace', does: 'type it again', rank: 1, told: true },
            ]
          : asker.hints(input(), context),
    press(key) {
      const passed = passedBy(desk);
      desk.passed = undefined;
      if (key.name === 'enter' && isEmpty(input())) {
        // Enter behind a figure that went on by itself was meant for that figure.
        if (passed === 'figure') return true;
        // Behind a digit it may have been meant for that, and would leave out what nobody has read yet.
        if (passed === 'pick' && question.optional && suggestion === undefined && !isBrisk(desk)) {
          pass(desk, 'asked');
          desk.stack.say('Nothing typed. Enter again: left empty.');
          return true;
        }
      }
      if (unusual && isChar(key, unusualKey)) return record(unusual.text, true);
      // Any key that confirms something elsewhere is a digit here: none of them may take the place of what was read.
      if (unusual && key.name === 'char' && takesDigits(asked)) {
        desk.stack.say(`Press ${unusualKey} to record ${unusual.text} all the same, or Backspace to type it again.`);
        return true;
      }
      if (unusual && key.name === 'backspace' && takesDigits(asked)) {
        desk.unusual = undefined;
        desk.refused = undefined;
        desk.setInput(where, { ...input(), text: '', at: 0 }, undefined);
        return true;
      }
      if (quiet !== undefined && isChar(key, quietKey) && isEmpty(input()) && !unusual)
        return passQuiet(desk).then((n) => {
          if (n === 0) desk.stack.say(forYou);
          else desk.stack.say(n === 1 ? 'One reading has passed.' : `${n} readings have passed.`, 'good');
          return true;
        });
      // It is typed into no field that it can't fill.
      if (desk.practice?.quiet && isChar(key, quietKey) && isEmpty(input()) && !unusual) {
        desk.stack.say(forYou);
        return true;
      }
      if (key.name === 'enter' && isEmpty(input()) && (suggestion !== undefined || question.optional))
        return record(suggestion ?? '', false);
      // After a value that was not taken a digit begins anew: it must never be added to the old ones.
      const afresh = desk.refused === where && key.name === 'char' && takesDigits(asked);
      const pressed = asker.press(afresh ? { ...input(), text: '', at: 0 } : input(), key, context);
      if (!pressed) return undefined;
      desk.refused = undefined;
      if (unusual && pressed.input === input() && 'submit' in pressed && pressed.submit === unusual.text) {
        desk.stack.say(`Enter does not record it; press ${unusualKey} to record it, or Backspace to type it again.`);
        return true;
      }
      desk.setInput(where, pressed.input, asker.keep(pressed.input));
      if ('say' in pressed) desk.stack.say(pressed.say);
      else if (!('submit' in pressed)) desk.unusual = undefined;
      if (!('submit' in pressed)) return true;
      const lone = asked.kind === 'text' ? loneKey(pressed.submit) : undefined;
      if (lone !== undefined) {
        desk.unusual = { where, text: pressed.submit, says: lone };
        return true;
      }
      return record(pressed.submit, false).then((done) => {
        if (key.name === 'char' && desk.refused === undefined) pass(desk, takesDigits(asked) ? 'figure' : 'pick');
        return done;
      });
    },
    asks: () => ({
      // The same value, held against what is usual, is asked about once more; so is an Enter.
      id: unusual?.text ?? (passedBy(desk) === 'asked' ? 'left empty' : ''),
      field: asker.takesLetters(input()) ? 'text' : isTyped(asked) ? 'digits' : 'none',
    }),
  };
}

/** In practice the way of measuring is chosen before the invented rotor shows anything. */
function wayMoment(desk: Desk, where: string, label: string, ways: readonly { way: string; label: string }[]): Moment {
  const options = ways.map((w) => ({ value: w.way, label: w.label }));
  const at = `${where}:way`;
  const input = () => desk.inputFor(at, () => emptyInput);
  return {
    where: at,
    blocks: () => [
      heading(`${label}: how do you go about it?`),
      { rank: 1, choices: { id: at, items: itemsOf(options), index: input().index } },
    ],
    hints: () => pickHints(options.length, input().index),
    press(key) {
      const pressed = pickOne(options, input(), key);
      if (!pressed) return undefined;
      desk.inputs.set(at, pressed.input);
      if ('say' in pressed) desk.stack.say(pressed.say);
      if ('submit' in pressed) {
        if (key.name === 'char') pass(desk, 'pick');
        desk.ways.set(where, pressed.submit);
        desk.inputs.delete(at);
      }
      return true;
    },
  };
}
