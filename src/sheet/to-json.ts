/** The job sheet as JSON: the data, and beside them the sections as people read them. */
import { told } from './sections.js';
import type { Sheet } from './sheet-data.js';
import type { SheetOptions } from './when.js';

/** Canonical numbers with their text beside them; instants as ISO 8601. */
export const toJson = (sheet: Sheet, options: SheetOptions = {}): string =>
  `${JSON.stringify({ ...sheet, sections: told(sheet, options).sections }, undefined, 2)}\n`;
