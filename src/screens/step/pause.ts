/** Nothing to do here just now: what waits, and where work can go on. */
import { fillIn } from '../../engine/values/texts.js';
import { emptyInput } from '../ask/asker.js';
import { pickHints } from '../ask/choice.js';
import { itemsOf, notPicked, pickBy } from '../ask/pick-list.js';
import { type Desk, type Stage, topOf } from '../desk.js';
import { glyphs } from '../look/glyphs.js';
import { debriefPage } from '../pages/debrief.js';
import { glancePage } from '../pages/glance.js';
import { overrulePage } from '../pages/overrule.js';
import { sheetPage } from '../pages/sheet-page.js';
import { largest, paragraph } from '../words/blocks.js';
import { placeWords } from '../words/entry-words.js';
import { left } from '../words/times.js';
import { soonestFirst, waitBlocks, whileWaiting } from '../words/wait-line.js';
import type { Moment } from './moment.js';
import { waitDangers } from './step-blocks.js';

interface Way {
  readonly value: string;
  readonly label: string;
  readonly take: () => void;
}

/** What to do at this place before work goes on at another one. */
function openWords({ state, place }: Desk): string | undefined {
  const told = state.model.procedure.places.find((k) => k.instances.some((x) => x.id === place))?.left;
  return told && state.values.holds(told.when, place) === true ? fillIn(state.values, told.say, place) : undefined;
}

export function pauseMoment(desk: Desk, stage: Exclude<Stage, { kind: 'step' }>): Moment {
  const where = `pause:${stage.kind}:${desk.place}`;
  const waiting = 'waiting' in stage ? soonestFirst(stage.waiting) : [];
  const here = placeWords(desk.state, desk.place);
  const ways: Way[] = [];
  if (stage.kind === 'elsewhere')
    ways.push({
      value: 'go',
      label: `Go to ${placeWords(desk.state, stage.next.place)}: ${stage.next.step.title}`,
      take: () => {
        desk.place = topOf(stage.next.place);
      },
    });
  if (stage.kind === 'finished')
    ways.push({ value: 'sheet', label: 'Look at the job sheet', take: () => desk.stack.push(sheetPage(desk)) });
  if (stage.kind === 'finished' && desk.state.ledger.job?.practice && desk.app.debrief)
    ways.unshift({
      value: 'debrief',
      label: 'What this practice showed',
      take: () => desk.stack.push(debriefPage(desk)),
    });
  const soonest = Math.min(...waiting.map((v) => v.wait?.left ?? 0));
  if (desk.practice && desk.app.passTime && waiting.length && Number.isFinite(soonest))
    ways.push({
      value: 'pass',
      label: `Let ${left(soonest)} pass (only in practice)`,
      take: () => {
        desk.app.passTime?.(Math.ceil(soonest / 60_000));
        desk.stack.changed();
      },
    });
  ways.push({ value: 'glance', label: 'Where everything stands', take: () => desk.stack.push(glancePage(desk)) });
  for (const v of waiting)
    ways.push({
      value: `wait:${v.step.id}@${v.place}`,
      label: `Do not wait for ${v.wait?.label ?? 'it'} (${placeWords(desk.state, v.place)}), with a reason`,
      take: () =>
        desk.stack.push(
          overrulePage(
            desk,
            v,
            { id: 'wait', overrule: 'with-reason' },
            `${placeWords(desk.state, v.place)}: ${v.wait?.label ?? 'time'} is not over yet.`,
          ),
        ),
    });
  const input = () => desk.inputFor(where, () => ({ ...emptyInput, index: 0 }));

  const open = openWords(desk);
  const says =
    stage.kind === 'elsewhere'
      ? `${here}: nothing more to do here now. ${open ? `${open} ` : ''}Next: ${placeWords(desk.state, stage.next.place)}.`
      : stage.kind === 'waiting'
        ? whileWaiting(desk)
        : stage.kind === 'finished'
          ? 'This job is finished.'
          : 'Nothing can be worked on as the answers stand.';
  return {
    where,
    blocks: (room) => [
      largest(says, glyphs(room.ascii).bar),
      ...waitBlocks(desk, waiting, room, { rank: 1 }),
      ...waitDangers(desk, waiting, room),
      ...(stage.kind === 'stuck'
        ? stage.views
            .slice(0, 3)
            .map((v) =>
              paragraph(`${placeWords(desk.state, v.place)}, ${v.step.title}: ${v.because ?? 'later'}`, { rank: 2 }),
            )
        : []),
      { rank: 1, gap: true, choices: { id: where, items: itemsOf(ways), index: input().index } },
    ],
    hints: () => pickHints(ways.length, input().index),
    press(key) {
      const picked = pickBy(input(), ways, key);
      if (!picked) return undefined;
      if ('index' in picked) desk.inputs.set(where, { ...input(), index: picked.index });
      else if ('value' in picked) ways.find((w) => w.value === picked.value)?.take();
      else desk.stack.say(notPicked(key, ways.length));
      return true;
    },
  };
}
