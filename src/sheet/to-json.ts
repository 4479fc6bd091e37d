/** The job sheet as JSON. */
import type { Sheet } from './sheet-data.js';

/** Canonical numbers with their text beside them; instants as ISO 8601. */
export const toJson = (sheet: Sheet): string => `${JSON.stringify(sheet, undefined, 2)}\n`;
