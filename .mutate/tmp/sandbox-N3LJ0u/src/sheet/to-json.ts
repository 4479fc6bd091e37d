/** The job sheet as JSON: the data, and beside them the sections as people read them. Its shape: json-shape.ts. */
// @ts-nocheck

import { told } from './sections.js';
import type { Sheet } from './sheet-data.js';
import { clock, type SheetOptions } from './when.js';

/** Canonical numbers with their text beside them; instants as ISO 8601 in UTC, times in sections in `timeZone`. */
export const toJson = (sheet: Sheet, options: SheetOptions = {}): string => {
  const { sheet: version, ...rest } = sheet;
  const timeZone = clock(options.zone).zone;
  return `${JSON.stringify({ format: 'rotorside-sheet', sheet: version, timeZone, ...rest, sections: told(sheet, options).sections }, undefined, 2)}\n`;
};
