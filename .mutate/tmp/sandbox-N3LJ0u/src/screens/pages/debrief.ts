/** What a practice job showed: what was caught, what was missed, what was expected. */
// @ts-nocheck

import type { DebriefLine } from '../app-contract.js';
import type { Desk } from '../desk.js';
import { glyphs } from '../look/glyphs.js';
import type { Block, Room } from '../look/line.js';
import type { Page } from '../page.js';
import { heading, paragraph, spans } from '../words/blocks.js';
import { ReadingPage } from './reading-page.js';

function blockOf(line: DebriefLine, room: Room): Block {
  const g = glyphs(room.ascii);
  switch (line.as) {
    case 'head':
      return heading(line.text);
    case 'good':
      return spans(
        [
          { text: `${g.done} `, tone: 'good' },
          { text: line.text, tone: 'strong' },
        ],
        { gap: true, indent: 2 },
      );
    case 'bad':
      return spans(
        [
          { text: `${g.warn} `, tone: 'alert' },
          { text: line.text, tone: 'strong' },
        ],
        { gap: true, indent: 2 },
      );
    case 'more':
      return {
        rank: 1,
        lines: (width) =>
          paragraph(line.text)
            .lines?.(width - 2)
            .map((l) => [{ text: '  ' }, ...l]) ?? [],
      };
    default:
      return paragraph(line.text);
  }
}

export function debriefPage(desk: Desk): Page {
  let lines: readonly DebriefLine[] = [{ text: 'One moment …', as: 'plain' }];
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
      blocks: (room) => lines.map((l) => blockOf(l, room)),
    },
    desk.stack,
  );
}
