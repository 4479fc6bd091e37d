/** Opens the library at run time: the compiled one, with a shop's folder over it when one is named. */
import { readFileSync } from 'node:fs';
import type { Problem } from '../procedure/problem.js';
import { type Library, type Shipped, tablesOf } from './library.js';

/** Written by the build beside the bundle. */
const compiled = new URL('./shipped.json', import.meta.url);

export const readShipped = (): Shipped => JSON.parse(readFileSync(compiled, 'utf8')) as Shipped;

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
