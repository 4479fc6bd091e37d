/** The pages that lie on one another: where keys go, and what stands on the screen. Holds no job: pages do. */
import type { Key } from '../keys/key.js';
import type { KeyTaker, Prompt } from '../keys/key-taker.js';
import type { Room, View } from './look/line.js';
import type { Page, Stack } from './page.js';
import { wholePage } from './pages/whole-page.js';
import { layFrame, type Message } from './parts/frame-layout.js';
import { tooSmall, tooSmallView } from './too-small.js';

/** Longer than this, in ms, and a person wonders whether the key was taken. */
const blink = 250;

/** What stands on the screen. */
export interface Shown {
  readonly view: View;
  readonly room: Room;
  readonly message: Message | undefined;
}

export class PageStack implements Stack, KeyTaker {
  readonly pages: Page[] = [];
  message: Message | undefined;
  /** Settles once the page that was asked for on the command line lies on top. */
  opening: Promise<void> | undefined;
  private readonly listeners = new Set<() => void>();
  private turn = 0;
  /** What is asked is to be worked out anew. */
  private stale = true;
  /** The listeners are still to be told. */
  private due = false;
  private now: Prompt = { id: '', field: 'none', confirm: 'none' };
  /** A key is being worked on: what it changes is drawn once, when it is done or takes longer than a blink. */
  private working = false;
  private over = false;
  /** What was typed while a key was worked on is dropped. */
  private unseen = false;
  private readonly leaving: Promise<void>[] = [];

  constructor(
    private readonly size: () => Room,
    private readonly ended: (code: number) => void,
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

  /** The one place where the page on top works out what stands there. */
  private advance(): void {
    if (!this.stale) return;
    this.stale = false;
    const page = this.top;
    const { id = '', field = 'none', confirm = 'none' } = page?.advance?.(this.room) ?? {};
    this.now = { id: `${this.pages.length}:${page?.name}:${id}`, field, confirm };
  }

  get asked(): Prompt {
    this.advance();
    // Nothing can be seen there that could be answered.
    return tooSmall(this.room) ? { id: 'too small', field: 'none', confirm: 'none' } : this.now;
  }

  /** The page on top as it is to be drawn; nothing once all are left. */
  get shown(): Shown | undefined {
    this.advance();
    const page = this.top;
    if (!page) return undefined;
    const { room, message } = this;
    if (tooSmall(room)) return { view: tooSmallView(room), room, message: undefined };
    const view = page.view(room);
    // In front, where it is never cut off: no page of a practice job can be taken for one of a real job.
    const practice = this.pages.some((p) => p.practice?.());
    const shop = this.pages.some((p) => p.shop?.());
    const head = [...(practice ? ['PRACTICE'] : []), ...(shop ? ['SHOP’S OWN'] : []), view.head].join(' · ');
    return { view: { ...view, head }, room, message };
  }

  /** However many changes are made at once, they are worked out and drawn once. */
  changed(): void {
    this.stale = true;
    if (this.due || this.working) return;
    this.due = true;
    queueMicrotask(() => this.tell());
  }
  private tell(): void {
    if (!this.due) return;
    this.due = false;
    this.advance();
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
  early({ char }: Key): void {
    this.message = { text: `This ${char} came too soon: read first`, tone: 'alert', inRule: true };
    this.changed();
  }
  forgetAhead(): void {
    this.unseen = true;
  }
  forgets(): boolean {
    return this.unseen;
  }
  /** Says that something is on its way when it takes longer than a blink. */
  tellWhile(work: Promise<unknown>): void {
    const moment: Message = { text: 'One moment …', tone: 'good' };
    const timer = setTimeout(() => {
      if (this.over) return;
      this.working = false;
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
    this.push(wholePage(page, this, this.message, this.now.confirm === 'danger'));
    this.message = undefined;
    return true;
  }

  /** Nobody means a line that was never in sight, whatever is picked at its digit. */
  private picksUnseen(page: Page, key: Key): boolean {
    if (this.now.field !== 'none' || key.name !== 'char' || !/^[1-9]$/.test(key.char)) return false;
    const view = page.view(this.room);
    const { fitted } = layFrame(view, this.room, this.message);
    const unseen = view.body.some(({ choices }) => {
      const at = choices?.items.findIndex((i) => i.digit === key.char) ?? -1;
      const list = fitted.find((f) => f.block.choices?.id === choices?.id);
      const end = !list ? 0 : 'choices' in list ? list.from + list.rows.length : Number.POSITIVE_INFINITY;
      return at >= end;
    });
    if (unseen) this.say(`${key.char} is not on the screen: press ↓ first.`);
    return unseen;
  }

  private dropOn(page: Page, { path = '' }: Key): boolean | Promise<boolean> {
    if (page.dropped) return page.dropped(path);
    if (this.now.field === 'text') return typeInto(page, path);
    this.say('A picture goes to a step: press Esc until the step is back, then drop it again.');
    return true;
  }

  async press(key: Key): Promise<void> {
    this.unseen = false;
    const seen = this.asked.id;
    this.stale = true;
    this.working = true;
    try {
      const page = this.top;
      // Time has passed since: what nobody has seen yet is not answered.
      if (this.over || !page || tooSmall(this.room) || this.asked.id !== seen) return;
      await this.handTo(page, key);
    } finally {
      this.working = false;
      this.changed();
      this.tell();
    }
  }

  private async handTo(page: Page, key: Key): Promise<void> {
    const said = this.message;
    if (key.name === 'page-down' && this.wholeOf(page)) return;
    if (this.picksUnseen(page, key)) return;
    let taken = key.name === 'dropped' ? this.dropOn(page, key) : page.press(key);
    if (typeof taken !== 'boolean') {
      this.tellWhile(taken);
      try {
        taken = await taken;
      } catch (error) {
        this.say(`This could not be done: ${error instanceof Error ? error.message : String(error)}`);
        return;
      }
    }
    if (taken && this.message === said) this.message = undefined;
    if (taken || key.name !== 'char') return;
    if (key.char === ' ') this.wholeOf(page);
    const here = page.view(this.room).foot.filter((h) => h.rank === 1);
    if (/^\d$/.test(key.char) && here.length) this.say(`Here: ${here.map((h) => `${h.key} ${h.does}`).join(', ')}.`);
  }
}

/** A dropped file where its path is typed. */
async function typeInto(page: Page, path: string): Promise<boolean> {
  for (const char of path.trim()) await page.press({ name: 'char', char, pasted: true });
  return true;
}
