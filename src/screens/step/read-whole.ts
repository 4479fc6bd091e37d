/**
 * What has to be read before it may be acknowledged or answered: that is done only where all of it stands on the screen,
 * or behind its last page where the window is too small for that.
 */

import { isChar, type Key } from '../../keys/key.js';
import type { Desk } from '../desk.js';
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
  /** What stands there is asked: the keys are for the question. */
  private asks = false;
  /** What is read now, whole or a page of it. */
  private now: View | undefined;

  /** Number of the page that is shown. */
  get page(): number {
    return this.at;
  }

  /** Works out what of a view with something to be read is shown: it as it is, or a page where its text does not fit. */
  advance(view: View | undefined, where: string, room: Room): View | undefined {
    const of = `${where}:${room.cols}x${room.rows}`;
    if (of !== this.of) {
      this.of = of;
      this.at = 0;
    }
    this.pages = 1;
    this.now = view && this.pageOf(view, room);
    return this.now;
  }

  private pageOf(view: View, room: Room): View {
    const must = view.body.filter((b) => b.mustSee);
    // Beside the end of a caution stands its key; behind the end of a list the question as it is.
    const last = must.find((b) => b.press);
    this.asks = !last;
    if (must.length === 0 || stands(view, room, undefined)) return view;
    const text = last
      ? must.filter((b) => b !== last)
      : view.body
          .slice(0, view.body.findLastIndex((b) => b.mustSee) + 1)
          .map((b) => ({ ...b, lines: b.small ?? b.lines }));
    const lines = linesOf(view, text, room);
    const height = Math.max(1, bodyHeight(room, room.rows >= 22 ? 2 : 1) - reserve);
    const texts = Math.ceil(lines.length / height);
    this.pages = texts + (last ? 0 : 1);
    this.at = Math.min(this.at, this.pages - 1);
    const ends = this.at === this.pages - 1;
    this.asks &&= ends;
    // It was read: the question has the room, and what is left out is told.
    if (this.asks) return { ...view, body: view.body.map((b) => (b.mustSee ? { ...b, rank: 4 } : b)) };
    const here = lines.slice(this.at * height, (this.at + 1) * height);
    const on = { ...pressBlock('Space', `to read on, ${this.at + 1} of ${texts}`), rank: 0, gap: false };
    const { side: _, ...bare } = view;
    return {
      ...bare,
      body: [
        { rank: 0, mustSee: true, ...(last ? { label: 'Caution' } : {}), lines: () => here },
        { ...(ends && last ? { ...last, gap: false } : on), mustSee: true },
      ],
      foot: ends ? view.foot : [{ key: 'Space', does: 'read on', rank: 1 }, ...view.foot.filter((h) => !h.told)],
    };
  }

  /**
   * Takes the keys that turn pages, and the one that acknowledges before all was read.
   * @returns undefined when the key is for whoever stands behind
   */
  press(key: Key, desk: Desk): boolean | undefined {
    const { room, message } = desk.stack;
    const view = this.now;
    if (!view || this.asks) return undefined;
    const forward = key.name === 'page-down' || key.name === 'down' || isChar(key, ' ');
    const back = key.name === 'page-up' || key.name === 'up';
    // Behind a message a part may be hidden; it goes with this key, and then all of it stands there.
    const whole = stands(view, room, message);
    if (this.pages > 1 && (forward || back)) {
      if (whole || back) this.at = Math.max(0, Math.min(this.pages - 1, this.at + (forward ? 1 : -1)));
      return true;
    }
    if (this.at === this.pages - 1) return whole || !isSafety(desk, key) ? undefined : true;
    if (!isSafety(desk, key) && key.name !== 'enter' && !(key.name === 'char' && /^\d$/.test(key.char)))
      return undefined;
    desk.stack.say('Read on to its end first, with Space.');
    return true;
  }
}
