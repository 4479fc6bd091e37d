/** One row of a long table: type the beginning, then pick with Enter. Digits are part of what is typed. */
import type { Controls, Option } from '../../procedure/questions/kind.js';
import { type Printed, printedSize, printedWords } from '../../procedure/questions/printed-size.js';
import { paragraph } from '../words/blocks.js';
import { type AskContext, type Asker, emptyInput, type Input } from './asker.js';
import { edit, fieldLines } from './edit-line.js';
import { move } from './pick-list.js';

type Q = Controls['row'];

/** Rows that hold what was typed, those that begin with it first; the question's own options stay in reach. */
function matching(options: readonly Option[], extra: number, typed: string): readonly Option[] {
  const wanted = typed.trim().toLowerCase();
  if (!wanted) return options;
  const own = options.slice(0, extra);
  const rows = options.slice(extra);
  const begins = rows.filter((o) => o.value.toLowerCase().startsWith(wanted));
  const holds = rows.filter((o) => !begins.includes(o) && o.label.toLowerCase().includes(wanted));
  const exact = begins.filter((o) => o.value.toLowerCase() === wanted);
  return [...exact, ...begins.filter((o) => !exact.includes(o)), ...holds, ...own];
}

/** What was typed as it is printed on the ring: a row with letters behind it. */
function printed({ text }: Input, { question, options }: AskContext<Q>): Printed | undefined {
  const rows = options.slice(question.options?.length ?? 0).map((o) => o.value);
  return question.suffixes && printedSize(text, rows, question.suffixes);
}

const shown = (input: Input, context: AskContext<Q>): readonly Option[] =>
  matching(context.options, context.question.options?.length ?? 0, printed(input, context)?.row ?? input.text);

export const askChoiceFromTable: Asker<Q> = {
  press(input, key, context) {
    const options = shown(input, context);
    if (key.name !== 'home' && key.name !== 'end') {
      const to = move(input.index, options.length, key);
      if (to !== undefined) return { input: { ...input, index: to } };
    }
    if (key.name === 'enter') {
      const hit = taken(input, context);
      const size = printed(input, context);
      if (hit) return { input, submit: size?.row === hit.value ? input.text.trim() : hit.value };
      // Only what is printed on a ring has letters behind it that mean something.
      const typed = context.question.suffixes
        ? 'Type the size as it stands on the ring'
        : `${context.question.label}: type its beginning`;
      return { input, say: `${typed}, or pick a line with the arrows, then Enter.` };
    }
    const edited = edit(input, key, 40);
    return edited && { input: { ...edited, index: edited.text === input.text ? input.index : -1 } };
  },
  blocks(input, context) {
    const options = shown(input, context);
    const size = printed(input, context);
    return [
      { rank: 0, lines: (width) => fieldLines(input, width, context.ascii) },
      ...(size ? [paragraph(printedWords(size), { rank: 1, indent: 2 })] : []),
      {
        rank: 1,
        choices: {
          id: `${context.question.key}:${input.text}`,
          items: options.map((o) => ({ value: o.value, label: o.label, note: o.note })),
          index: input.index,
        },
      },
    ];
  },
  hints: (input, context) => [
    { key: '0-9', does: 'type it', rank: 1, told: true },
    { key: '↑↓', does: 'move', rank: 2 },
    ...(taken(input, context) ? [{ key: 'Enter', does: 'select', rank: 1, told: true }] : []),
  ],
  takesLetters: (input) => input.text !== '',
  keep: (input) => input.text || undefined,
  restore: (kept) => ({ ...emptyInput, text: kept, at: kept.length }),
};

/** What Enter takes: the line that is highlighted, else the one that what was typed leaves. */
function taken(input: Input, context: AskContext<Q>): Option | undefined {
  const options = shown(input, context);
  if (input.index >= 0) return options[input.index];
  return input.text.trim() === '' ? undefined : exactOrOnly(options, input, context);
}

function exactOrOnly(options: readonly Option[], input: Input, context: AskContext<Q>): Option | undefined {
  const { question } = context;
  const wanted = (printed(input, context)?.row ?? input.text).trim().toLowerCase();
  const exact = options.find((o) => o.value.toLowerCase() === wanted);
  const rows = options.slice(0, options.length - (question.options?.length ?? 0));
  return exact ?? (rows.length === 1 ? rows[0] : undefined);
}
