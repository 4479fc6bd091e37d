/** The branches that a stop offers to be raised. */
import type { Gate } from './schema.js';

export const raisesOf = ({ raise }: Pick<Gate, 'raise'>): readonly string[] =>
  raise === undefined ? [] : typeof raise === 'string' ? [raise] : raise;
