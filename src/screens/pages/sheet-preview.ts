/** The job sheet as it stands, to be read on the screen. */
import type { Desk } from '../desk.js';
import { wrapText } from '../look/wrap.js';
import type { Page } from '../page.js';
import { ReadingPage } from './reading-page.js';

export function sheetPage(desk: Desk): Page {
  const told = desk.app.sheetText?.(desk.state);
  let text = typeof told === 'string' ? told : 'One moment …';
  if (told === undefined) text = 'The job sheet can be had with: rotorside sheet';
  else if (typeof told !== 'string')
    told.then(
      (t) => {
        text = t;
        desk.stack.changed();
      },
      (error: unknown) => {
        text = `The sheet could not be made: ${error instanceof Error ? error.message : String(error)}`;
        desk.stack.changed();
      },
    );
  return new ReadingPage(
    {
      name: 'sheet',
      head: `Job sheet · ${desk.state.ledger.job?.name ?? ''}`,
      blocks: () => [{ rank: 1, lines: (width) => wrapText(text, width) }],
    },
    desk.stack,
  );
}
