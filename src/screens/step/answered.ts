/** What was answered in the step that is on; where it is confirmed, what its stops hang on to the last. */
import { type Desk, isBrisk } from '../desk.js';
import type { Block, Line } from '../look/line.js';
import { shorten, widthOf } from '../look/wrap.js';
import { pair } from '../words/blocks.js';
import { entryWords, labelOf, lastRecorded } from '../words/entry-words.js';
import { findsFirst } from './figures.js';
import type { MomentOf } from './moment.js';

type Answered = MomentOf['view']['answered'][number];

const wordsOf = (desk: Desk, { given }: Answered): string => entryWords(desk.state, given.entry).replace(/^.*?: /, '');

const pairOf = (desk: Desk, place: string, a: Answered): Block =>
  pair(labelOf(desk.state, a.question.key, place), wordsOf(desk, a), { rank: 6 });

/** Answers of this step so far, without those of the entries `but`. */
export function answeredBlocks({ desk, view }: MomentOf, but: readonly (number | undefined)[] = []): Block[] {
  if (view.step.repeat) return [];
  return view.answered
    .filter(({ question, given }) => question.key !== view.question?.key && !but.includes(given.entry.seq))
    .map((a) => pairOf(desk, view.place, a));
}

/** Answers that a stop of this step reads itself, and those of them that are seen in a small window too. */
function decisive({ desk, view }: MomentOf): {
  readonly all: readonly Answered[];
  readonly least: readonly Answered[];
} {
  const { step, wants, answered } = view;
  if (isBrisk(desk) || step.repeat || (!step.hazard && !step.decision)) return nothing;
  if (wants !== 'confirm' && (wants !== 'sign' || findsFirst({ desk, view }))) return nothing;
  const gates = (step.gates ?? []).filter((g) => g.at !== 'enter');
  const weight = (key: string): number =>
    Math.min(
      2,
      ...gates
        .filter((g) => desk.model.expression(g.must).names.includes(key))
        .map((g) => (g.overrule === 'never' ? 0 : 1)),
    );
  const of = (weighs: number): Answered[] => answered.filter((a) => weight(a.question.key) === weighs);
  // What nobody may overrule first.
  const [firm, rest] = [of(0), of(1)];
  return { all: [...firm, ...rest], least: [...firm, ...rest.slice(0, Math.max(0, 2 - firm.length))] };
}
const nothing = { all: [], least: [] };

/** Letters of a question that tell which it is. */
const LABEL = 18;
const GAP = '   ';

/** In as few lines as two of them a line take: labels and answers lose their ends first. */
function packed(desk: Desk, place: string, list: readonly Answered[], width: number, more: string): Line[] {
  const half = Math.floor((width - GAP.length) / 2);
  const line = (a: Answered, most: number): Line => {
    const value = wordsOf(desk, a);
    const label = shorten(labelOf(desk.state, a.question.key, place), Math.max(LABEL, most - widthOf(value) - 2), more);
    return [
      { text: `${label}  `, tone: 'quiet' },
      { text: shorten(value, Math.max(4, most - widthOf(label) - 2), more), tone: 'strong' },
    ];
  };
  const rows: Line[] = [];
  const need = (a: Answered): number =>
    Math.min(LABEL, widthOf(labelOf(desk.state, a.question.key, place))) + widthOf(wordsOf(desk, a));
  const short = [...list].sort((a, b) => need(a) - need(b));
  for (let i = 0; i < short.length; i += 2) {
    const [a, b] = short.slice(i, i + 2);
    if (a && b) rows.push([...line(a, half), { text: GAP }, ...line(b, half)]);
    else if (a) rows.push(line(a, width));
  }
  return rows;
}

/**
 * What one vouches for at the key: seen in a small window too.
 * @param recorded what was recorded last, as its own lines
 * @returns with the entries that stand there; undefined where no answer of the step can stop it
 */
export function vouchedFor(
  of: MomentOf,
  recorded: readonly Block[],
  more: string,
): { readonly entries: readonly number[]; readonly blocks: readonly Block[] } | undefined {
  const { desk, view } = of;
  const { all, least } = decisive(of);
  if (!all.length) return undefined;
  const last = lastRecorded(desk.state)?.seq;
  const told = all.some((a) => a.given.entry.seq === last);
  const before = all.filter((a) => a.given.entry.seq !== last).map((a) => pairOf(desk, view.place, a));
  const lines = (width: number): Line[] =>
    [...before, ...(told ? recorded : [])].flatMap((b) => [...(b.lines?.(width) ?? [])]);
  const held: Block = {
    rank: 2,
    gap: true,
    lines,
    least: (width) => packed(desk, view.place, least, width, more),
  };
  return { entries: all.map((a) => a.given.entry.seq), blocks: [held, ...(told ? [] : recorded)] };
}
