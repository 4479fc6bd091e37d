/** The shipped procedures and practice rotors as they are compiled; read from the sources where those were changed. */
import { readRotors } from '../../src/library/read-rotors.js';
import type { Model } from '../../src/procedure/model.js';
import { dressed } from '../../src/training/generate.js';
import { PracticeRotor } from '../../src/training/practice-rotor.js';
import type { Rotor } from '../../src/training/rotor-file.js';
import { library, modelFor, root } from '../procedure/library.js';
import { compiled } from '../setup/compiled.js';

const models = new Map<string, Model>([...library.procedures.keys()].map((id) => [id, modelFor(id)]));
function fromSources(): readonly Rotor[] {
  const { rotors: read, problems } = readRotors(`${root}procedures`, library);
  if (problems.length) throw new Error(JSON.stringify(problems[0]));
  return read;
}
const read = compiled<readonly Rotor[]>('rotors') ?? fromSources();

export const modelOfRotor = (rotor: { readonly procedure: string }): Model => models.get(rotor.procedure)!;
/** Those that lend traps to drawn ones too. */
export const catalogue = read;
export const rotors: readonly PracticeRotor[] = read
  .filter((r) => r.offered !== false)
  .map((r) => new PracticeRotor(dressed(r, catalogue), modelOfRotor(r)));
export const rotorNamed = (id: string): PracticeRotor => rotors.find((r) => r.id === id)!;
export const allModels: ReadonlyMap<string, Model> = models;
