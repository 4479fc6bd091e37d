/** A caution as it stands in a procedure: a sentence, or a sentence with a kind and a condition. */
import type { Caution } from './schema.js';

export const sayOf = (c: Caution): string => (typeof c === 'string' ? c : c.say);
/** What tells one danger from another: two cautions of a kind are the same danger. */
export const kindOfCaution = (c: Caution): string => (typeof c === 'string' ? c : (c.kind ?? c.say));
export const whenOf = (c: Caution): string | undefined => (typeof c === 'string' ? undefined : c.when);
