/** Opens the library at run time: the compiled one, with a shop's folder over it when one is named. */
// @ts-nocheck

import type { Problem } from '../procedure/problem.js';
import { type Library, tablesOf } from './library.js';
import { readShipped } from './read-shipped.js';

/** The library as shipped. */
export function openShipped(): Library {
  const shipped = readShipped();
  return {
    tables: tablesOf(shipped.tables),
    procedures: new Map(shipped.procedures.map((p) => [p.procedure.procedure, p])),
    rotors: new Map(shipped.rotors.map((r) => [r.rotor, r])),
  };
}

export async function openLibrary(shopFolder?: string): Promise<{ library: Library; problems: readonly Problem[] }> {
  if (!shopFolder) return { library: openShipped(), problems: [] };
  return (await import('./open-shop.js')).openShop(shopFolder);
}
