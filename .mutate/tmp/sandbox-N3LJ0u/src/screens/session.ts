/** The pages that lie on one another, and where keys go. Holds no job: pages do. */
// @ts-nocheck

import type { Key } from './keys.js';
import type { Room } from './look/line.js';
import type { Page, Stack } from './page.js';
import { wholePage } from './pages/whole-page.js';
import { layFrame, type Message } from './parts/frame-layout.js';
import { tooSmall } from './too-small.js';

/** Longer than this, in ms, and a person wonders whether the key was taken. */
const blink = 250;

export class Session implements Stack {
  readonly pages: Page[] = [];
  message: Message | undefined;
  /** Settles once the page that was asked for on the command line lies on top. */
  opening: Promise<void> | undefined;
  private readonly listeners = new Set<() => void>();
  private turn = 0;
  private busy = false;
  private over = false;
  private readonly leaving: Promise<void>[] = [];

  constructor(
    private readonly size: () => Room,
    private readonly ended: (code: number) => void,
    private readonly hold: (() => () => void) | undefined = undefined,
  ) {}

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };
  /** Grows with each change. */
  readonly version = (): number => this.turn;

  /** Resolves once every page that was left has done what it still had to. */
  get closed(): Promise<unknown> {
    return Promise.allSettled(this.leaving);
  }
  private drop(): void {
    const left = this.pages.pop()?.leave?.();
    if (left) this.leaving.push(left);
  }
  get top(): Page | undefined {
    return this.pages.at(-1);
  }
  get room(): Room {
    return this.size();
  }

  changed(): void {
    this.turn += 1;
    for (const l of this.listeners) l();
  }
  push(page: Page): void {
    this.pages.push(page);
    this.changed();
  }
  pop(): void {
    if (this.pages.length <= 1) return;
    this.drop();
    this.top?.again?.();
    this.changed();
  }
  popTo(name: string): void {
    const before = this.top;
    while (this.pages.length > 1 && this.top?.name !== name) this.drop();
    if (this.top !== before) this.top?.again?.();
    this.changed();
  }
  replace(page: Page): void {
    this.drop();
    this.push(page);
  }
  say(text: string, tone: 'alert' | 'good' = 'alert'): void {
    this.message = { text, tone };
    this.changed();
  }
  /** Says that something is on its way when it takes longer than a blink. */
  tellWhile(work: Promise<unknown>): void {
    const moment: Message = { text: 'One moment …', tone: 'good' };
    const timer = setTimeout(() => {
      if (this.over) return;
      this.message = moment;
      this.changed();
    }, blink);
    const settled = (): void => {
      clearTimeout(timer);
      if (this.message !== moment) return;
      this.message = undefined;
      this.changed();
    };
    work.then(settled, settled);
  }
  quit(code: number): void {
    if (this.over) return;
    this.over = true;
    while (this.pages.length) this.drop();
    this.ended(code);
  }

  /** Lays on top what this page had no room for; false where all of it stands there. */
  private wholeOf(page: Page): boolean {
    const view = page.view(this.room);
    if (view.scroll !== undefined || !layFrame(view, this.room, this.message).cut) return false;
    this.message = undefined;
    this.push(wholePage(page, this));
    return true;
  }

  press(key: Key): void {
    if (this.over) return;
    if (key.name === 'ctrl') {
      if (key.char === 'c') this.quit(130);
      return;
    }
    // Nothing can be seen there that could be answered.
    if (tooSmall(this.room)) {
      this.changed();
      return;
    }
    // What is pressed while an answer is being saved was meant for the question before.
    if (this.busy) return;
    const page = this.top;
    if (!page) return;
    const said = this.message;
    if (key.name === 'page-down' && this.wholeOf(page)) return;
    const done = (taken: boolean): void => {
      if (taken && this.message === said) this.message = undefined;
      if (!taken && key.name === 'char' && key.char === ' ' && this.wholeOf(page)) return;
      this.changed();
    };
    const taken = page.press(key);
    if (typeof taken === 'boolean') {
      done(taken);
      return;
    }
    this.busy = true;
    const release = this.hold?.();
    this.tellWhile(taken);
    const finish = (): void => {
      this.busy = false;
      release?.();
    };
    taken.then(
      (t) => {
        finish();
        done(t);
      },
      (error: unknown) => {
        finish();
        this.say(`This could not be done: ${error instanceof Error ? error.message : String(error)}`);
      },
    );
  }
}
