/** What stands on the screen now. */
// @ts-nocheck

import type { Room, View } from './look/line.js';
import type { Message } from './parts/frame-layout.js';
import type { Session } from './session.js';
import { tooSmall, tooSmallView } from './too-small.js';

export interface Shown {
  readonly view: View;
  readonly room: Room;
  readonly message: Message | undefined;
}

/** The top page as it is to be drawn; nothing once the session is over. */
export function shownOn(session: Session): Shown | undefined {
  const page = session.top;
  if (!page) return undefined;
  const { room, message } = session;
  if (tooSmall(room)) return { view: tooSmallView(room), room, message: undefined };
  const view = page.view(room);
  // In front, where it is never cut off: no page of a practice job can be taken for one of a real job.
  const practice = session.pages.some((p) => p.practice?.());
  const shop = session.pages.some((p) => p.shop?.());
  const head = [...(practice ? ['PRACTICE'] : []), ...(shop ? ['SHOP’S OWN'] : []), view.head].join(' · ');
  return { view: { ...view, head }, room, message };
}
