/**
 * When a change is to be drawn: at once where something else is asked, as nothing may be answered that nobody has seen.
 * Letters of a text that come together are drawn once, when the last of them was handed over.
 */
import type { PageStack } from './page-stack.js';

/** Somebody who types or holds a key down sees it move at least so often, in ms. */
const longest = 50;

/** To be called with who draws; gives what ends it. */
export const whenToDraw =
  (stack: PageStack) =>
  (draw: () => void): (() => void) => {
    let seen = '';
    let since: number | undefined;
    let turn: NodeJS.Immediate | undefined;
    const now = (): void => {
      clearImmediate(turn);
      since = undefined;
      seen = stack.asked.id;
      draw();
    };
    const later = (): void => {
      const { field, confirm, id } = stack.asked;
      since ??= performance.now();
      clearImmediate(turn);
      const late = performance.now() - since >= longest;
      if (field === 'none' || confirm !== 'none' || id !== seen || late) now();
      // The keyboard hands over the next key a turn later.
      else
        turn = setImmediate(() => {
          turn = setImmediate(now);
        });
    };
    const ended = stack.subscribe(later);
    return () => {
      clearImmediate(turn);
      ended();
    };
  };
