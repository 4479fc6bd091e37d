/** A signature that is asked for and not given: what is not right yet, and who says so. The step stays open. */

import { vouchWords } from '../../engine/state/vouch.js';
import type { StepView } from '../../engine/steps/board.js';
import type { Desk } from '../desk.js';
import type { Page } from '../page.js';
import { paragraph } from '../words/blocks.js';
import { placeWords } from '../words/entry-words.js';
import { initialsCheck } from '../words/initials.js';
import { ask, FormPage } from './form.js';

export function refuseToSignPage(desk: Desk, { step, place }: StepView): Page {
  const mentor = desk.state.ledger.job?.mentor;
  const says = vouchWords(desk.state, step, place, mentor ? 'mentor' : 'self');
  return new FormPage(
    {
      name: 'refuse-to-sign',
      head: `${placeWords(desk.state, place)} · ${step.title}`,
      title: 'Not signed',
      intro: [paragraph(says, { rank: 3, tone: 'quiet' })],
      fields: [
        {
          question: ask('reason', 'What is not right yet, for the job sheet', { longest: 300 }),
          check: (t) => (t.trim().length < 3 ? 'Type in a word or two what is not right yet.' : undefined),
        },
        {
          question: ask('initials', mentor ? `Initials of who looked (${mentor})` : 'Your initials', { longest: 8 }),
          check: initialsCheck,
        },
      ],
      done: async (v) => {
        const { reason = '', initials = '' } = v;
        const acted = await desk.act({ do: 'refuse', step: step.id, place, reason, initials });
        if (acted === 'done') desk.stack.popTo('step');
      },
    },
    desk.stack,
  );
}
