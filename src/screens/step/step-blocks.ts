/** What stands around the moment of a step: what to do, its caution, its figures, what was recorded last. */
import { fillIn, showKey } from '../../engine/texts.js';
import type { Desk } from '../desk.js';
import { bigQuantity } from '../look/big-figures.js';
import { glyphs } from '../look/glyphs.js';
import type { Block, Line, Room } from '../look/line.js';
import { lineWidth, wrap } from '../look/wrap.js';
import { firstSentence, largest, pair, spans } from '../words/blocks.js';
import { entryWords, labelOf, lastRecorded, placeWords } from '../words/entry-words.js';
import { rowLines } from './log-rows.js';
import { alertBlock, type MomentOf } from './moment.js';
import { waitLine } from './pause.js';
import { unpredicted } from './predict.js';

/** Figures that an apprentice is to predict first are kept back. */
export function textOf(of: MomentOf, text: string): string {
  const hidden = of.view.wants === 'predict' ? unpredicted(of) : [];
  return fillIn(of.desk.state.values, text, of.view.place, (name) =>
    hidden.includes(name) ? '(say first)' : undefined,
  );
}

/** One line that stays while the step lasts. */
function cautionLine({ desk, view }: MomentOf, room: Room): Block[] {
  const { caution } = view.step;
  if (!caution?.length || view.wants === 'caution') return [];
  const sign: Line = [{ text: `${glyphs(room.ascii).warn} `, tone: 'alert' }];
  const firsts = caution.map((c) => firstSentence(fillIn(desk.state.values, c, view.place)));
  return [
    {
      rank: 1,
      gap: true,
      label: 'Caution',
      lines: (width) => {
        let said = firsts[0] ?? '';
        for (const next of firsts.slice(1))
          if (lineWidth([...sign, { text: `${said} ${next}` }]) <= width) said = `${said} ${next}`;
        return wrap([...sign, { text: said, tone: 'strong' }], width, 2);
      },
    },
  ];
}

function figures(of: MomentOf, room: Room): Block[] {
  const { desk, view } = of;
  const hidden = view.wants === 'predict' ? (view.step.predict ?? []) : [];
  const keys = (view.step.show ?? []).filter((k) => !hidden.includes(k));
  return keys.map((key, i): Block => {
    const label = labelOf(desk.state, key, view.place);
    const shown = showKey(desk.state.values, key, view.place, true);
    const expected = view.ledger?.predictions.findLast((p) => p.key === key);
    const tail = expected ? `   (you expected ${String(expected.value)})` : '';
    const small = (width: number): Line[] =>
      wrap(
        [
          { text: `${label}  `, tone: 'quiet' },
          { text: shown, tone: 'strong' },
          { text: tail, tone: 'quiet' },
        ],
        width,
        2,
      );
    const numeric = /^[\d−-]/.test(shown) && desk.model.keys.get(key)?.type === 'double';
    if (!numeric || i > 1 || room.reader) return { rank: 2, gap: i === 0, lines: small };
    return {
      rank: 2,
      gap: true,
      label,
      small,
      lines: (width) => {
        const rows = bigQuantity(shown, room.ascii, width);
        if (rows.length < 3) return small(width);
        return [
          [
            { text: label, tone: 'quiet' },
            { text: tail, tone: 'quiet' },
          ],
          ...rows,
        ];
      },
    };
  });
}

/** Why a decision is asked again. */
function reopened({ desk, view }: MomentOf, room: Room): Block[] {
  if (view.status !== 'reopened') return [];
  const what = view.changed.map(
    (c) => `${labelOf(desk.state, c.key, view.place)} is now ${showKey(desk.state.values, c.key, view.place)}`,
  );
  return [alertBlock(`Decide again: ${what.join('; ')}.`, room, 2)];
}

export function recordedBlock(desk: Desk, rank = 2): Block[] {
  const last = lastRecorded(desk.state);
  if (!last || last.kind === 'job') return [];
  const at = 'place' in last && last.place !== 'job' ? ` (${placeWords(desk.state, last.place)})` : '';
  return [
    {
      ...spans(
        [{ text: 'Recorded  ', tone: 'quiet' }, { text: entryWords(desk.state, last) }, { text: at, tone: 'quiet' }],
        { rank, gap: true, indent: 2 },
      ),
      label: 'Last recorded',
    },
  ];
}

export function remedyBlocks(desk: Desk, room: Room): Block[] {
  const { remedies } = desk.state;
  const first = remedies[0];
  if (!first) return [];
  const more = remedies.length > 1 ? ` And ${remedies.length - 1} more.` : '';
  const at = placeWords(desk.state, first.view.place);
  return [alertBlock(`PUT RIGHT (${at}, ${first.view.step.title}): ${first.text}${more}  Press r.`, room, 2)];
}

export function topBlocks(of: MomentOf, room: Room): Block[] {
  const { desk, view } = of;
  return [
    { rank: 2, lines: () => [[{ text: view.step.title, tone: 'quiet' }]] },
    { ...largest(textOf(of, view.step.do), glyphs(room.ascii).bar), gap: false },
    ...cautionLine(of, room),
    ...reopened(of, room),
    ...remedyBlocks(desk, room),
    ...figures(of, room),
  ];
}

export function bottomBlocks({ desk, view }: MomentOf, room: Room): Block[] {
  const answered = view.step.repeat
    ? []
    : view.answered
        .filter(({ question }) => question.key !== view.question?.key)
        .map(({ question, given }) =>
          pair(
            labelOf(desk.state, question.key, view.place),
            entryWords(desk.state, given.entry).replace(/^.*?: /, ''),
            {
              rank: 6,
            },
          ),
        );
  return [
    ...rowLines(desk, view),
    ...answered.slice(-4).map((b, i) => ({ ...b, gap: i === 0 })),
    ...desk.state.waiting
      .filter((w) => w.place !== view.place)
      .slice(0, 2)
      .map((w, i) => ({ ...waitLine(desk, w, room, 3), gap: i === 0 })),
    ...recordedBlock(desk),
  ];
}
