/** What is read on the screen page by page, as something beyond the screens tells it: sheet, sources, life of a rotor. */

import { isChar, type Key } from '../../keys/key.js';
import type { SheetPage } from '../app-contract.js';
import type { Block, Hint, Room, View } from '../look/line.js';
import { wrapText } from '../look/wrap.js';
import type { Page, Stack } from '../page.js';
import { Scroll } from './scroll.js';

const turn: Hint = { key: '←→', does: 'turn the page', rank: 1 };
const back: Hint = { key: 'Esc', does: 'back', rank: 1 };

/** One page with a sentence, where there is nothing to turn. */
const oneSentence = (text: string): readonly SheetPage[] => [{ title: '', lines: (width) => wrapText(text, width) }];

export class TurnedPages implements Page {
  private pages: readonly SheetPage[] = oneSentence('One moment …');
  private at = 0;
  private scroll = new Scroll();

  constructor(
    readonly name: string,
    private readonly heads: readonly string[],
    told: readonly SheetPage[] | Promise<readonly SheetPage[]>,
    private readonly stack: Stack,
    private readonly more:
      | { readonly hint: Hint; readonly press: (key: Key) => boolean | undefined }
      | undefined = undefined,
  ) {
    if (!(told instanceof Promise)) this.pages = told;
    else
      told.then(
        (pages) => this.show(pages),
        (error: unknown) =>
          this.show(oneSentence(`It could not be made: ${error instanceof Error ? error.message : String(error)}`)),
      );
  }

  private show(pages: readonly SheetPage[]): void {
    this.pages = pages;
    this.stack.changed();
  }

  private blocks(room: Room): readonly Block[] {
    const page = this.pages[this.at];
    return page ? [{ rank: 1, lines: (width) => page.lines(width, room.ascii) }] : [];
  }

  private get hints(): readonly Hint[] {
    return [...(this.more ? [this.more.hint] : []), ...(this.pages.length > 1 ? [turn] : []), back];
  }

  view(room: Room): View {
    const body = this.blocks(room);
    const { scroll, headRight, hints } = this.scroll.view(body, this.hints, room);
    const { title = '' } = this.pages[this.at] ?? {};
    const where = this.pages.length > 1 ? `page ${this.at + 1} of ${this.pages.length}, ${title}` : '';
    return {
      head: [...this.heads, where].filter(Boolean).join(' · '),
      headRight,
      body,
      scroll,
      foot: [...this.hints.slice(0, -1), ...hints, back],
    };
  }

  press(key: Key): boolean {
    const { room } = this.stack;
    const own = this.more?.press(key);
    if (own !== undefined) return own;
    if (key.name === 'esc') {
      this.stack.pop();
      return true;
    }
    if (key.name === 'right' || key.name === 'left') return this.go(key.name === 'right' ? 1 : -1);
    // At the end of a page the key that moves on turns it.
    if (isChar(key, ' ') || key.name === 'page-down') {
      const before = this.scroll.view(this.blocks(room), this.hints, room).scroll;
      this.scroll.press(key, this.blocks(room), this.hints, room);
      const after = this.scroll.view(this.blocks(room), this.hints, room).scroll;
      return after !== before || this.go(1);
    }
    return this.scroll.press(key, this.blocks(room), this.hints, room);
  }

  private go(by: number): true {
    const to = Math.max(0, Math.min(this.pages.length - 1, this.at + by));
    if (to !== this.at) this.scroll = new Scroll();
    this.at = to;
    return true;
  }
}
