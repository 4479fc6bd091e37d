/** What a practice job showed: what was caught, what was missed, what was expected. */
import type { ShownDebriefLine } from '../app-contract.js';
import type { Desk } from '../desk.js';
import type { Page } from '../page.js';
import { debriefBlock } from '../words/debrief-blocks.js';
import { ReadingPage } from './reading-page.js';

export function debriefPage(desk: Desk): Page {
  let lines: readonly ShownDebriefLine[] = [{ text: 'One moment …', as: 'plain' }];
  const told = desk.app.debrief?.(desk.state, desk.job.id) ?? [];
  if ('then' in told)
    told.then(
      (l) => {
        lines = l;
        desk.stack.changed();
      },
      (error: unknown) => {
        const why = error instanceof Error ? error.message : String(error);
        lines = [{ text: `The debrief could not be made: ${why}`, as: 'plain' }];
        desk.stack.changed();
      },
    );
  else lines = told;
  return new ReadingPage(
    {
      name: 'debrief',
      head: `Debrief · ${desk.state.ledger.job?.name ?? ''}`,
      blocks: (room) => lines.map((l) => debriefBlock(l, room)),
    },
    desk.stack,
  );
}
