/**
 * Room between the seals, mL: the free volume of the open bearing to its faces, less what is no room for grease.
 * - Seals: number x depth x area. Depth is how deep the inner face of a seal lies below the side face, measured, or usual for
 *   its kind and the width; area is that of the ring between the shoulders, measured, or usual shares of the wall.
 * - Chamfers: four corners of radius r, 0.25 r^2 round both rings (a round corner leaves out 0.215 r^2, a flat one 0.5 r^2).
 * - Cage: the mass of a list is that of the sheet steel cage; a moulded or machined one is bulkier.
 * All of these make the free volume look larger, none smaller: their middle is taken off and half their span counts as
 * uncertainty, as the Guide to the expression of uncertainty in measurement (JCGM 100, 4.3.8 and F.2.4) does with bounds that
 * lie to one side. mm, mL. Source: geometry; the usual figures are this guide's, in the table bearing-constants.
 */
import type { CheckedInputs } from './define.js';
import { choiceInput, figure, length, quantityInput } from './spec.js';
import { constant } from './table.js';
import { CalcRefusal, type InputSpec, type Measured, type Tables } from './types.js';
import { type Propagated, propagate } from './uncertainty.js';

const cages = ['sheet-steel', 'pa66', 'pa46', 'peek', 'phenolic', 'brass', 'unknown'] as const;

export const roomInputs: Readonly<Record<string, InputSpec>> = {
  seals: quantityInput('Seals or shields', 'count', '', [0, 2], true),
  sealKind: choiceInput('What they are', ['rubber', 'shield'], true),
  sealDepth: length('Depth of a seal, side face to its inner face', [0.1, 20], true),
  innerShoulder: length('Diameter of the inner shoulder', [2, 1500], true),
  outerShoulder: length('Diameter where the seal ends outside', [2, 1500], true),
  chamfer: length('Corner radius of the rings', [0.05, 10], true),
  cage: choiceInput('Cage', cages, true),
};

interface Size {
  readonly bore: Measured;
  readonly outside: Measured;
  readonly width: Measured;
}

export interface SealedRoom {
  readonly room: Propagated;
  readonly seals: Propagated;
  readonly chamfers: Propagated;
  readonly cage: Propagated;
  readonly warnings: readonly string[];
  readonly worked: readonly string[];
}

const half = (value: number, plusMinus: number): Measured => ({ value, plusMinus });

/** What is left between the seals of `volume`, the free volume to the faces; nothing where no number of seals is given. */
export function roomOf(given: CheckedInputs, size: Size, volume: Measured, tables: Tables): SealedRoom | undefined {
  const count = given.maybe('seals')?.value;
  if (count === undefined) return undefined;
  const row = (id: string): Measured => constant(tables, 'bearing-constants', id);
  const [d, D, B] = [size.bore.value, size.outside.value, size.width.value];
  const wall = D - d;
  const warnings: string[] = [];

  const share = (id: string, from: number, sign: number): Measured => {
    const { value, plusMinus = 0 } = row(id);
    return half(from + sign * value * wall, plusMinus * wall);
  };
  const inner = given.maybe('innerShoulder') ?? share('shoulder-inner', d, 1);
  const outer = given.maybe('outerShoulder') ?? share('shoulder-outer', D, -1);
  if (!(inner.value > d && outer.value < D && inner.value < outer.value))
    throw new CalcRefusal(
      'innerShoulder',
      `The shoulders must lie between the rings: bore ${figure(d)} mm, inner shoulder ${figure(inner.value)} mm, outer ${figure(outer.value)} mm, outside ${figure(D)} mm; measure again.`,
    );
  const kind = given.maybeWord('sealKind') ?? 'rubber';
  const usualDepth = half(
    row(`${kind}-depth`).value + row(`${kind}-depth-per-width`).value * B,
    row(`${kind}-depth`).plusMinus ?? 0,
  );
  const depth = given.maybe('sealDepth') ?? usualDepth;
  if (count * depth.value > B / 2)
    throw new CalcRefusal(
      'sealDepth',
      `${figure(count)} seals ${figure(depth.value)} mm deep take more than half of a width of ${figure(B)} mm: measure the depth again.`,
    );
  if (count > 0 && !given.has('sealDepth'))
    warnings.push(
      `For each seal ${figure(depth.value, 2)} mm of depth was taken, usual: measure from the side face to its inner face with the depth rod of the calliper, and the dose gets surer.`,
    );
  const radius =
    given.maybe('chamfer') ?? half(row('chamfer-per-width').value * B, (row('chamfer-per-width').plusMinus ?? 0) * B);
  const corner = row('chamfer-area');
  const moulded = given.maybeWord('cage') !== 'sheet-steel';
  const bulk = moulded ? row('cage-bulk') : half(0, 0);

  const parts = { volume, inner, outer, depth, radius, corner, bulk };
  type X = { readonly [K in keyof typeof parts]: number };
  const seals = (x: X): number => (count * x.depth * (Math.PI / 4) * (x.outer ** 2 - x.inner ** 2)) / 1000;
  const chamfers = (x: X): number => (x.corner * x.radius ** 2 * 2 * Math.PI * (d + D)) / 1000;
  const cage = (x: X): number => (x.bulk / 100) * x.volume;
  const room = propagate(parts, (x) => x.volume - seals(x) - chamfers(x) - cage(x));
  if (room.value <= 0)
    throw new CalcRefusal('seals', 'Seals, chamfers and cage would take all of the free volume: check size and mass.');
  const off = {
    seals: propagate(parts, seals),
    chamfers: propagate(parts, chamfers),
    cage: propagate({ ...parts, volume: { value: volume.value } }, cage),
  };
  return {
    room,
    ...off,
    warnings,
    worked: [
      `seals = ${figure(count)} x ${figure(depth.value)} x pi/4 x (${figure(outer.value)}^2 - ${figure(inner.value)}^2) = ${figure(off.seals.value)} mL`,
      `chamfers = ${figure(corner.value)} x ${figure(radius.value)}^2 x 2 pi x (${figure(d)} + ${figure(D)}) = ${figure(off.chamfers.value)} mL`,
      `cage beyond sheet steel = ${figure(bulk.value)} % of ${figure(volume.value)} = ${figure(off.cage.value)} mL`,
      `room = ${figure(volume.value)} - ${figure(off.seals.value)} - ${figure(off.chamfers.value)} - ${figure(off.cage.value)} = ${figure(room.value)} mL`,
    ],
  };
}
