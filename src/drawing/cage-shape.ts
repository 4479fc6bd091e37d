/** A snap cage laid flat: how many balls, and to which side its pockets open. Pure. */
import { type PictureValues, sizeOf, wordOf } from './picture.js';

export interface CageShape {
  /** Undefined where nobody counted. */
  readonly balls: number | undefined;
  /** Where its closed side faces; undefined where it is not known. */
  readonly closed: 'front' | 'back' | undefined;
  /** Both sides alike: nothing snaps. */
  readonly alike: boolean;
  /** In words, a sentence each. */
  readonly says: readonly string[];
}

export function cageShape(values: PictureValues): CageShape {
  const count = sizeOf(values, 'balls');
  const balls = count !== undefined && count >= 3 && count <= 60 ? Math.round(count) : undefined;
  const side = wordOf(values, 'side');
  const alike = side === 'whole';
  const closed = side === 'front' || side === 'back' ? side : undefined;
  // 360 degrees shared out evenly; arithmetic.
  const spacing = balls === undefined ? '' : `${balls} balls, ${Number((360 / balls).toFixed(0))}° from ball to ball. `;
  const from = closed
    ? `Press it in from the ${closed === 'back' ? 'rotor side' : closed}, pocket by pocket, until each prong clicks over its ball.`
    : '';
  const open = [
    ...(balls === undefined ? ['Number of balls: not counted yet.'] : []),
    ...(side === undefined ? ['Closed side of the cage: not answered yet.'] : []),
  ];
  const says = alike
    ? [...open, `${spacing}Both sides of the cage are alike: nothing clicks in.`]
    : [
        ...open,
        `${spacing}Space the balls first.`,
        from || 'The closed side goes where it was: mark it before the cage is out.',
        'A white line at a prong is a crack that begins.',
      ];
  return { balls, closed, alike, says };
}
