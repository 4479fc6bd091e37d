/** The shipped procedures, tables and practice rotors, read from the sources. */
import { readRotors } from '../../src/library/read-rotors.js';
import type { Model } from '../../src/procedure/model.js';
import { dressed } from '../../src/training/generate.js';
import { PracticeRotor } from '../../src/training/practice-rotor.js';
import { library, modelFor, root } from '../procedure/library.js';

const models = new Map<string, Model>([...library.procedures.keys()].map((id) => [id, modelFor(id)]));
const { rotors: read, problems } = readRotors(`${root}procedures`, library);
if (problems.length) throw new Error(JSON.stringify(problems[0]));

export const modelOfRotor = (rotor: { readonly procedure: string }): Model => models.get(rotor.procedure)!;
/** Those that lend traps to drawn ones too. */
export const catalogue = read;
export const rotors: readonly PracticeRotor[] = read
  .filter((r) => r.offered !== false)
  .map((r) => new PracticeRotor(dressed(r, catalogue), modelOfRotor(r)));
export const rotorNamed = (id: string): PracticeRotor => rotors.find((r) => r.id === id)!;
export const allModels: ReadonlyMap<string, Model> = models;
