/** A list of things to go to or to do. The first line is highlighted; nothing is recorded by picking. */

import type { Key } from '../../keys/key.js';
import { emptyInput, type Input } from '../ask/asker.js';
import { edit, fieldLines } from '../ask/edit-line.js';
import { digitKeys, digitOf, move, pickFirst } from '../ask/pick-list.js';
import type { Block, Hint, Item, Room, View } from '../look/line.js';
import type { Asks, Page, Stack } from '../page.js';
import { heading, paragraph } from '../words/blocks.js';

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
  /** True where something begins by picking: nothing is highlighted at first, so that a stray Enter begins nothing. */
  readonly bare?: boolean;
  /** Line that is highlighted first; the first one when left out. */
  readonly start?: number;
  /** True for a long list: what is typed leaves only the lines that hold it. */
  readonly filter?: boolean;
  /** A line that stays, whatever is typed. */
  readonly kept?: string;
  /** True where digits are typed too, since what is looked for may begin with one: no line has a digit then. */
  readonly numbers?: boolean;
}

/** Lines that hold every word of `typed`, in any order and case. */
function holding(items: readonly Item[], typed: string, kept: string | undefined): readonly Item[] {
  const wanted = typed.toLowerCase().split(/\s+/).filter(Boolean);
  return items.filter((i) => {
    if (i.value === kept) return true;
    const text = `${i.label} ${i.note ?? ''}`.toLowerCase();
    // R1234 finds R 1234 too.
    const close = text.replace(/\s+/g, '');
    const other = i.words ?? [];
    // Burn is found by burning too.
    const called = (w: string): boolean => other.some((o) => o.startsWith(w) || (o.length > 2 && w.startsWith(o)));
    return wanted.every((w) => text.includes(w) || close.includes(w) || called(w));
  });
}

export class PickPage implements Page {
  readonly name: string;
  private index: number;
  private typed: Input = emptyInput;

  constructor(
    private readonly picking: Picking,
    private readonly stack: Stack,
  ) {
    this.name = picking.name;
    this.index = picking.bare ? -1 : Math.max(0, picking.start ?? 0);
  }

  private get items(): readonly Item[] {
    const items = this.picking.items();
    return this.typed.text ? holding(items, this.typed.text, this.picking.kept) : items;
  }

  /** A digit picks a line until something is typed. */
  advance(): Asks {
    this.index = Math.max(this.picking.bare ? -1 : 0, Math.min(this.index, this.items.length - 1));
    return { field: this.typed.text !== '' ? 'text' : this.picking.numbers ? 'digits' : 'none' };
  }

  private filterLines(room: Room): readonly Block[] {
    if (!this.picking.filter) return [];
    if (!this.typed.text) {
      const how = this.picking.numbers
        ? 'Type a part of it to find it.'
        : 'Type a word of it to find it; a digit picks a line.';
      return [paragraph(how, { rank: 5, tone: 'quiet' })];
    }
    const none = this.items.length ? [] : [paragraph('No line holds that; Backspace takes it back.', { rank: 1 })];
    return [{ rank: 0, lines: (width) => fieldLines(this.typed, width, room.ascii) }, ...none];
  }

  view(room: Room): View {
    const { items } = this;
    return {
      head: this.picking.head,
      headRight: this.picking.headRight,
      body: [
        ...(this.picking.title ? [heading(this.picking.title)] : []),
        ...(this.picking.above?.(room) ?? []),
        ...this.filterLines(room),
        {
          rank: 1,
          gap: true,
          choices: {
            id: `${this.name}:${this.typed.text}`,
            index: this.index,
            items: items.map((i, n) => ({
              ...i,
              digit: (this.typed.text || this.picking.numbers ? undefined : digitOf(n)) ?? ' ',
            })),
          },
        },
      ],
      foot: [
        ...(items.length
          ? [
              ...(this.index < 0 && !this.picking.numbers
                ? [{ key: digitKeys(items.length), does: 'pick', rank: 1 }]
                : [{ key: 'Enter', does: 'select', rank: 1 }]),
              { key: '↑↓', does: 'move', rank: 2 },
            ]
          : []),
        ...(this.picking.hints ?? []),
        ...(this.picking.back === false ? [] : [{ key: 'Esc', does: 'back', rank: 1 }]),
      ],
    };
  }

  /** True when the key changed what is looked for. */
  private find(key: Key): boolean {
    if (!this.picking.filter) return false;
    const { text } = this.typed;
    const picks = this.picking.numbers ? /^\s$/ : /^[\d\s]$/;
    if (text === '' && (key.name !== 'char' || picks.test(key.char))) return false;
    if (key.name === 'esc') this.typed = emptyInput;
    else {
      const next = key.name === 'char' || key.name === 'backspace' ? edit(this.typed, key, 40) : undefined;
      if (!next) return false;
      this.typed = next;
    }
    this.index = 0;
    return true;
  }

  again(): void {
    this.picking.again?.();
  }

  press(key: Key): boolean | Promise<boolean> {
    const { items } = this;
    const own = this.typed.text ? undefined : this.picking.press?.(key);
    if (own !== undefined && own !== false) return own;
    if (this.find(key)) return true;
    const to = move(this.index, items.length, key);
    if (to !== undefined) {
      this.index = to;
      return true;
    }
    if (key.name === 'enter') {
      const hit = items[this.index];
      if (hit) return this.picking.picked(hit.value);
      if (items.length) this.stack.say(pickFirst);
      return items.length > 0;
    }
    if (key.name === 'char') {
      const at = /^[1-9]$/.test(key.char) ? Number(key.char) - 1 : -1;
      const hit = items[at];
      if (hit) {
        // Highlighted too, when one comes back.
        if (this.picking.back !== false) this.index = at;
        return this.picking.picked(hit.value);
      }
    }
    if (key.name === 'esc' && this.picking.back !== false) {
      this.stack.pop();
      return true;
    }
    return false;
  }
}
