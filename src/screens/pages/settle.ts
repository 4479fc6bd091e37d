/** Work done under a figure that has changed since: what to do, and a word on what was done. */
import type { Desk } from '../desk.js';
import type { Page } from '../page.js';
import { dangersOf } from '../step/step-blocks.js';
import { paragraph } from '../words/blocks.js';
import { placeWords } from '../words/entry-words.js';
import { ask, FormPage } from './form.js';

export function settlePage(desk: Desk): Page {
  const remedy = desk.state.remedies[0];
  const view = remedy?.view;
  return new FormPage(
    {
      name: 'settle',
      head: `Put right · ${view ? placeWords(desk.state, view.place) : ''}`,
      title: view?.step.title ?? '',
      intro: [
        paragraph(remedy?.text ?? '', { tone: 'strong' }),
        // The same work once more has the same dangers.
        ...dangersOf(desk, view ? [view] : [], desk.stack.room),
        ...(remedy?.changed ?? []).map((c) => paragraph(`${c.label}: was ${c.old}, is ${c.now}`, { rank: 2 })),
      ],
      fields: [{ question: ask('reason', 'What was done about it?', { longest: 300 }) }],
      done: async (v) => {
        if (!view) return desk.stack.popTo('step');
        const acted = await desk.act({ do: 'settle', step: view.step.id, place: view.place, reason: v.reason ?? '' });
        if (acted === 'done') desk.stack.popTo('step');
      },
    },
    desk.stack,
  );
}
