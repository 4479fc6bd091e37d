/** Something stops the step: why, and the ways on. */
import { gateSentence } from '../../engine/actions/propose.js';
import { related } from '../../engine/journal/ledger.js';
import { type CorrectableReading, correctable } from '../../engine/state/correctable.js';
import type { GateView } from '../../engine/steps/board.js';
import { keysNamedIn } from '../../engine/values/texts.js';
import { raisesOf } from '../../procedure/raises.js';
import { emptyInput } from '../ask/asker.js';
import { pickHints } from '../ask/choice.js';
import { itemsOf, notPicked, pickBy } from '../ask/pick-list.js';
import type { Desk } from '../desk.js';
import type { Page } from '../page.js';
import { correctPage, newValuePage } from '../pages/correct.js';
import { eventPage, eventsAt, raisePage } from '../pages/event.js';
import { overrulePage } from '../pages/overrule.js';
import { heading } from '../words/blocks.js';
import { entryWords, labelOf, placeWords, valueWords } from '../words/entry-words.js';
import { type Moment, type MomentOf, momentId, stopBlock } from './moment.js';
import { questionMoment } from './question.js';

interface Way {
  readonly value: string;
  readonly label: string;
  readonly take: () => boolean | Promise<boolean>;
}

/** Readings that a gate rests on which are offered one by one; more of them where the gate names more. */
const READINGS = 3;
const MOST_NAMED = 5;

/** `Correct: Rubber of the seal, Drive end, back seal (now NBR)`: where it was read, unless that is here or everywhere. */
function correctWords(desk: Desk, r: CorrectableReading, here: string): string {
  const { state } = desk;
  const where = r.place === here || r.place === 'job' ? '' : `, ${placeWords(state, r.place)}`;
  return `Correct: ${labelOf(state, r.question.key, r.place)}${where} (now ${valueWords(state, r.given.entry)})`;
}

/** Every way on that there is, each as its own line. */
function waysOf({ desk, view }: MomentOf, gate: GateView | undefined, again: (key: string) => void): Way[] {
  const { state, stack } = desk;
  const { place } = view;
  const push = (page: Page): true => {
    stack.push(page);
    return true;
  };
  // Rows of a log are corrected: another answer would be another row.
  const leave = gate?.gate.at === 'leave' && !view.step.repeat;
  const answers = leave ? view.answered : [];
  const asked = new Set(answers.map((a) => a.question.key));
  const found = gate
    ? correctable(state, gate.gate, place, leave ? view.step : undefined)
    : { readings: [], named: 0, chosen: undefined };
  // What the stop rests on stands before what else was answered here.
  const weight = ({ question }: (typeof answers)[number]): number => {
    const i = found.readings.findIndex((r) => r.place === place && r.question.key === question.key);
    return i < 0 ? found.readings.length : i;
  };
  const sorted = [...answers].sort((a, b) => weight(a) - weight(b));
  const least = sorted[0] ? weight(sorted[0]) : 0;
  // What it names itself; where it goes by a figure alone, what that was worked out from.
  const own = sorted.filter((a) => weight(a) < (least < found.named ? found.named : found.readings.length));
  const answering = ({ question, given }: (typeof answers)[number]): Way => ({
    value: `again:${question.key}`,
    label: `Answer again: ${labelOf(state, question.key, place)} (now ${valueWords(state, given.entry)})`,
    take: () => {
      again(question.key);
      return true;
    },
  });
  const elsewhere = (r: CorrectableReading): boolean => r.place !== place || !asked.has(r.question.key);
  const rests = found.readings.filter(elsewhere);
  const ahead = (count: number): number => found.readings.slice(0, count).filter(elsewhere).length;
  const named = ahead(found.named);
  // Where it says what is corrected, no limit that it keeps is put up by one key beside it.
  const offered = rests.slice(
    0,
    found.chosen === undefined ? Math.max(READINGS, Math.min(MOST_NAMED, named)) : ahead(found.chosen),
  );
  // Of a log, what the stop tells as it was typed: a slip of it is put right before anything is reported.
  const said = new Set(gate && view.step.repeat ? keysNamedIn(gate.gate.say) : []);
  const told = offered.filter((r) => r.step === view.step && r.place === place && said.has(r.question.key));
  const correcting = (r: CorrectableReading): Way => ({
    value: `correct:${r.given.first.seq}`,
    label: correctWords(desk, r, place),
    take: () => push(newValuePage(desk, r)),
  });
  const overruling: Way[] =
    gate && gate.gate.overrule !== 'never'
      ? [
          {
            value: 'overrule',
            label: `Continue anyway, with a reason and ${gate.gate.overrule === 'second-person' ? 'the initials of a second person' : 'initials'}`,
            take: () => push(overrulePage(desk, view, gate.gate, gateSentence(state, view))),
          },
        ]
      : [];
  const events = eventsAt(desk, place);
  const here = events.filter((e) => related(e.place, place));
  const raised = (gate ? raisesOf(gate.gate) : []).flatMap((id) => here.filter((e) => e.branch.id === id));
  const undo = desk.propose({ do: 'undo' });
  const back = undo.ok ? undo.drafts.at(-1) : undefined;
  const last = back?.kind === 'undo' ? state.entries.find((e) => e.seq === back.of) : undefined;
  const stands = gate?.gate.answer_stands === true;
  return [
    // The answer that made the stop, then what its words name: these stand where a small window shows them.
    ...(stands ? [] : own.map(answering)),
    ...told.map(correcting),
    ...raised.map((e) => ({
      value: `raise:${e.branch.id}@${e.place}`,
      label: `Report “${e.branch.title}” (${placeWords(state, e.place)})`,
      take: () => push(raisePage(desk, e.branch, e.place)),
    })),
    ...offered
      .slice(0, named)
      .filter((r) => !told.includes(r))
      .map(correcting),
    ...(stands ? own.map(answering) : []),
    // What a stop says may be given as a reason.
    ...overruling,
    ...sorted.filter((a) => !own.includes(a)).map(answering),
    ...offered
      .slice(named)
      .filter((r) => !told.includes(r))
      .map(correcting),
    {
      value: 'correct',
      label: rests.length ? 'Correct another earlier reading' : 'Correct an earlier reading',
      take: () => push(correctPage(desk)),
    },
    ...(events.length > raised.length
      ? [{ value: 'event', label: 'Something unforeseen happened', take: () => push(eventPage(desk, place)) }]
      : []),
    ...(last
      ? [
          {
            value: 'undo',
            label: `Undo: ${entryWords(state, last)}`,
            take: async () => {
              const words = entryWords(state, last);
              if ((await desk.act({ do: 'undo' })) === 'done')
                stack.say(`Taken back: ${words}. Press / to bring it back.`, 'good');
              return true;
            },
          },
        ]
      : []),
  ];
}

export function gateMoment(of: MomentOf): Moment {
  const { desk, view } = of;
  const gate = view.gates[0];
  const where = momentId(view, `gate:${gate?.gate.id}`);
  const asked = desk.again?.where === where ? view.step.ask?.find((q) => q.key === desk.again?.key) : undefined;
  if (asked) {
    const inner = questionMoment(of, asked, {
      after: () => {
        desk.again = undefined;
      },
    });
    return {
      ...inner,
      asks: () => {
        const asks = inner.asks?.();
        return { ...asks, id: `again:${asked.key}:${asks?.id ?? ''}` };
      },
      press(key) {
        const taken = inner.press(key);
        if (taken !== undefined || key.name !== 'esc') return taken;
        desk.again = undefined;
        return true;
      },
      hints: () => [...inner.hints(), { key: 'Esc', does: 'back', rank: 1 }],
    };
  }
  let known: Way[] | undefined;
  // Asked for only where they are drawn or picked: the keyboard asks for this moment at every key.
  const ways = (): Way[] => {
    known ??= waysOf(of, gate, (key) => {
      desk.again = { where, key };
    });
    return known;
  };
  const input = () => desk.inputFor(where, () => emptyInput);
  return {
    where,
    blocks: (room) => [
      stopBlock(gateSentence(desk.state, view), room),
      { ...heading('What you can do'), rank: 2 },
      { rank: 1, choices: { id: where, items: itemsOf(ways()), index: input().index } },
    ],
    hints: () => pickHints(ways().length, input().index),
    press(key) {
      const picked = pickBy(input(), ways(), key);
      if (!picked) return undefined;
      if ('index' in picked) desk.inputs.set(where, { ...input(), index: picked.index });
      else if ('value' in picked)
        return (
          ways()
            .find((w) => w.value === picked.value)
            ?.take() ?? true
        );
      else desk.stack.say(notPicked(key, ways().length));
      return true;
    },
  };
}
