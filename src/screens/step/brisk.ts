/** What the brisk pace adds to a question: one key for what is alike or suggested, and what is filled in with the row. */
import { alikeAt } from '../../engine/actions/propose.js';
import { fillIn, showValue, suggestionOf } from '../../engine/values/texts.js';
import { isChar } from '../../keys/key.js';
import { optionsOf, pickedWords } from '../../procedure/questions/index.js';
import type { Question } from '../../procedure/schema.js';
import { emptyInput } from '../ask/asker.js';
import { optionsLine } from '../ask/choice.js';
import { isTyped } from '../ask/index.js';
import { isBrisk } from '../desk.js';
import { glyphs } from '../look/glyphs.js';
import type { Block, Line, Room } from '../look/line.js';
import { wrapText } from '../look/wrap.js';
import { spans } from '../words/blocks.js';
import { placeWords, valueWords } from '../words/entry-words.js';
import { timeOfDay } from '../words/times.js';
import { rowTable } from './log-rows.js';
import { type Moment, type MomentOf, momentId, pressBlock, takesText } from './moment.js';
import { isEmpty, questionMoment } from './question.js';

/** Columns of a cell in which a figure of a log is typed. */
const CELL = 16;

/** Questions of this step or row that are still to be answered, apart from the one that is asked now. */
function openQuestions({ desk, view }: MomentOf, now: Question | undefined): readonly Question[] {
  const { step, place, ledger } = view;
  const { values } = desk.state;
  const rows = ledger?.rows ?? [];
  const begun = step.repeat && values.completeRows(step.id, place).length < rows.length ? rows.at(-1) : undefined;
  const has = (key: string): boolean =>
    step.repeat ? (begun?.has(key) ?? false) : (ledger?.answers.has(key) ?? false);
  return (step.ask ?? []).filter(
    // What may not apply is named once it does.
    (q) => q.key !== now?.key && !has(q.key) && (!q.when || values.holds(q.when, place) === true),
  );
}

const labelAt = ({ desk, view }: MomentOf, q: Question): string => fillIn(desk.state.values, q.label, view.place);

const together = (names: readonly string[], width: number) => wrapText(`Then  ${names.join(' · ')}`, width, 'quiet', 2);

/** What the step still asks after this, by name. */
function thenBlocks(of: MomentOf, rest: readonly Question[]): Block[] {
  if (rest.length === 0) return [];
  const names = rest.map((q) => labelAt(of, q));
  return [
    {
      rank: 3,
      gap: true,
      // One below the other each keeps its line while those above it are answered.
      lines: (width) =>
        names.length > 6 ? together(names, width) : names.flatMap((n) => wrapText(n, width, 'quiet', 2)),
      small: (width) => together(names, width),
    },
  ];
}

/** What is asked behind a caution stands below it already. */
export const behindCaution = (of: MomentOf): Block[] =>
  isBrisk(of.desk) ? thenBlocks(of, openQuestions(of, undefined)) : [];

/** Answers of the same step at another place, taken by Enter while nothing is typed. */
function alikeMoment(of: MomentOf, inner: Moment, other: string): Moment {
  const { desk, view } = of;
  const given = desk.state.view(view.step.id, other)?.answered ?? [];
  const words = given.map(({ given: g }) => valueWords(desk.state, g.entry)).join(', ');
  const empty = (): boolean => isEmpty(desk.inputs.get(inner.where) ?? emptyInput);
  return {
    ...inner,
    blocks: (room) => [
      ...inner.blocks(room),
      ...(empty() ? [pressBlock('Enter', `the same as ${placeWords(desk.state, other)}: ${words}`, true)] : []),
    ],
    hints: () =>
      empty()
        ? [{ key: 'Enter', does: 'the same', rank: 1, told: true }, ...inner.hints().filter((h) => h.key !== 'Enter')]
        : inner.hints(),
    press(key) {
      if (key.name !== 'enter' || !empty()) return inner.press(key);
      return desk.act({ do: 'alike', step: view.step.id, place: view.place, as: other }).then(() => true);
    },
  };
}

/** What the shop has at hand, taken by Enter while nothing is typed; the next of several by an arrow. */
function shelfMoment(of: MomentOf, inner: Moment, asked: Question): Moment {
  const { desk, view } = of;
  const all = asked.shelf ? desk.shelf(view.step).filter((s) => s.texts[asked.key] !== undefined) : [];
  const where = `${inner.where}:shelf`;
  const at = Math.max(0, desk.inputs.get(where)?.index ?? 0);
  const one = all[at];
  if (!one) return inner;
  const empty = (): boolean => isEmpty(desk.inputs.get(inner.where) ?? emptyInput);
  const { texts, from } = one;
  const words = (view.step.ask ?? []).flatMap((q) => {
    const text = texts[q.key];
    return text === undefined ? [] : [isTyped(q) ? text : pickedWords(q, text, desk.model.tables)];
  });
  const day = timeOfDay(Date.parse(from.at), desk.app.now(), desk.app.terminal.zone);
  return {
    ...inner,
    blocks: (room) => [
      ...inner.blocks(room),
      ...(empty() ? [pressBlock('Enter', `as in ${from.name}, ${day}: ${words.join(', ')}`, true)] : []),
    ],
    hints: () => [
      ...(empty() && all.length > 1 ? [{ key: '↓', does: `another, ${at + 1} of ${all.length}`, rank: 1 }] : []),
      ...inner.hints(),
    ],
    press(key) {
      if (!empty()) return inner.press(key);
      if (key.name === 'down' && all.length > 1) {
        desk.inputs.set(where, { ...emptyInput, index: (at + 1) % all.length });
        return true;
      }
      if (key.name !== 'enter') return inner.press(key);
      return desk.act({ do: 'shelf', step: view.step.id, place: view.place, texts, from }).then(() => true);
    },
    // It was read meanwhile: what Enter takes must have been seen.
    asks: () => {
      const asks = inner.asks?.();
      return { ...asks, id: `shelf:${from.job}:${asks?.id ?? ''}` };
    },
  };
}

/** What is filled in with the last answer, and the key that changes it first. */
function filledMoment(of: MomentOf, inner: Moment, filled: readonly Question[]): Moment {
  const { desk, view } = of;
  const due = filled.map((q) => {
    const text = suggestionOf(desk.state.values, q, view.place) ?? '';
    return `${labelAt(of, q)} ${pickedWords(q, text, desk.model.tables)}`;
  });
  const where = momentId(view, 'filled');
  return {
    ...inner,
    blocks: (room) => [
      ...inner.blocks(room),
      // In a log it stands in its row.
      ...(view.step.repeat
        ? []
        : [
            spans(
              [
                { text: `${glyphs(room.ascii).done} As due  `, tone: 'quiet' },
                { text: due.join(', '), tone: 'strong' },
              ],
              { rank: 1, indent: 2 },
            ),
          ]),
    ],
    hints: () => [...inner.hints(), { key: 'c', does: 'change what is due', rank: 1 }],
    press(key) {
      if (!isChar(key, 'c') || takesText(inner)) return inner.press(key);
      desk.again = { where, key: filled[0]?.key ?? '' };
      return true;
    },
  };
}

/** One of the questions that would be filled in, asked after all; the same key goes on to the next of them. */
function changeMoment(of: MomentOf, filled: readonly Question[], at: number): Moment {
  const { desk, view } = of;
  const where = momentId(view, 'filled');
  const inner = questionMoment(of, filled[at]!, {
    after: () => {
      desk.again = undefined;
    },
  });
  return {
    ...inner,
    hints: () => [...inner.hints(), { key: 'Esc', does: 'as due', rank: 1 }],
    press(key) {
      if (isChar(key, 'c') && !takesText(inner)) {
        const next = filled[at + 1];
        desk.again = next && { where, key: next.key };
        return true;
      }
      const taken = inner.press(key);
      if (taken !== undefined || key.name !== 'esc') return taken;
      desk.again = undefined;
      return true;
    },
  };
}

/** The row that is taken: as the last line of the table of its log, with what there is to pick from below it. */
function rowMoment(of: MomentOf, inner: Moment, now: Question, filled: readonly Question[]): Moment {
  const { desk, view } = of;
  const { values, model } = desk.state;
  const asks = (view.step.ask ?? []).filter((q) => q === now || !q.when || values.holds(q.when, view.place) === true);
  const rows = view.ledger?.rows ?? [];
  const row = values.completeRows(view.step.id, view.place).length < rows.length ? rows.at(-1) : undefined;
  const index = (desk.inputs.get(inner.where) ?? emptyInput).index;
  const cell = (room: Room, q: Question): Line => {
    const given = row?.get(q.key);
    if (given) return [{ text: showValue(model, q.key, given.value), tone: 'strong' }];
    if (filled.includes(q))
      return [{ text: pickedWords(q, suggestionOf(values, q, view.place) ?? '', model.tables), tone: 'strong' }];
    if (q.key !== now.key) return [];
    return isTyped(q) ? (inner.line?.(room, CELL) ?? []) : [{ text: `> ${glyphs(room.ascii).caret}`, tone: 'strong' }];
  };
  return {
    ...inner,
    blocks: (room) => [
      ...rowTable(of, asks, (q) => cell(room, q)),
      ...inner.blocks(room),
      ...asks
        .filter((q) => !isTyped(q))
        .map((q) =>
          spans(
            [
              { text: `${labelAt(of, q)}  `, tone: q.key === now.key ? 'strong' : 'quiet' },
              ...optionsLine(optionsOf(q, model.tables), q.key === now.key ? index : -1),
            ],
            { rank: 1, indent: 2 },
          ),
        ),
    ],
  };
}

/** The question that a step asks now, in the pace of the job. */
export function askMoment(of: MomentOf, question: Question): Moment {
  const { desk, view } = of;
  if (!isBrisk(desk)) return questionMoment(of, question);
  const open = openQuestions(of, question);
  const filled = open.filter((q) => q.filled && suggestionOf(desk.state.values, q, view.place) !== undefined);
  const chosen = filled.findIndex((q) => desk.again?.where === momentId(view, 'filled') && desk.again.key === q.key);
  if (chosen >= 0) return changeMoment(of, filled, chosen);
  const rest = open.filter((q) => !filled.includes(q));
  const repeats = view.step.repeat !== undefined;
  let moment = questionMoment(of, question, { goesOn: rest.length > 0, inRow: repeats });
  if (repeats) moment = rowMoment(of, moment, question, filled);
  const other = alikeAt(desk.state, view);
  if (other !== undefined) moment = alikeMoment(of, moment, other);
  else if (question.shelf) moment = shelfMoment(of, moment, question);
  const inner = moment;
  if (!repeats) moment = { ...inner, blocks: (room) => [...inner.blocks(room), ...thenBlocks(of, rest)] };
  return filled.length ? filledMoment(of, moment, filled) : moment;
}
