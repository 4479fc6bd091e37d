/** The compiled procedures, tables and practice rotors, as the build wrote them beside the bundle. */
// @ts-nocheck

import { readFileSync } from 'node:fs';
import type { Shipped } from './library.js';

const compiled = new URL('./shipped.json', import.meta.url);

export const readShipped = (): Shipped => JSON.parse(readFileSync(compiled, 'utf8')) as Shipped;
