/** The compiled procedures, tables and practice rotors, as the build wrote them beside the bundle. */
import { readFileSync } from 'node:fs';
import type { Trees } from '../procedure/tree.js';
import type { Rotor } from '../training/rotor-file.js';
import type { Shipped } from './library.js';

const read = <T>(name: string): T => JSON.parse(readFileSync(new URL(name, import.meta.url), 'utf8'));

export const readShipped = (): Shipped => read('./shipped.json');
/** Apart, as they are half of it and only practice wants them. */
export const readShippedRotors = (): readonly Rotor[] => read('./rotors.json');
export const readShippedTrees = (): Trees => read('./trees.json');
