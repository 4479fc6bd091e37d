/** Where things lie along a syringe, in mm from where the plunger starts, toward the tip. */
import { numbersOf, type PictureValues, pictureWords, sizeOf } from './picture.js';

export interface SyringeShape {
  readonly bore: number | undefined;
  readonly marks: readonly { readonly mm: number; readonly label: string }[];
  /** From the start of the plunger to the end of the barrel at the tip. */
  readonly length: number;
  /** Barrel behind the start of the plunger. */
  readonly before: number;
}

/** More marks than this are no help on a barrel. */
const MARKS_MOST = 12;

export function syringeShape(values: PictureValues): SyringeShape {
  const bore = sizeOf(values, 'bore');
  const labels = pictureWords(values, 'labels');
  const marks = numbersOf(values, 'marks')
    .filter((mm) => mm >= 0)
    .slice(0, MARKS_MOST)
    .map((mm, i) => ({ mm, label: labels[i] ?? '' }));
  const last = Math.max(0, ...marks.map((m) => m.mm));
  const capacity = sizeOf(values, 'capacity');
  const barrel = bore && capacity ? (1000 * capacity) / ((Math.PI / 4) * bore * bore) : undefined;
  // The tip lies a little beyond the last stop, so that the last mark can be seen.
  const length = last > 0 ? last * 1.04 : (barrel ?? 50);
  return {
    bore,
    marks,
    length, // The rest of a long barrel says nothing and would squeeze the marks.
    before: barrel && barrel > length ? Math.min(barrel - length, 0.35 * length) : 0.1 * length,
  };
}
