/** The job sheet as it stands, read on the screen page by page. */
import type { SheetPage } from '../app-contract.js';
import type { Desk } from '../desk.js';
import { isChar, type Key } from '../keys.js';
import type { Block, Hint, Room, View } from '../look/line.js';
import { wrapText } from '../look/wrap.js';
import type { Page } from '../page.js';
import { Scroll } from './scroll.js';

const turn: Hint = { key: '←→', does: 'turn the page', rank: 1 };
const back: Hint = { key: 'Esc', does: 'back', rank: 1 };

const said = (text: string): readonly SheetPage[] => [{ title: '', lines: (width) => wrapText(text, width) }];

class SheetPages implements Page {
  readonly name = 'sheet';
  private pages: readonly SheetPage[] = said('One moment …');
  private at = 0;
  private scroll = new Scroll();

  constructor(private readonly desk: Desk) {
    const told = desk.app.sheetPages?.(desk.state);
    if (told === undefined) this.pages = said('The job sheet can be had with: rotorside sheet');
    else if (!(told instanceof Promise)) this.pages = told;
    else
      told.then(
        (pages) => this.show(pages),
        (error: unknown) =>
          this.show(said(`The sheet could not be made: ${error instanceof Error ? error.message : String(error)}`)),
      );
  }

  private show(pages: readonly SheetPage[]): void {
    this.pages = pages;
    this.desk.stack.changed();
  }

  private blocks(room: Room): readonly Block[] {
    const page = this.pages[this.at];
    return page ? [{ rank: 1, lines: (width) => page.lines(width, room.ascii) }] : [];
  }

  private get hints(): readonly Hint[] {
    return this.pages.length > 1 ? [turn, back] : [back];
  }

  view(room: Room): View {
    const body = this.blocks(room);
    const { scroll, headRight, hints } = this.scroll.view(body, this.hints, room);
    const { title = '' } = this.pages[this.at] ?? {};
    const where = this.pages.length > 1 ? `page ${this.at + 1} of ${this.pages.length}, ${title}` : '';
    return {
      head: ['Job sheet', this.desk.state.ledger.job?.name ?? '', where].filter(Boolean).join(' · '),
      headRight,
      body,
      scroll,
      foot: [...(this.pages.length > 1 ? [turn] : []), ...hints, back],
    };
  }

  press(key: Key): boolean {
    const { room } = this.desk.stack;
    if (key.name === 'esc') {
      this.desk.stack.pop();
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

export const sheetPage = (desk: Desk): Page => new SheetPages(desk);
