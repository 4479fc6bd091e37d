/** Initials as typed into a form. */
import { initialsSentence, tidyInitials } from '../../engine/journal/initials.js';

/** What is wrong with them, if anything. */
export const initialsCheck = (text: string): string | undefined =>
  tidyInitials(text) === undefined ? initialsSentence : undefined;
/** As they are recorded. */
export const initialsOf = (text: string | undefined): string => tidyInitials(text ?? '') ?? '';
