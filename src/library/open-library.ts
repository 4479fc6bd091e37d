/** Opens the library at run time: the compiled one, with a shop's folder over it when one is named. */
import type { Problem } from '../procedure/problem.js';
import { type Library, tablesOf } from './library.js';
import { readShipped, readShippedRotors, readShippedTrees } from './read-shipped.js';

export function openShipped(): Library {
  const shipped = readShipped();
  let rotors: Library['rotors'] | undefined;
  let trees: Library['trees'];
  return {
    tables: tablesOf(shipped.tables),
    procedures: new Map(shipped.procedures.map((p) => [p.procedure.procedure, p])),
    get rotors() {
      rotors ??= new Map(readShippedRotors().map((r) => [r.rotor, r]));
      return rotors;
    },
    get trees() {
      trees ??= readShippedTrees();
      return trees;
    },
  };
}

export async function openLibrary(shopFolder?: string): Promise<{ library: Library; problems: readonly Problem[] }> {
  if (!shopFolder) return { library: openShipped(), problems: [] };
  return (await import('./open-shop.js')).openShop(shopFolder);
}
