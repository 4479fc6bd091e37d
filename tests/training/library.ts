/** The shipped procedure, tables and practice rotors, as compiled. */
import { readFileSync } from 'node:fs';
import { calculators } from '../../src/calc/index.js';
import { type Shipped, tablesOf } from '../../src/library/library.js';
import { type Model, modelOf } from '../../src/procedure/model.js';
import { PracticeRotor } from '../../src/training/practice-rotor.js';

const shipped = JSON.parse(readFileSync(new URL('../../dist/shipped.json', import.meta.url), 'utf8')) as Shipped;
const models = new Map<string, Model>(
  shipped.procedures.map((p) => [
    p.procedure.procedure,
    modelOf(p.procedure, p.hash, tablesOf(shipped.tables), calculators),
  ]),
);

export const modelOfRotor = (rotor: { readonly procedure: string }): Model => models.get(rotor.procedure)!;
export const rotors: readonly PracticeRotor[] = shipped.rotors.map((r) => new PracticeRotor(r, modelOfRotor(r)));
export const rotorNamed = (id: string): PracticeRotor => rotors.find((r) => r.id === id)!;
export const allModels: ReadonlyMap<string, Model> = models;
