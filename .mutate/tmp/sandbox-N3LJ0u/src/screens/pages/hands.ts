/** Another person takes over. */
// @ts-nocheck

import type { Desk } from '../desk.js';
import type { Page } from '../page.js';
import { ask, FormPage } from './form.js';

export function handsPage(desk: Desk): Page {
  return new FormPage(
    {
      name: 'hands',
      head: 'Who works now',
      title: 'Your initials go beside everything that you record.',
      fields: [{ question: ask('initials', 'Your initials', { longest: 8 }) }],
      done: async (v) => {
        const initials = v.initials ?? '';
        if ((await desk.act({ do: 'operator', initials })) !== 'done') return;
        desk.app.initials.set(initials);
        desk.stack.pop();
      },
    },
    desk.stack,
  );
}
