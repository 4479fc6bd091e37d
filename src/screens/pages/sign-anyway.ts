/** A signature for a figure that one's own denies: the reason is asked for, both figures stand above it. */
import { type Apart, apartWords } from '../../engine/state/own-figure.js';
import type { StepView } from '../../engine/steps/board.js';
import type { Desk } from '../desk.js';
import type { Page } from '../page.js';
import { paragraph } from '../words/blocks.js';
import { placeWords } from '../words/entry-words.js';
import { ask, FormPage } from './form.js';

export function signAnywayPage(
  desk: Desk,
  { step, place }: StepView,
  said: { readonly initials: string; readonly own?: string },
  apart: Apart,
  signed: () => void,
): Page {
  return new FormPage(
    {
      name: 'sign-anyway',
      head: `${placeWords(desk.state, place)} · ${step.title}`,
      title: `Signed all the same by ${said.initials}`,
      intro: [paragraph(apartWords(apart), { rank: 1, tone: 'strong' })],
      fields: [
        {
          question: ask('reason', 'Why it is signed all the same, for the job sheet', { longest: 300 }),
          check: (t) => (t.trim().length < 3 ? 'Type in a word or two why it is signed all the same.' : undefined),
        },
      ],
      confirm: ({ reason = '' }) => ({
        key: desk.safetyKey,
        does: `sign as ${said.initials}`,
        blocks: [
          paragraph(apartWords(apart), { rank: 1, tone: 'strong' }),
          paragraph(`Reason: ${reason}`, { rank: 1, tone: 'strong' }),
        ],
      }),
      done: async ({ reason = '' }) => {
        const acted = await desk.act({ do: 'sign', step: step.id, place, ...said, reason }, { sure: true });
        if (acted !== 'done') return;
        desk.ready = undefined;
        signed();
        desk.stack.popTo('step');
      },
    },
    desk.stack,
  );
}
