/** Moving through a text that is longer than the window. */
import type { Key } from '../../keys/key.js';
import type { Block, Hint, Room } from '../look/line.js';
import { bodyRoom, columns } from '../parts/frame-layout.js';

/** Keys that move, beside the page's own. */
const moving: readonly Hint[] = [
  { key: '↑↓', does: 'move', rank: 1 },
  { key: 'Space', does: 'next page', rank: 2 },
];

export class Scroll {
  /** @param at line that stands at the top first */
  constructor(private at = 0) {}

  private size(blocks: readonly Block[], hints: readonly Hint[], room: Room): { lines: number; height: number } {
    const { body } = columns(room, false);
    const lines = blocks.reduce((n, b, i) => n + (b.gap && i > 0 ? 1 : 0) + (b.lines?.(body).length ?? 0), 0);
    const height = bodyRoom(hints, room);
    return { lines, height: lines > height ? bodyRoom([...hints, ...moving], room) : height };
  }

  /** Where the window stands on these blocks: the first line, words for the head, and the keys that move it. */
  view(blocks: readonly Block[], hints: readonly Hint[], room: Room) {
    const { lines, height } = this.size(blocks, hints, room);
    const long = lines > height;
    const at = Math.max(0, Math.min(this.at, lines - height));
    return {
      scroll: at,
      headRight: long ? `lines ${at + 1}-${Math.min(lines, at + height)} of ${lines}` : '',
      hints: long ? moving : [],
    };
  }

  /** True where the last line is in sight. */
  ends(blocks: readonly Block[], hints: readonly Hint[], room: Room): boolean {
    const { lines, height } = this.size(blocks, hints, room);
    return this.at >= lines - height;
  }

  /** True when the key moves; also at an end. */
  press(key: Key, blocks: readonly Block[], hints: readonly Hint[], room: Room): boolean {
    const { lines, height } = this.size(blocks, hints, room);
    const most = Math.max(0, lines - height);
    const page = Math.max(1, height - 2);
    // A window that was made higher since shows more than where it stood.
    const now = Math.min(this.at, most);
    const to = (n: number): true => {
      this.at = Math.max(0, Math.min(most, n));
      return true;
    };
    switch (key.name) {
      case 'down':
        return to(now + 1);
      case 'up':
        return to(now - 1);
      case 'page-down':
        return to(now + page);
      case 'page-up':
        return to(now - page);
      case 'home':
        return to(0);
      case 'end':
        return to(most);
      default:
        return key.name === 'char' && key.char === ' ' ? to(now + page) : false;
    }
  }
}
