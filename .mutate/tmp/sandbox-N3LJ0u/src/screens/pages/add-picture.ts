/** A picture from the telephone: dropped on the window or named, looked at, and kept with this step. */
// @ts-nocheck

import type { StepView } from '../../engine/board.js';
import { fillIn } from '../../engine/texts.js';
import type { Desk } from '../desk.js';
import type { Page } from '../page.js';
import { paragraph } from '../words/blocks.js';
import { placeWords } from '../words/entry-words.js';
import { ask, FormPage } from './form.js';

export function addPicturePage(desk: Desk, view: StepView): Page {
  const { state, app, stack } = desk;
  const title = fillIn(state.values, view.step.title, view.place);
  const where = placeWords(state, view.place);
  const wanted = view.step.picture;
  return new FormPage(
    {
      name: 'picture',
      head: `Picture · ${where}`,
      title: 'A picture for the job sheet',
      fields: [
        {
          question: ask('path', 'Drop the picture on this window, or type its path', {
            help: 'JPEG, PNG or WebP. It is copied; your own stays as it is.',
            longest: 1000,
          }),
        },
        { question: ask('shows', 'What it shows', { longest: 120 }), ...(wanted ? { start: wanted } : {}) },
      ],
      confirm: () => ({
        key: 'Enter',
        does: 'keep it',
        blocks: [paragraph(`Does it belong to “${title}”, ${where}? Enter keeps it there; Esc goes back.`)],
      }),
      done: async ({ path = '', shows = '' }) => {
        const kept = (await app.pictures?.keep(desk.job.id, path)) ?? 'Pictures can’t be kept here.';
        if (typeof kept === 'string') {
          stack.say(kept);
          return;
        }
        const { file, sha256, bytes, name, notShown } = kept;
        const at = { step: view.step.id, place: view.place };
        if ((await desk.act({ do: 'picture', ...at, file, sha256, bytes, name, shows })) !== 'done') return;
        stack.popTo('step');
        stack.say(notShown ? 'Kept. This computer can’t make it small, so the sheet names it only.' : 'Kept.', 'good');
      },
    },
    stack,
  );
}
