/** The practice rotors of the library, each with the procedure that it is practised on. */
// @ts-nocheck

import { calculators } from '../calc/index.js';
import type { Library } from '../library/library.js';
import { type Model, modelOf } from '../procedure/model.js';
import { PracticeRotor } from '../training/practice-rotor.js';

/** @param model of the job, which may have begun by an older version of the procedure */
export function rotorFor(library: Library, id: string | undefined, model: Model): PracticeRotor | undefined {
  const rotor = id === undefined ? undefined : library.rotors.get(id);
  return rotor && rotor.procedure === model.procedure.procedure ? new PracticeRotor(rotor, model) : undefined;
}

/** Those whose procedure is here. */
export function rotorsOf(library: Library): PracticeRotor[] {
  return [...library.rotors.values()].flatMap((rotor) => {
    const found = library.procedures.get(rotor.procedure);
    if (!found) return [];
    const model = modelOf(found.procedure, found.hash, library.tables, calculators, found.shop);
    return [new PracticeRotor(rotor, model)];
  });
}
