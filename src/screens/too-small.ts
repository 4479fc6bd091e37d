/** A window in which a caution or a stop could not be seen: it shows only that, and takes no answer. */
import type { Room, View } from './look/line.js';
import { wrapText } from './look/wrap.js';

/** Columns and rows that the guide needs. */
const leastRoom = { cols: 40, rows: 12 } as const;

export const tooSmall = ({ cols, rows }: Room): boolean => cols < leastRoom.cols || rows < leastRoom.rows;

export function tooSmallView({ cols, rows }: Room): View {
  const { cols: c, rows: r } = leastRoom;
  const text = `Make the window larger: ${c} x ${r} or more. It is ${cols} x ${rows}. Ctrl-C leaves. Nothing is answered until then.`;
  return {
    head: '',
    bare: true,
    body: [{ rank: 1, lines: (width) => wrapText(text, Math.max(1, width), 'strong') }],
    foot: [],
  };
}
