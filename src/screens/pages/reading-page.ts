/** A page to be read: as long as it needs to be, moved through with the arrows. */
import type { Key } from '../keys.js';
import type { Block, Hint, Room, View } from '../look/line.js';
import type { Page, Stack } from '../page.js';
import { bodyHeight, columns } from '../parts/frame-layout.js';

export interface Reading {
  readonly name: string;
  readonly head: string;
  readonly blocks: (room: Room) => readonly Block[];
  readonly hints?: readonly Hint[];
  /** Keys beyond moving and leaving. */
  readonly press?: (key: Key) => boolean | Promise<boolean>;
}

export class ReadingPage implements Page {
  readonly name: string;
  private scroll = 0;

  constructor(
    private readonly reading: Reading,
    private readonly stack: Stack,
  ) {
    this.name = reading.name;
  }

  private size(room: Room): { lines: number; height: number } {
    const { body } = columns(room, false);
    const blocks = this.reading.blocks(room);
    const lines = blocks.reduce((n, b, i) => n + (b.gap && i > 0 ? 1 : 0) + (b.lines?.(body).length ?? 0), 0);
    return { lines, height: bodyHeight(room, 1) };
  }

  view(room: Room): View {
    const { lines, height } = this.size(room);
    const long = lines > height;
    this.scroll = Math.max(0, Math.min(this.scroll, lines - height));
    return {
      head: this.reading.head,
      headRight: long ? `lines ${this.scroll + 1}-${Math.min(lines, this.scroll + height)} of ${lines}` : '',
      body: this.reading.blocks(room),
      scroll: this.scroll,
      foot: [
        ...(long
          ? [
              { key: '↑↓', does: 'move', rank: 1 },
              { key: 'Space', does: 'next page', rank: 2 },
            ]
          : []),
        ...(this.reading.hints ?? []),
        { key: 'Esc', does: 'back', rank: 1 },
      ],
    };
  }

  press(key: Key): boolean | Promise<boolean> {
    const { lines, height } = this.size(this.stack.room);
    const most = Math.max(0, lines - height);
    const to = (n: number): boolean => {
      this.scroll = Math.max(0, Math.min(most, n));
      return true;
    };
    const page = Math.max(1, height - 2);
    switch (key.name) {
      case 'esc':
        this.stack.pop();
        return true;
      case 'down':
        return to(this.scroll + 1);
      case 'up':
        return to(this.scroll - 1);
      case 'page-down':
        return to(this.scroll + page);
      case 'page-up':
        return to(this.scroll - page);
      case 'home':
        return to(0);
      case 'end':
        return to(most);
      case 'char':
        if (key.char === ' ') return to(this.scroll + page);
        break;
      default:
    }
    return this.reading.press?.(key) ?? false;
  }
}
