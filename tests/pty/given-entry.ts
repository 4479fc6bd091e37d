/** Whether an entry of the journal is what was given by keys. */
import type { Entry } from '../../src/engine/journal/entry.js';
import type { Given } from './drive.js';

export function says(e: Entry, g: Given): boolean {
  if (e.kind !== g.kind || !('step' in e) || e.step !== g.step || e.place !== g.place) return false;
  if (e.kind !== 'answer' && e.kind !== 'predict') return true;
  if (e.key !== g.key) return false;
  const wanted = g.text ?? '';
  // What was typed is kept as typed; what was picked is its value.
  const value = Array.isArray(e.value)
    ? e.value.join(',')
    : e.value === true
      ? 'yes'
      : e.value === false
        ? 'no'
        : String(e.value);
  // A bare figure is kept with the unit that stood behind it, where that was not the question's own.
  const typed = e.typed === wanted || e.typed?.startsWith(`${wanted} `);
  return typed || value === wanted || (wanted === '' && e.typed === undefined);
}
