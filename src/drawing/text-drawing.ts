/** Drawings in characters, for a terminal and for Markdown. */
import { safeText } from '../text/safe-text.js';
import { textWidth } from '../text/text-width.js';
import { textBearing } from './bearing-text.js';
import { textCage } from './cage-text.js';
import { textLife } from './life-text.js';
import { type DrawingSize, isPicture, type PictureName, type PictureValues } from './picture.js';
import { textProbes } from './probes-text.js';
import { textRunIn } from './run-in-text.js';
import { textSyringe } from './syringe-text.js';

const draw: Readonly<Record<PictureName, (values: PictureValues, room: DrawingSize) => string[]>> = {
  syringe: textSyringe,
  'bearing-section': textBearing,
  'cage-side': textCage,
  probes: textProbes,
  'run-in-curve': textRunIn,
  'life-curve': textLife,
};

/** Smallest room in which anything can be recognised. */
const LEAST = { width: 24, height: 4 };

/** Lines of a drawing, none wider than the room and not more than its height; none for an unknown name or no room. */
export function textDrawing(picture: string, values: PictureValues, room: DrawingSize): string[] {
  if (!isPicture(picture) || !(room.width >= LEAST.width) || !(room.height >= LEAST.height)) return [];
  const width = Math.min(Math.floor(room.width), 240);
  const lines = draw[picture](values, { ...room, width, height: Math.floor(room.height) });
  return lines
    .flatMap((l) => folded(l, width))
    .slice(0, Math.floor(room.height))
    .map((l) => fitted(l, width, room.ascii));
}

/** Words at the end of a line that is too wide go on in the next one; what is drawn is never broken. */
function folded(line: string, width: number): string[] {
  if (textWidth(line) <= width) return [line];
  for (let at = line.lastIndexOf(' '); at > 0; at = line.lastIndexOf(' ', at - 1)) {
    const [head, tail] = [line.slice(0, at).trimEnd(), line.slice(at + 1).trimStart()];
    if (!/\p{L}{2}/u.test(tail) || head.trim() === '') continue;
    if (textWidth(head) > width) continue;
    const indent = ' '.repeat(Math.min(8, (/^ */.exec(line)?.[0].length ?? 0) + 2));
    return tail.length + indent.length >= line.length ? [line] : [head, ...folded(indent + tail, width)];
  }
  return [line];
}

/** Names come from people: no control character, no more columns than there are. */
function fitted(line: string, width: number, ascii: boolean): string {
  const clean = safeText(line, { max: 1000 });
  const plain = ascii
    ? clean
        .normalize('NFKD')
        .replace(/\p{M}/gu, '')
        .replace(/[^\x20-\x7e]/gu, '?')
    : clean;
  if (textWidth(plain) <= width) return plain.trimEnd();
  let out = '';
  let used = 0;
  for (const { segment } of new Intl.Segmenter('en', { granularity: 'grapheme' }).segment(plain)) {
    used += textWidth(segment);
    if (used > width) break;
    out += segment;
  }
  return out.trimEnd();
}
