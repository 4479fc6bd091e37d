/** Parts at run time: the compiled ones, with a shop's over them; read only where a procedure file is read. */
import { readFileSync } from 'node:fs';
import { dirname } from 'node:path';
import type { Surroundings } from '../procedure/check.js';
import type { Parts } from '../procedure/parts.js';
import { type PartText, partTexts, readWhenNamed } from './read-parts.js';

const compiled = new URL('./parts.json', import.meta.url);

/** Parts as shipped, as the build wrote them beside the bundle. */
export const shippedParts = (): readonly PartText[] => JSON.parse(readFileSync(compiled, 'utf8')) as PartText[];

/** A shop's before the shipped ones, which they lie over. */
export const openParts = (shopFolder?: string): readonly PartText[] => [
  ...(shopFolder ? partTexts(shopFolder).texts : []),
  ...shippedParts(),
];

/** The parts that a procedure file can name: those beside it over those of a shop over the shipped ones. */
export const partsFor = (file: string, around: Surroundings, shopFolder?: string): Parts =>
  readWhenNamed([...partTexts(dirname(file)).texts, ...openParts(shopFolder)], around);
