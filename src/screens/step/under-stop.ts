/** A stop that is certain while its step still asks something is told above it; a slip is corrected by one key. */
import { certainStops } from '../../engine/state/certain-stop.js';
import { emptyInput } from '../ask/asker.js';
import { correctPage } from '../pages/correct.js';
import { type Moment, type MomentOf, pressBlock } from './moment.js';
import { isEmpty } from './question.js';

/** What is asked goes on, so that what was seen is whole on record. */
export function underStop({ desk, view }: MomentOf, inner: Moment): Moment {
  if (!certainStops(desk.state, view).length) return inner;
  const empty = (): boolean => isEmpty(desk.inputs.get(inner.where) ?? emptyInput);
  const slip = { key: 'Backspace', does: 'correct a slip, with its reason' };
  return {
    ...inner,
    blocks: (room) => [...inner.blocks(room), ...(empty() ? [pressBlock(slip.key, slip.does)] : [])],
    hints: () => [...inner.hints(), ...(empty() ? [{ ...slip, rank: 1, told: true }] : [])],
    press(key) {
      if (key.name !== 'backspace' || !empty()) return inner.press(key);
      desk.stack.push(correctPage(desk));
      return true;
    },
  };
}
