/** A shop's own procedures, table rows and practice rotors laid over the shipped ones. */
import type { Problem } from '../procedure/problem.js';
import { contentHash } from './hash.js';
import { type Library, tablesOf } from './library.js';
import { shippedParts } from './open-parts.js';
import { readFolder } from './read-folder.js';
import { readRotors } from './read-rotors.js';
import { readShipped, readShippedRotors } from './read-shipped.js';

export function openShop(folder: string): { library: Library; problems: readonly Problem[] } {
  const shipped = readShipped();
  const procedures = new Map(shipped.procedures.map((p) => [p.procedure.procedure, p]));
  const shippedRotors = readShippedRotors();
  const rotors = new Map(shippedRotors.map((r) => [r.rotor, r]));
  const shop = readFolder(folder, { ...shipped, parts: shippedParts() });
  const tables = tablesOf(shop.tables);
  for (const p of shipped.procedures)
    procedures.set(p.procedure.procedure, { ...p, hash: contentHash(p.procedure, tables) });
  for (const p of shop.procedures) procedures.set(p.procedure.procedure, p);
  const own = readRotors(folder, { tables, procedures }, shippedRotors);
  for (const r of own.rotors) rotors.set(r.rotor, r);
  return { library: { tables, procedures, rotors }, problems: [...shop.problems, ...own.problems] };
}
