/** What was filled in before a late start is nobody's work. Pure. */
import type { Entry } from '../engine/journal/entry.js';

/** Stands for initials. */
export const FILLED_BY = 'BENCH';
export const isFilled = (e: Entry): boolean => e.by === FILLED_BY;
