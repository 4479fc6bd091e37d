/** Where everything stands: each position, what waits, what has finished waiting, what the last person left word of. */

import { gateSentence } from '../../engine/actions/propose.js';
import type { Entry } from '../../engine/journal/entry.js';
import { related } from '../../engine/journal/ledger.js';
import { certainStops } from '../../engine/state/certain-stop.js';
import { standingOf } from '../../engine/state/overruled.js';
import type { StepView } from '../../engine/steps/board.js';
import { isChar } from '../../keys/key.js';
import { type Desk, topOf } from '../desk.js';
import { glyphs } from '../look/glyphs.js';
import type { Block, Room } from '../look/line.js';
import type { Page } from '../page.js';
import { alertBlock } from '../step/moment.js';
import { recordedBlock, remedyBlocks } from '../step/step-blocks.js';
import { firstSentence, largest, paragraph, spans } from '../words/blocks.js';
import { correctedWords, placeWords } from '../words/entry-words.js';
import { timeOfDay } from '../words/times.js';
import { soonestFirst, waitBlocks, whileWaiting } from '../words/wait-line.js';
import { handsPage } from './hands.js';
import { menuPage } from './menu.js';
import { ReadingPage } from './reading-page.js';
import { settlePage } from './settle.js';
import { wholeJobPage } from './whole-job.js';

/** Clocks of two computers differ by less than this, in ms. */
const CLOCKS_DIFFER = 60_000;

function phaseOf(desk: Desk, v: StepView): string {
  return desk.model.procedure.phases.find((p) => p.id === v.step.phase)?.title ?? '';
}

function positionLine(desk: Desk, place: string, room: Room): Block {
  const { state } = desk;
  const g = glyphs(room.ascii);
  const waits = soonestFirst(state.waiting).find((w) => w.place !== 'job' && related(w.place, place));
  const own = state.views.filter((v) => v.place !== 'job' && related(v.place, place) && v.status !== 'not-needed');
  const open = own.find((v) => v.status === 'open' || v.status === 'stopped' || v.status === 'reopened');
  const next = open ?? own.find((v) => v.status === 'later' || v.status === 'hidden');
  // What is done once for the whole job is still to come here too, and may send one back.
  const rest = state.views.find((v) => v.place === 'job' && v.status !== 'done' && v.status !== 'not-needed');
  // What can be worked on comes first: the wait of one seal is none of its whole bearing.
  const meanwhile = waits ? ` (meanwhile: ${waits.wait?.label ?? 'time'})` : '';
  const words = open
    ? `${phaseOf(desk, open)}: ${open.step.title}${open.status === 'stopped' ? ' (stopped)' : open.status === 'reopened' ? ' (to be decided again)' : ''}${meanwhile}`
    : waits
      ? `waits: ${waits.wait?.label ?? 'time'}`
      : next
        ? `${phaseOf(desk, next)}: ${next.step.title} (later)`
        : rest
          ? `${own.some((v) => v.status === 'done') ? 'done so far, ' : ''}waits for: ${rest.step.title}${rest.status === 'stopped' ? ' (stopped)' : ''}`
          : 'all done';
  const sign = waits && !open ? g.wait : next || rest ? g.open : g.done;
  return spans([{ text: `${sign} ${placeWords(state, place)}  `, tone: 'strong' }, { text: words }], {
    rank: 1,
    indent: 4,
  });
}

/** What was gone on with against a stop, and decisions that were changed: who comes next must know it before the waits. */
function changedBlocks(desk: Desk, room: Room): Block[] {
  const { state } = desk;
  const g = glyphs(room.ascii);
  const titled = (e: { readonly step: string; readonly place: string }): string =>
    `${state.model.steps.get(e.step)?.title ?? e.step} (${placeWords(state, e.place)})`;
  const overruled = [...state.ledger.steps.values()]
    .flatMap((s) => s.overrules)
    .filter((e) => e.gate !== 'wait' && standingOf(state, e) === 'in force')
    .map((e) => [`${g.warn} Gone on against a stop by ${e.initials}: `, `${titled(e)}, ${e.reason}`] as const);
  const changed = state.ledger.corrections
    .filter((e) => state.model.steps.get(e.step)?.decision)
    .map(
      (e) =>
        [
          `${g.warn} Changed by ${e.by}: `,
          `${correctedWords(state, e)} (${placeWords(state, e.place)}), ${e.reason}`,
        ] as const,
    );
  return [...overruled, ...changed.slice(-3)].map(([lead, words], i) => ({
    ...spans([{ text: lead, tone: 'strong' }, { text: words }], { rank: 2, indent: 2 }),
    gap: i === 0,
  }));
}

/** What stops the work, in the words with which it says what to do first. */
function stopBlocks(desk: Desk, room: Room): Block[] {
  const { state } = desk;
  const stopped = state.views.filter((v) => v.status === 'stopped' && v.gates.length > 0);
  const at = (v: StepView, says: string): Block =>
    alertBlock(`STOP  ${placeWords(state, v.place)}, ${v.step.title}: ${firstSentence(says)}`, room);
  const stage = desk.stage();
  // What holds whatever is still asked.
  const certain = stage.kind === 'step' ? certainStops(state, stage.view).slice(0, 1) : [];
  return [
    ...certain.flatMap((c) => (stage.kind === 'step' ? [at(stage.view, c.says)] : [])),
    ...stopped.map((v) => at(v, gateSentence(state, v))),
  ];
}

/** Facts on return to a job; also the answer to "where was I". */
function glanceBlocks(desk: Desk, room: Room): Block[] {
  const { state } = desk;
  const g = glyphs(room.ascii);
  const stage = desk.stage();
  const zone = desk.app.terminal.zone;
  const next =
    stage.kind === 'step'
      ? `Next: ${placeWords(state, stage.view.place)}, ${stage.view.step.title}.`
      : stage.kind === 'elsewhere'
        ? `Next: ${placeWords(state, stage.next.place)}, ${stage.next.step.title}.`
        : stage.kind === 'waiting'
          ? whileWaiting(desk)
          : stage.kind === 'finished'
            ? 'This job is finished.'
            : 'Nothing can be worked on as the answers stand.';
  const { handover } = state.ledger;
  // Who has only just come has not worked yet, nor has a look at the clock.
  const last = state.entries.findLast(
    (e) => e.kind !== 'operator' && e.kind !== 'pace' && !(e.kind === 'note' && e.clock),
  );
  return [
    ...(desk.job.readOnly
      ? [paragraph(desk.job.whyReadOnly ?? 'This job can only be looked at here.', { tone: 'strong' })]
      : []),
    largest(next, g.bar),
    ...stopBlocks(desk, room),
    ...(desk.model.shop
      ? [paragraph(`This job goes by the shop’s own procedure “${desk.model.procedure.title}”.`, { rank: 2 })]
      : []),
    ...desk.positions.map((p, i) => ({ ...positionLine(desk, p, room), gap: i === 0 })),
    ...changedBlocks(desk, room),
    ...waitBlocks(desk, state.waiting, room, { rank: 1, gap: true }),
    ...state.waited.map((v, i) => ({
      ...spans(
        [
          ...(v.wait?.skipped
            ? [
                { text: `${g.warn} Skipped by ${v.wait.skipped.initials}: `, tone: 'strong' as const },
                { text: `${v.wait.label} (${placeWords(state, v.place)}), ${v.wait.skipped.reason}` },
              ]
            : [
                { text: `${g.done} Finished waiting: `, tone: 'strong' as const },
                {
                  text: `${v.wait?.label ?? ''} (${placeWords(state, v.place)}), over at ${timeOfDay(v.wait?.until ?? 0, state.now, zone)}`,
                },
              ]),
        ],
        { rank: 1, indent: 2 },
      ),
      gap: i === 0,
    })),
    ...remedyBlocks(desk, room),
    ...(handover
      ? [
          paragraph(`Word from ${handover.by}, ${timeOfDay(Date.parse(handover.at), state.now, zone)}:`, {
            rank: 1,
            gap: true,
            tone: 'quiet',
          }),
          paragraph(handover.text, { rank: 1 }),
        ]
      : []),
    ...recordedBlock(desk, room, 3),
    ...(last ? [lastWorked(last, desk.app.now(), zone)] : []),
  ];
}

/** Where the clock was put back since, both times with their days. */
function lastWorked({ at, by }: Entry, clock: number, zone: string | undefined): Block {
  const last = Date.parse(at);
  const said = `Last worked on ${timeOfDay(last, clock, zone)} by ${by}`;
  if (last - clock < CLOCKS_DIFFER) return paragraph(`${said}.`, { rank: 3, tone: 'quiet' });
  return paragraph(`${said}: later than this laptop’s clock (${timeOfDay(clock, last, zone)}).`, { tone: 'alert' });
}

export function glancePage(desk: Desk): Page {
  const job = desk.state.ledger.job;
  return new ReadingPage(
    {
      name: 'glance',
      head: job?.name ?? '',
      blocks: (room) => glanceBlocks(desk, room),
      hints: () => [
        { key: 'Enter', does: 'go on', rank: 1 },
        ...(desk.job.readOnly ? [] : [{ key: 'i', does: `I am not ${desk.by}`, rank: 2 }]),
        { key: 'o', does: 'the whole job', rank: 3 },
        { key: 'm', does: 'menu', rank: 3 },
        { key: 'l', does: 'leave this job', rank: 2 },
      ],
      press(key) {
        if (key.name === 'enter') {
          // To the step that stands above as the next one, also where that is another position.
          const stage = desk.stage();
          if (stage.kind === 'elsewhere') desk.place = topOf(stage.next.place);
          desk.stack.popTo('step');
          return true;
        }
        if (isChar(key, 'i') && !desk.job.readOnly) {
          desk.stack.push(handsPage(desk));
          return true;
        }
        if (isChar(key, 'r') && desk.state.remedies.length && !desk.job.readOnly) {
          desk.stack.push(settlePage(desk));
          return true;
        }
        if (isChar(key, 'o')) {
          desk.stack.push(wholeJobPage(desk));
          return true;
        }
        if (isChar(key, 'm')) {
          desk.stack.push(menuPage(desk, undefined, glancePage));
          return true;
        }
        if (isChar(key, 'l')) {
          desk.stack.popTo('home');
          return true;
        }
        return false;
      },
    },
    desk.stack,
  );
}
