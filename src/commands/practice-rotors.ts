/** The practice rotors of the library, each with the procedure that it is practised on. */
import { calculators } from '../calc/index.js';
import type { Library } from '../library/library.js';
import { type Model, modelOf } from '../procedure/model.js';
import { anyNumber, drawnRotor, dressed } from '../training/generate.js';
import { PracticeRotor } from '../training/practice-rotor.js';
import type { Rotor, Trap } from '../training/rotor-file.js';

const made = new WeakMap<Model, Map<string, PracticeRotor>>();

/**
 * Made once: a class stands on one, and its conditions take longer to read than a debrief takes.
 * @param model of the job, which may have begun by an older version of the procedure
 */
export function rotorFor(library: Library, id: string | undefined, model: Model): PracticeRotor | undefined {
  if (id === undefined) return undefined;
  const known = made.get(model) ?? new Map<string, PracticeRotor>();
  made.set(model, known);
  const rotor = known.get(id) ? undefined : rotorById(library, id);
  if (rotor && rotor.procedure === model.procedure.procedure) known.set(id, new PracticeRotor(rotor, model));
  return known.get(id);
}

/** One of the library, or one that is drawn by its number. */
export function rotorById(library: Library, id: string): Rotor | undefined {
  const number = anyNumber(id);
  const own = library.rotors.get(id);
  if (own) return dressed(own, library.rotors.values());
  return number === undefined ? undefined : drawnRotor(number, library.rotors.values());
}

/**
 * A number that was hardly drawn before; where skills are due for somebody, one whose rotor asks for one of them, in
 * another trap than the last one where there is another.
 * @param due skill to the trap in which it was met last
 * @param chance from 0 to 1
 */
export function freshNumber(
  library: Pick<Library, 'rotors'>,
  due: ReadonlyMap<string, string> = new Map(),
  chance = Math.random,
): number {
  const draw = (): number => 1 + Math.floor(chance() * 99_999);
  let number = draw();
  const kinds = kindsOf(library);
  for (let i = 0; i < 300 && due.size; i++) {
    const traps = drawnRotor(number, library.rotors.values())?.traps ?? [];
    if (traps.some((t) => isDue(t, due, kinds))) break;
    number = draw();
  }
  return number;
}

function isDue(trap: Trap, due: ReadonlyMap<string, string>, kinds: ReadonlyMap<string, number>): boolean {
  const skill = trap.skill ?? trap.id;
  return due.has(skill) && (due.get(skill) !== trap.id || (kinds.get(skill) ?? 1) < 2);
}

/** How many different traps there are of each skill. */
export function kindsOf(library: Pick<Library, 'rotors'>): ReadonlyMap<string, number> {
  const kinds = new Map<string, Set<string>>();
  for (const { traps } of library.rotors.values())
    for (const t of traps) kinds.set(t.skill ?? t.id, (kinds.get(t.skill ?? t.id) ?? new Set()).add(t.id));
  return new Map([...kinds].map(([skill, ids]) => [skill, ids.size]));
}

/** Those that are offered to be picked; the others only lend their traps. */
export const offered = (library: Library): Rotor[] => [...library.rotors.values()].filter((r) => r.offered !== false);

const all = new WeakMap<Library, readonly PracticeRotor[]>();

/** Those that are offered and whose procedure is here; made once. */
export function rotorsOf(library: Library): readonly PracticeRotor[] {
  const rotors =
    all.get(library) ??
    offered(library).flatMap((rotor) => {
      const found = library.procedures.get(rotor.procedure);
      if (!found) return [];
      const model = modelOf(found.procedure, found.hash, library.tables, calculators, found.shop, library.trees);
      return [new PracticeRotor(dressed(rotor, library.rotors.values()), model)];
    });
  all.set(library, rotors);
  return rotors;
}
