/**
 * An estimate of whether a liquid dissolves or swells a material, beside its rating: the distance of their Hansen
 * solubility parameters over the radius of the material (RED). RED = sqrt(4 dD^2 + dP^2 + dH^2) / R; below 1 it attacks.
 * MPa^0.5. Source: the table hansen; a material without a radius there has no estimate.
 */
import { findRow, numberIn, sourceOf } from './table.js';
import type { RowSource, Tables } from './types.js';

interface Estimate {
  /** Distance over radius; below 1 the liquid lies within what dissolves or swells the material. */
  readonly red: number;
  readonly attacks: boolean;
  readonly sources: readonly RowSource[];
}

export function hansenEstimate(material: string, solvent: string, tables: Tables): Estimate | undefined {
  const [solid, liquid] = [findRow(tables, 'hansen', material), findRow(tables, 'hansen', solvent)];
  if (!solid || !liquid || typeof solid.radius !== 'number') return undefined;
  const apart = (column: string): number => numberIn(solid, column) - numberIn(liquid, column);
  const red = Math.sqrt(4 * apart('dispersion') ** 2 + apart('polar') ** 2 + apart('hydrogen') ** 2) / solid.radius;
  return { red, attacks: red < 1, sources: [sourceOf(solid), sourceOf(liquid)] };
}
