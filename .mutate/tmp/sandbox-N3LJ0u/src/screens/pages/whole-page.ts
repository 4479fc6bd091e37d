/** All of a page that the window had no room for, to be read line by line. */
// @ts-nocheck

import { type Block, type Line, type Room, strong } from '../look/line.js';
import { wrap } from '../look/wrap.js';
import type { Page, Stack } from '../page.js';
import { ReadingPage } from './reading-page.js';

/** The lines of a list as text: nothing is picked here. */
function asLines(block: Block): Block {
  const { choices } = block;
  if (!choices) return { ...block, rank: 1 };
  const rows = (width: number): readonly Line[] =>
    choices.items.flatMap((i) =>
      wrap(
        [...strong(`${(i.digit ?? '').padEnd(3)}`), { text: i.note ? `${i.label}  (${i.note})` : i.label }],
        width,
        3,
      ),
    );
  return { rank: 1, ...(block.gap ? { gap: true } : {}), lines: rows };
}

export function wholePage(page: Page, stack: Stack): Page {
  const { head } = page.view(stack.room);
  return new ReadingPage(
    {
      name: 'whole',
      head,
      blocks: (room: Room) => page.view(room).body.map(asLines),
    },
    stack,
  );
}
