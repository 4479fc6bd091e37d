/** A caution as it stands in a procedure: a sentence, or a sentence with a kind and a condition. */
// @ts-nocheck

import type { Caution } from './schema.js';

export const sayOf = (c: Caution): string => (typeof c === 'string' ? c : c.say);
/** What tells one danger from another: two cautions of a kind are the same danger. */
export const kindOfCaution = (c: Caution): string => (typeof c === 'string' ? c : (c.kind ?? c.say));
export const whenOf = (c: Caution): string | undefined => (typeof c === 'string' ? undefined : c.when);
/** In one line, for reviewers. */
export const cautionLine = (c: Caution): string =>
  whenOf(c) === undefined ? sayOf(c) : `${sayOf(c)} (when ${whenOf(c)})`;
