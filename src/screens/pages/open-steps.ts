/** All steps that can be worked on now, to go to one out of turn. */
import { type Desk, topOf } from '../desk.js';
import type { Page } from '../page.js';
import { paragraph } from '../words/blocks.js';
import { placeWords } from '../words/entry-words.js';
import { waitBlocks } from '../words/wait-line.js';
import { PickPage } from './pick-page.js';

export function openStepsPage(desk: Desk): Page {
  return new PickPage(
    {
      name: 'open-steps',
      head: 'Steps that are open now',
      // An empty list would look like a fault.
      above: (room) =>
        desk.state.available(desk.place).length
          ? []
          : [paragraph('None now.'), ...waitBlocks(desk, desk.state.waiting, room, { rank: 1 })],
      items: () =>
        desk.state.available(desk.place).map((v) => ({
          value: `${v.step.id}@${v.place}`,
          label: `${placeWords(desk.state, v.place)}: ${v.step.title}`,
          note: v.status === 'stopped' ? 'stopped' : v.status === 'reopened' ? 'to be decided again' : undefined,
        })),
      picked: (value) => {
        const [step = '', place = 'job'] = value.split('@');
        if (place !== 'job') desk.place = topOf(place);
        desk.pinned = { step, place };
        desk.stack.popTo('step');
        return true;
      },
    },
    desk.stack,
  );
}
