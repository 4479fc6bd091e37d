/**
 * What has to be read before it may be acknowledged: it is acknowledged only where all of it stands on the screen, and
 * read page by page where the window is too small for that.
 */
// @ts-nocheck

import type { Desk } from '../desk.js';
import { isChar, type Key } from '../keys.js';
import type { Block, Line, Room, View } from '../look/line.js';
import { bodyHeight, layFrame, type Message } from '../parts/frame-layout.js';
import { isSafety, pressBlock } from './moment.js';

/** Lines below the text of a page: the key that goes on, which may be folded. */
const reserve = 2;
/** Taller than any text: everything is laid out. */
const endless = 100_000;

/** True when each block that has to be read stands there whole. */
function stands(view: View, room: Room, message: Message | undefined): boolean {
  const { fitted, width } = layFrame(view, room, message);
  const there = fitted.filter((f) => f.block.mustSee);
  return (
    there.length === view.body.filter((b) => b.mustSee).length &&
    there.every((f) => 'lines' in f && f.lines.length === (f.block.lines?.(width).length ?? 0))
  );
}

/** All lines of these blocks as they are drawn, folded to the window. */
function linesOf(view: View, blocks: readonly Block[], room: Room): Line[] {
  const { side: _, ...bare } = view;
  const { fitted } = layFrame(
    { ...bare, body: blocks.map((b) => ({ ...b, gap: false })) },
    { ...room, rows: endless },
    undefined,
  );
  return fitted.flatMap((f) => ('lines' in f ? [...f.lines] : []));
}

export class ReadWhole {
  /** Page that is shown. */
  private at = 0;
  private pages = 1;
  /** What is read, and in which window: in another it is read from its beginning. */
  private of = '';
  private drawn: { readonly view: View; readonly where: string } | undefined;

  /** Names the page, so that a held key is not taken for the next one too. */
  get page(): number {
    return this.at;
  }

  /** The view as it is, or a page of it where its text does not fit. */
  fit(view: View, where: string, room: Room): View {
    const of = `${where}:${room.cols}x${room.rows}`;
    if (of !== this.of) {
      this.of = of;
      this.at = 0;
    }
    this.pages = 1;
    this.drawn = { view, where };
    const must = view.body.filter((b) => b.mustSee);
    if (must.length === 0 || stands(view, room, undefined)) return view;
    const [last, text] = [must.at(-1), must.slice(0, -1)];
    const lines = linesOf(view, text, room);
    const height = Math.max(1, bodyHeight(room, room.rows >= 22 ? 2 : 1) - reserve);
    this.pages = Math.max(1, Math.ceil(lines.length / height));
    this.at = Math.min(this.at, this.pages - 1);
    const here = lines.slice(this.at * height, (this.at + 1) * height);
    const ends = this.at === this.pages - 1;
    const on = { ...pressBlock('Space', `to read on, ${this.at + 1} of ${this.pages}`), rank: 0, gap: false };
    const { side: _, ...bare } = view;
    const paged: View = {
      ...bare,
      body: [
        { rank: 0, mustSee: true, label: 'Caution', lines: () => here },
        { ...(ends && last ? { ...last, gap: false } : on), mustSee: true },
      ],
      foot: ends ? view.foot : [{ key: 'Space', does: 'read on', rank: 1 }, ...view.foot.slice(1)],
    };
    this.drawn = { view: paged, where };
    return paged;
  }

  /**
   * Takes the keys that turn pages, and the one that acknowledges before all was read.
   * @param where name of what stands there now
   * @returns undefined when the key is for whoever stands behind
   */
  press(key: Key, where: string, desk: Desk): boolean | undefined {
    const { room, message } = desk.stack;
    const view = this.drawn?.where === where ? this.drawn.view : undefined;
    if (!view?.body.some((b) => b.mustSee)) return undefined;
    const forward = key.name === 'page-down' || key.name === 'down' || isChar(key, ' ');
    const back = key.name === 'page-up' || key.name === 'up';
    // Behind a message a part may be hidden; it goes with this key, and then all of it stands there.
    const whole = stands(view, room, message);
    if (this.pages > 1 && (forward || back)) {
      if (whole || back) this.at = Math.max(0, Math.min(this.pages - 1, this.at + (forward ? 1 : -1)));
      return true;
    }
    if (!isSafety(desk, key)) return undefined;
    if (this.at < this.pages - 1) {
      desk.stack.say('Read on to its end first, with Space.');
      return true;
    }
    return whole ? undefined : true;
  }
}
