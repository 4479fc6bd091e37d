/** A list of things to go to or to do. The first line is highlighted; nothing is recorded by picking. */
import { digitOf, move } from '../ask/pick-list.js';
import type { Key } from '../keys.js';
import type { Block, Hint, Item, Room, View } from '../look/line.js';
import type { Page, Stack } from '../page.js';
import { heading } from '../words/blocks.js';

export interface Picking {
  readonly name: string;
  readonly head: string;
  readonly headRight?: string;
  readonly title?: string;
  readonly above?: (room: Room) => readonly Block[];
  readonly items: () => readonly Item[];
  readonly picked: (value: string) => boolean | Promise<boolean>;
  readonly hints?: readonly Hint[];
  readonly press?: (key: Key) => boolean | Promise<boolean> | undefined;
  /** Told when it lies on top again. */
  readonly again?: () => void;
  /** False on the lowest page. */
  readonly back?: boolean;
}

export class PickPage implements Page {
  readonly name: string;
  private index = 0;

  constructor(
    private readonly picking: Picking,
    private readonly stack: Stack,
  ) {
    this.name = picking.name;
  }

  view(room: Room): View {
    const items = this.picking.items();
    this.index = Math.max(0, Math.min(this.index, items.length - 1));
    return {
      head: this.picking.head,
      headRight: this.picking.headRight,
      body: [
        ...(this.picking.title ? [heading(this.picking.title)] : []),
        ...(this.picking.above?.(room) ?? []),
        {
          rank: 1,
          gap: true,
          choices: {
            id: this.name,
            index: this.index,
            items: items.map((i, n) => ({ ...i, digit: digitOf(n) ?? ' ' })),
          },
        },
      ],
      foot: [
        ...(items.length
          ? [
              { key: 'Enter', does: 'take it', rank: 1 },
              { key: '↑↓', does: 'move', rank: 2 },
            ]
          : []),
        ...(this.picking.hints ?? []),
        ...(this.picking.back === false ? [] : [{ key: 'Esc', does: 'back', rank: 1 }]),
      ],
    };
  }

  again(): void {
    this.picking.again?.();
  }

  press(key: Key): boolean | Promise<boolean> {
    const items = this.picking.items();
    const own = this.picking.press?.(key);
    if (own !== undefined && own !== false) return own;
    const to = move(this.index, items.length, key);
    if (to !== undefined) {
      this.index = to;
      return true;
    }
    if (key.name === 'enter') {
      const hit = items[this.index];
      return hit ? this.picking.picked(hit.value) : false;
    }
    if (key.name === 'char') {
      const hit = /^[1-9]$/.test(key.char) ? items[Number(key.char) - 1] : undefined;
      if (hit) return this.picking.picked(hit.value);
    }
    if (key.name === 'esc' && this.picking.back !== false) {
      this.stack.pop();
      return true;
    }
    return false;
  }
}
