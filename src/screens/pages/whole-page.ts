/** All of a page that the window had no room for, to be read line by line. */
import { type Block, type Line, type Room, strong } from '../look/line.js';
import { wrap } from '../look/wrap.js';
import type { Page, Stack } from '../page.js';
import { columns, type Message } from '../parts/frame-layout.js';
import { frameText } from '../parts/frame-text.js';
import { pressLines } from '../words/blocks.js';
import { ReadingPage } from './reading-page.js';

/** The lines of a list as text: nothing is picked here. A key that is asked for works once this page is left, or `here`. */
const asLines =
  (here: boolean) =>
  (block: Block): Block => {
    const { choices, press } = block;
    if (press) return { ...block, rank: 1, lines: (width) => pressLines(press, width, here ? undefined : 'Esc') };
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
  };

const words = (line: Line): string =>
  line
    .map((s) => s.text)
    .join('')
    .replace(/\s+/g, ' ')
    .trim();

/** The first line that the window had no room for, one that stood there above it for context. */
function firstHidden(page: Page, room: Room, message: Message | undefined): number {
  const view = page.view(room);
  const stood = frameText(view, room, message, false).join(' ').replace(/\s+/g, ' ');
  const { body } = columns(room, false);
  const lines = view.body
    .map(asLines(false))
    .flatMap((b, i) => [...(b.gap && i > 0 ? [[]] : []), ...(b.lines?.(body) ?? [])]);
  return Math.max(0, lines.findIndex((l) => !stood.includes(words(l))) - 1);
}

/**
 * @param message what was said on the page when it was cut
 * @param danger true where the key that is asked for confirms one: it does so here too, once all was read
 */
export function wholePage(page: Page, stack: Stack, message: Message | undefined, danger: boolean): Page {
  const { head, body } = page.view(stack.room);
  const key = danger ? body.findLast((b) => b.press)?.press?.key : undefined;
  return new ReadingPage(
    {
      name: 'whole',
      head,
      start: firstHidden(page, stack.room, message),
      blocks: (room: Room) => page.view(room).body.map(asLines(key !== undefined)),
      ...(key === undefined
        ? {}
        : {
            confirm: {
              key,
              does: () => {
                stack.pop();
                return page.press({ name: 'char', char: key });
              },
            },
          }),
      press: (key) => {
        if (key.name !== 'enter' && !(key.name === 'char' && /^[\d+]$/.test(key.char))) return false;
        stack.say(`Here you only read. Press Esc first, then ${key.name === 'enter' ? 'Enter' : key.char}.`);
        return true;
      },
    },
    stack,
  );
}
