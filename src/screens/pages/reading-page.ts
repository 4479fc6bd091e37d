/** A page to be read: as long as it needs to be, moved through with the arrows. */
import { isChar, type Key } from '../../keys/key.js';
import type { Block, Hint, Room, View } from '../look/line.js';
import type { Asks, Page, Stack } from '../page.js';
import { Scroll } from './scroll.js';

export interface ReadingOptions {
  readonly name: string;
  readonly head: string;
  readonly blocks: (room: Room) => readonly Block[];
  /** What the keys beyond moving do; a function where that changes. */
  readonly hints?: readonly Hint[] | (() => readonly Hint[]);
  /** Keys beyond moving and leaving. */
  readonly press?: (key: Key) => boolean | Promise<boolean>;
  /** A danger: once its last line was in sight, this key confirms it; until then it says so. */
  readonly confirm?: { readonly key: string; readonly does: () => boolean | Promise<boolean> };
  /** Line that stands at the top first. */
  readonly start?: number;
  /** Where Esc goes, when that is not the page below. */
  readonly back?: () => void;
}

const back: Hint = { key: 'Esc', does: 'back', rank: 1 };

export class ReadingPage implements Page {
  readonly name: string;
  private readonly scroll: Scroll;
  private ended = false;

  constructor(
    private readonly reading: ReadingOptions,
    private readonly stack: Stack,
  ) {
    this.name = reading.name;
    this.scroll = new Scroll(reading.start);
  }

  private get hints(): readonly Hint[] {
    return [...this.own, back];
  }

  private get own(): readonly Hint[] {
    const { hints } = this.reading;
    return typeof hints === 'function' ? hints() : (hints ?? []);
  }

  view(room: Room): View {
    const body = this.reading.blocks(room);
    const { scroll, headRight, hints } = this.scroll.view(body, this.hints, room);
    return { head: this.reading.head, headRight, body, scroll, foot: [...this.own, ...hints, back] };
  }

  advance(room: Room): Asks {
    const { confirm, blocks } = this.reading;
    this.ended ||= confirm !== undefined && this.scroll.ends(blocks(room), this.hints, room);
    return this.ended ? { id: 'end', confirm: 'danger' } : {};
  }

  press(key: Key): boolean | Promise<boolean> {
    const { room } = this.stack;
    const { confirm } = this.reading;
    if (confirm && isChar(key, confirm.key)) {
      if (this.ended) return confirm.does();
      this.stack.say('Read on to its end first, with Space.');
      return true;
    }
    if (key.name === 'esc') {
      if (this.reading.back) this.reading.back();
      else this.stack.pop();
      return true;
    }
    if (this.scroll.press(key, this.reading.blocks(room), this.hints, room)) return true;
    return this.reading.press?.(key) ?? false;
  }
}
