/** What stands around the moment of a step: what to do, its caution, its figures, what was recorded last. */

import type { Entry } from '../../engine/journal/entry.js';
import { certainStops } from '../../engine/state/certain-stop.js';
import { entriesOf } from '../../engine/state/state.js';
import { unfitSentence } from '../../engine/state/unfit.js';
import type { StepView } from '../../engine/steps/board.js';
import { fillIn, showKey } from '../../engine/values/texts.js';
import { sayOf } from '../../procedure/caution.js';
import { type Desk, isBrisk, topOf } from '../desk.js';
import { glyphs } from '../look/glyphs.js';
import type { Block, Line, Room, Span } from '../look/line.js';
import { lineWidth, widthOf, wrap } from '../look/wrap.js';
import { firstSentence, largest, paragraph, sentencesUpTo, spans } from '../words/blocks.js';
import { entryWords, labelOf, lastRecorded, placeWords } from '../words/entry-words.js';
import { alertSign, bySeverity, signalled } from '../words/signal-word.js';
import { waitBlocks } from '../words/wait-line.js';
import { answeredBlocks, vouchedFor } from './answered.js';
import { figures, findsFirst } from './figures.js';
import { judgedBlocks } from './judged.js';
import { pauseBlocks, rowLines } from './log-rows.js';
import { alertBlock, answersAgain, type MomentOf } from './moment.js';
import { unpredicted } from './predict.js';
import { readBefore, shorterOnce, toDo } from './read-before.js';
import { warningBlocks, warningLine, warningsAt } from './warnings.js';

/** Figures that an apprentice is to predict first are kept back. */
function textOf(of: MomentOf, text: string): string {
  const hidden = of.view.wants === 'predict' ? unpredicted(of) : [];
  return fillIn(of.desk.state.values, text, of.view.place, (name) =>
    hidden.includes(name) ? '(say first)' : undefined,
  );
}

/** What to do now; nothing where title and questions say it. */
export function instruction(of: MomentOf, room: Room): Block {
  if (toDo(of.desk, of.view) === '') return { rank: 7 };
  const g = glyphs(room.ascii);
  const text = shorterOnce(of.desk, of.view, textOf(of, toDo(of.desk, of.view)), g.more);
  const { view } = of;
  // It stood beside its dangers, or at the question before.
  const known = view.wants !== 'caution' && (view.cautions.length > 0 || view.answered.length > 0);
  const last = view.answered.length > 0 || view.wants === 'confirm';
  const whole = { ...largest(text, g.bar), known, upTo: sentencesUpTo(text, g.bar, g.more, last) };
  // What stands around it is needed for the rest of the page.
  return isBrisk(of.desk) ? { ...whole, lines: whole.small, roomy: false } : whole;
}

/** What is laid out, a group a line: nothing of it folds away, but for the ways on at a stop, when it was read. */
const kitBlocks = (of: MomentOf): Block[] =>
  (of.view.step.lays_out ?? []).map((g, i) =>
    spans(
      [
        { text: `${g.for}  `, tone: 'quiet' },
        { text: g.things.join(', '), tone: 'strong' },
      ],
      { rank: stopped(of) ? 5 : 1, gap: i === 0, indent: 2, mustSee: true },
    ),
  );

const gravest: ReadonlySet<string> = new Set(['DANGER', 'WARNING']);

/** What kills or maims at a step that is waited for: it does so until its end. */
export const waitDangers = (desk: Desk, waiting: readonly StepView[], room: Room): Block[] =>
  dangersOf(
    desk,
    waiting.filter((v) => v.step.hazard),
    room,
    gravest,
  );

/** The first sentence of each danger of these steps, the worst first. */
export function dangersOf(desk: Desk, views: readonly StepView[], room: Room, words?: ReadonlySet<string>): Block[] {
  const said = views
    .flatMap((v) => v.cautions.map((c) => signalled(fillIn(desk.state.values, sayOf(c), v.place))))
    .filter(({ word }) => words?.has(word) ?? true)
    .sort(bySeverity)
    .map(({ word, text }) => ({ word, text: firstSentence(text) }));
  return said
    .filter((c, i) => said.findIndex((o) => o.text === c.text) === i)
    .map(({ word, text }, i) => ({
      rank: 1,
      gap: i === 0,
      label: word,
      lines: (width: number) =>
        wrap(
          [
            { text: `${alertSign(word, glyphs(room.ascii).warn)}${word}: `, tone: 'alert' as const },
            { text, tone: 'strong' as const },
          ],
          width,
          2,
        ),
    }));
}

/** What stays while the step lasts: of each danger its first sentence; where there is no room, in one line what fits it. What kills or maims goes before whatever is told elsewhere too. */
function cautionLine(of: MomentOf, room: Room): Block[] {
  const { desk, view } = of;
  const again = answersAgain(of);
  const caution = view.cautions.map(sayOf);
  if (!caution.length || view.wants === 'caution') return [];
  const [worst, ...others] = caution
    .map((c) => signalled(fillIn(desk.state.values, c, view.place)))
    .sort(bySeverity)
    .map(({ word, text }) => ({ word, text: firstSentence(text), whole: text }));
  if (!worst) return [];
  const signOf = (word: typeof worst.word): string => alertSign(word, glyphs(room.ascii).warn);
  const lineOf = ({ word, text }: typeof worst): Line => [
    { text: `${signOf(word)}${word}: `, tone: 'alert' },
    { text, tone: 'strong' },
  ];
  const line = lineOf(worst);
  /** One behind the other. */
  const on = (said: Line, word: string, next: typeof worst, text = next.text): Span[] => [
    ...said,
    { text: ' ' },
    ...(next.word === word ? [] : [{ text: `${signOf(next.word)}${next.word}: `, tone: 'alert' as const }]),
    { text, tone: 'strong' },
  ];
  const grave = others.filter((c) => gravest.has(c.word));
  return [
    {
      rank: 1,
      gap: true,
      roomy: !again,
      label: worst.word,
      lines: (width) => [worst, ...others].flatMap((c) => wrap(lineOf(again ? { ...c, text: c.whole } : c), width, 2)),
      // What to do once it has happened too, where lines are left over.
      ...(again || isBrisk(desk)
        ? {}
        : {
            longer: (width: number) =>
              [worst, ...others].flatMap((c) => wrap(lineOf({ ...c, text: c.whole }), width, 2)),
          }),
      small: (width) => {
        let said = line;
        let word = worst.word;
        for (const next of others) {
          const more = on(said, word, next);
          const fits = lineWidth(more) <= width;
          // What kills or maims is named all the same: what it is, if not what to do about it. In a log, which was read
          // with its first row, the readings need the room.
          if (!fits && (view.step.repeat || !gravest.has(next.word))) continue;
          said = fits ? more : on(said, word, next, `${next.text.split(': ')[0]}.`);
          word = next.word;
        }
        return wrap(said, width, 2);
      },
      least: (width) => {
        if (again) return [worst, ...grave].flatMap((c) => wrap(lineOf({ ...c, text: c.whole }), width, 2));
        const words = [worst, ...grave].map((c) => c.word);
        return wrap(
          grave.reduce((said, next, i) => on(said, words[i] ?? '', next), line),
          width,
          2,
        );
      },
    },
  ];
}

/** Why a decision is asked again. */
function reopened({ desk, view }: MomentOf, room: Room): Block[] {
  if (view.status !== 'reopened') return [];
  const what = view.changed.map(
    (c) => `${labelOf(desk.state, c.key, view.place)} is now ${showKey(desk.state.values, c.key, view.place)}`,
  );
  return [alertBlock(`Decide again: ${what.join('; ')}.`, room, 2)];
}

/** What came of the answer that finished a step: the next step is on the screen by then. */
function cameOf(desk: Desk, last: Entry, room: Room): Block[] {
  if (last.kind !== 'answer' && last.kind !== 'done') return [];
  const { state } = desk;
  const view = state.view(last.step, last.place);
  if (!view || (view.status !== 'done' && view.status !== 'waiting') || view.step.repeat) return [];
  const figures = (view.step.show ?? []).flatMap((key) => {
    const v = state.values.get(key, view.place);
    if (!v.known || v.asOf < last.seq || view.answered.some((a) => a.question.key === key)) return [];
    return [`${labelOf(state, key, view.place)} ${showKey(state.values, key, view.place, true)}`];
  });
  const warnings = warningsAt(state, view, last.seq);
  const told: Line = [
    { text: 'Came of it  ', tone: 'quiet' },
    { text: figures.join('; '), tone: 'strong' },
  ];
  return [
    ...(figures.length ? [{ rank: 2, lines: (width: number) => wrap(told, width, 2) }] : []),
    ...warnings.map((w) => ({ rank: 2, lines: (width: number) => warningLine(w, width, room) })),
  ];
}

export function recordedBlock(desk: Desk, room: Room, rank = 2): Block[] {
  const last = lastRecorded(desk.state);
  if (!last || last.kind === 'job') return [];
  const brisk = isBrisk(desk);
  // That a danger was read says nothing to who goes on from it.
  if (brisk && last.kind === 'caution') return cameOf(desk, last, room);
  const here = brisk && 'place' in last && topOf(last.place) === topOf(desk.place);
  const at = 'place' in last && last.place !== 'job' && !here ? ` (${placeWords(desk.state, last.place)})` : '';
  const sign: Span = brisk
    ? { text: `${glyphs(room.ascii).done} `, tone: 'good' }
    : { text: 'Recorded  ', tone: 'quiet' };
  const words = entryWords(desk.state, last);
  return [
    {
      ...spans(
        // The sign says that it is done.
        [
          sign,
          { text: brisk && last.kind === 'done' ? words.replace(/^.*?: /, '') : words },
          { text: at, tone: 'quiet' },
        ],
        { rank, gap: true, indent: 2 },
      ),
      label: 'Last recorded',
      elsewhere: true,
    },
    ...cameOf(desk, last, room),
  ];
}

export function remedyBlocks(desk: Desk, room: Room): Block[] {
  const unfit = unfitSentence(desk.state);
  const told = unfit === undefined ? [] : [alertBlock(unfit, room, 2)];
  const { remedies } = desk.state;
  const first = remedies[0];
  if (!first) return told;
  const more = remedies.length > 1 ? ` And ${remedies.length - 1} more.` : '';
  const at = placeWords(desk.state, first.view.place);
  return [...told, alertBlock(`PUT RIGHT (${at}, ${first.view.step.title}): ${first.text}${more}  Press r.`, room, 2)];
}

const stopped = (of: MomentOf): boolean => of.view.wants === 'gate' && !answersAgain(of);

/** A stop that holds whatever is still asked: nothing that tells to go on stands beside it. */
function certainStopBlocks({ desk, view }: MomentOf, room: Room): Block[] {
  const [stop] = certainStops(desk.state, view);
  return stop ? [{ ...alertBlock(`STOP  ${stop.says} Do this first, then go on here.`, room, 0), gap: false }] : [];
}

/** So many columns tell how far one is. */
const FAR = 12;

/** In a small window the lines go to the work: its title is never the one that has no room. */
export function titleInHead(desk: Desk, view: StepView, room: Room): boolean {
  const practice = desk.state.ledger.job?.practice ? 'PRACTICE · ' : '';
  const head = `${practice}${placeWords(desk.state, view.place)} · ${view.step.title}`;
  return room.rows < 24 && !room.reader && widthOf(head) + FAR <= room.cols;
}

export function topBlocks(of: MomentOf, room: Room): Block[] {
  const { desk, view } = of;
  const stop = certainStopBlocks(of, room);
  if (stop.length) return [...stop, ...cautionLine(of, room), ...remedyBlocks(desk, room)];
  return [
    // For who knows the job, and in a small window, it stands in the head, in place of the phase.
    ...(isBrisk(desk) || titleInHead(desk, view, room)
      ? []
      : [{ rank: 2, elsewhere: true, lines: () => [[{ text: view.step.title, tone: 'quiet' as const }]] }]),
    // What may hurt is read before what to do.
    // At a stop the ways on need the room; in the smallest windows what signs a hold does. Who finds something without
    // looking does not do the step once more.
    ...(view.wants === 'caution' || findsFirst(of)
      ? []
      : [
          {
            ...instruction(of, room),
            gap: false,
            ...(stopped(of) || (view.wants === 'sign' && room.rows < 16) ? { rank: 4 } : {}),
          },
        ]),
    ...cautionLine(of, room),
    ...(view.wants === 'caution' ? [] : kitBlocks(of)),
    ...reopened(of, room),
    ...remedyBlocks(desk, room),
    ...figures(of, room),
    ...judgedBlocks(of, room),
    ...warningBlocks(desk.state, view, room, readBefore(desk, view)),
  ];
}

export function bottomBlocks(of: MomentOf, room: Room): Block[] {
  const { desk, view } = of;
  if (findsFirst(of)) return [];
  const told = isBrisk(desk) && isTold(of);
  // The last answer stands under what was recorded last.
  const last = lastRecorded(desk.state)?.seq;
  const recorded = told ? [] : recordedBlock(desk, room, stopped(of) || certainStops(desk.state, view).length ? 4 : 2);
  const vouched = vouchedFor(of, recorded, glyphs(room.ascii).more);
  const answered = isBrisk(desk) ? [] : answeredBlocks(of, [last, ...(vouched?.entries ?? [])]);
  return [
    ...pauseBlocks(desk, view),
    ...rowLines(desk, view),
    ...answered.slice(-4).map((b, i) => ({ ...b, gap: i === 0 })),
    ...waitBlocks(
      desk,
      desk.state.waiting.filter((w) => w.place !== view.place),
      room,
      { rank: 3, gap: true, most: 2 },
    ),
    ...pictureLine(desk, view),
    ...(vouched?.blocks ?? recorded),
  ];
}

/** True where what was recorded last stands among the answers of this step or of its page. */
function isTold({ desk, view }: MomentOf): boolean {
  const last = lastRecorded(desk.state);
  if (!last || !('step' in last) || !('place' in last)) return false;
  if (view.step.repeat) return last.step === view.step.id && last.kind === 'answer';
  if (last.step === view.step.id && last.place === view.place) return last.kind === 'answer';
  const step = desk.model.steps.get(last.step);
  return step?.page !== undefined && step.page === view.step.page && topOf(last.place) === topOf(view.place);
}

/** What a picture of is welcome here, until there is one; the first thing to fold away. */
function pictureLine({ app, state }: Desk, { step, place }: StepView): Block[] {
  if (!app.pictures || !step.picture) return [];
  const taken = entriesOf(state, 'picture').some((e) => e.step === step.id && e.place === place);
  if (taken) return [];
  return [paragraph(`A picture helps: ${step.picture} (m, Picture).`, { rank: 7, tone: 'quiet', gap: true })];
}
