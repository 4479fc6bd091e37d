/** The section through one side of a ball bearing, in mm: x along the shaft, y outward from the bore. */
import { numberOf, type PictureValues, sizeOf, wordOf } from './picture.js';

export type BearingPart = 'outer' | 'inner' | 'ball' | 'cage' | 'seal' | 'grease' | 'free' | 'outside';

export interface BearingShape {
  readonly bore: number;
  readonly outside: number;
  readonly width: number;
  readonly ball: number;
  readonly balls: number | undefined;
  /** Height of the section, (outside - bore) / 2. */
  readonly height: number;
  /** Half of the distance between the ring shoulders. */
  readonly gap: number;
  readonly groove: number;
  readonly seals: { readonly front: boolean; readonly back: boolean };
  /** Middle of a seal, from the middle of the bearing; half its thickness. */
  readonly sealAt: number;
  readonly sealHalf: number;
  readonly cageHalf: { readonly x: number; readonly y: number };
  /** True when grease is drawn at the inner raceway only. */
  readonly innerOnly: boolean;
  /** 0 to 100, or undefined when no grease is drawn. */
  readonly share: number | undefined;
  /** Grease is drawn as far as this from the ball's middle. */
  readonly greaseTo: number;
  /** True when a size was not known and usual proportions stand in. */
  readonly assumed: boolean;
  /** True when the sizes that were given do not go together. */
  readonly odd: boolean;
}

// A common size, drawn when nothing is known.
const usual = { bore: 25, outside: 52, width: 15 };

export function bearingShape(values: PictureValues): BearingShape {
  const given = { bore: sizeOf(values, 'bore'), outside: sizeOf(values, 'outside'), width: sizeOf(values, 'width') };
  const whole = given.bore && given.outside && given.width && given.outside > given.bore;
  const { bore, outside, width } = whole ? (given as typeof usual) : usual;
  const height = (outside - bore) / 2;
  const largest = Math.min(0.8 * height, 0.8 * width);
  const known = sizeOf(values, 'ball_size');
  // Balls of deep groove bearings measure about 0.3 (D - d).
  const ball = Math.min(known ?? 0.3 * (outside - bore), largest);
  const seals = wordOf(values, 'seals') ?? 'both';
  const share = numberOf(values, 'share');
  const balls = sizeOf(values, 'balls');
  const shape: BearingShape = {
    bore,
    outside,
    width,
    ball,
    balls: balls && Number.isInteger(balls) && balls <= 60 ? balls : undefined,
    height,
    gap: 0.3 * ball,
    groove: 0.52 * ball,
    seals: { front: seals === 'both' || seals === 'front', back: seals === 'both' || seals === 'back' },
    sealAt: width / 2 - 0.05 * width,
    sealHalf: 0.025 * width,
    cageHalf: { x: 0.06 * ball, y: 0.2 * ball },
    share: share === undefined ? undefined : Math.min(100, Math.max(0, share)),
    innerOnly: wordOf(values, 'raceway') === 'inner',
    greaseTo: 0,
    assumed: !whole || known === undefined,
    odd: Boolean(whole) && known !== undefined && !fits(known, outside - bore, width),
  };
  return { ...shape, greaseTo: shape.share ? reach(shape) : 0 };
}

/** Balls of usual bearings measure about 0.3 of D - d, small ones of high-speed bearings above 0.2: else a figure is doubtful. */
const fits = (ball: number, between: number, width: number): boolean =>
  ball >= 0.2 * between && ball <= 0.4 * between && ball < width;

/** What lies at a point of the section. */
export function partAt(s: BearingShape, x: number, y: number): BearingPart {
  if (Math.abs(x) > s.width / 2 || y < 0 || y > s.height) return 'outside';
  const up = y - s.height / 2;
  const r = Math.hypot(x, up);
  if (r <= s.ball / 2) return 'ball';
  const inGap = Math.abs(up) < s.gap || r < s.groove;
  const sealed = (x < 0 ? s.seals.front : s.seals.back) && Math.abs(Math.abs(x) - s.sealAt) <= s.sealHalf;
  if (sealed && Math.abs(up) < s.gap) return 'seal';
  if (!inGap) return up > 0 ? 'outer' : 'inner';
  if (Math.abs(Math.abs(x) - cageAt(s)) <= s.cageHalf.x && Math.abs(up) <= s.cageHalf.y) return 'cage';
  if (Math.abs(x) > s.sealAt) return 'outside';
  return r <= s.greaseTo && greased(s, up) ? 'grease' : 'free';
}

/** Whether grease may lie this far above the middle of the balls. */
const greased = (s: BearingShape, up: number): boolean => !s.innerOnly || up < 0;

/** Middle of the cage web beside the ball. */
export const cageAt = (s: BearingShape): number => s.ball / 2 + 2 * s.cageHalf.x;

/** Distance from the ball's middle within which the free area of the section is filled to the share. */
function reach(s: BearingShape): number {
  const open = { ...s, greaseTo: 0 };
  const cells: number[] = [];
  let free = 0;
  const n = 120;
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) {
      const x = ((i + 0.5) / n - 0.5) * s.width;
      const y = ((j + 0.5) / n) * s.height;
      if (partAt(open, x, y) !== 'free') continue;
      free += 1;
      if (greased(s, y - s.height / 2)) cells.push(Math.hypot(x, y - s.height / 2));
    }
  cells.sort((a, b) => a - b);
  const count = Math.min(cells.length, Math.round((free * (s.share ?? 0)) / 100));
  return count > 0 ? (cells[count - 1] ?? 0) : 0;
}
