/** Opens the library at run time: the compiled one, with a shop's folder over it when one is named. */
import { readFileSync } from 'node:fs';
import type { Problem } from '../procedure/problem.js';
import { type Library, type Shipped, tablesOf } from './library.js';

/** Written by the build beside the bundle. */
const compiled = new URL('./shipped.json', import.meta.url);

export async function openLibrary(shopFolder?: string): Promise<{ library: Library; problems: readonly Problem[] }> {
  const shipped = JSON.parse(readFileSync(compiled, 'utf8')) as Shipped;
  const procedures = new Map(shipped.procedures.map((p) => [p.procedure.procedure, p]));
  const rotors = new Map(shipped.rotors.map((r) => [r.rotor, r]));
  if (!shopFolder) return { library: { tables: tablesOf(shipped.tables), procedures, rotors }, problems: [] };
  const { readFolder } = await import('./read-folder.js');
  const { contentHash } = await import('./hash.js');
  const shop = readFolder(
    shopFolder,
    shipped.tables,
    true,
    shipped.procedures.map((p) => p.procedure),
  );
  const tables = tablesOf(shop.tables);
  for (const p of shipped.procedures)
    procedures.set(p.procedure.procedure, { ...p, hash: contentHash(p.procedure, tables) });
  for (const p of shop.procedures) procedures.set(p.procedure.procedure, p);
  const { readRotors } = await import('./read-rotors.js');
  const own = readRotors(shopFolder, { tables, procedures }, shipped.rotors);
  for (const r of own.rotors) rotors.set(r.rotor, r);
  return { library: { tables, procedures, rotors }, problems: [...shop.problems, ...own.problems] };
}
