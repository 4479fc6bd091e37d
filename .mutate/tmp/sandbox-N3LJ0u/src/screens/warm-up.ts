/**
 * Draws a page a few times to nobody while nobody types, so that the first keys on it find everything compiled. The
 * frame stays the same, so nothing is written.
 */
// @ts-nocheck

import type { Session } from './session.js';

/** Nobody answers a new page sooner, in ms. */
const quiet = 120;
const pause = 25;
const times = 8;

/** Warms each kind of page once; returns the function that ends it. */
export function warmUp(session: Session): () => void {
  const warm = new Set<string>();
  let timer: NodeJS.Timeout | undefined;
  const later = (ms: number, left: number): void => {
    clearTimeout(timer);
    timer = setTimeout(() => draw(left), ms);
    timer.unref();
  };
  let own = false;
  const draw = (left: number): void => {
    own = true;
    session.changed();
    own = false;
    if (left > 1) later(pause, left - 1);
  };
  const look = (): void => {
    if (own) return;
    // Somebody works: that warms it too.
    clearTimeout(timer);
    const name = session.top?.name;
    if (name === undefined || warm.has(name)) return;
    warm.add(name);
    later(quiet, times);
  };
  look();
  const ended = session.subscribe(look);
  return () => {
    clearTimeout(timer);
    ended();
  };
}
