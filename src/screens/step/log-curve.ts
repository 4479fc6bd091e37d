/** The curve of a log under its question, where nothing stands beside the page; the first to go where there is no room. */
import type { Block, Room } from '../look/line.js';
import { columns } from '../parts/frame-layout.js';
import type { MomentOf } from './moment.js';
import { pictureLines } from './picture.js';

/** Lines of the drawing: with room, and with little. */
const high = 9;
const low = 6;

export function curveBlock({ desk, view }: MomentOf, room: Room): Block[] {
  if (!view.step.repeat || !view.ledger?.rows.length || columns(room, true).side > 0) return [];
  const drawn = (height: number) => (width: number) => pictureLines(desk, view, width, height) ?? [];
  return [{ rank: 2, gap: true, eyeOnly: true, lines: drawn(high), small: drawn(low) }];
}
