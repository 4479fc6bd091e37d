/** Why a stage may pass the limit before anybody reads it: what the bearing has shown, and how readings come. */
import type { Curve } from './run-in-curve.js';
import { headingWords, type Plan } from './run-in-said.js';
import type { Unread } from './run-in-unread.js';
import { figure } from './spec.js';

/** Share of the rise by which a spike that was seen late may come again at the next stage. */
const againShare = 0.4;

/** A stage that may reach the limit less so much is not opened to whoever comes late, K. */
const clear = 4;
/** Share of the rise that a lump of grease must be able to add unread, and how far over the limit that may end, K. */
const lumpShare = 0.37;
const mostOver = 5;

/** Said in words; undefined where it may go on. `sentBack`: it was sent back before. Temperatures degC. */
export function unseenAt(
  next: number,
  plan: Plan,
  curve: Curve,
  { spike, spiky, late }: Unread,
  sentBack: boolean,
): string | undefined {
  const { limit, room } = plan;
  const further = curve.headingAt(next);
  const may = `stage ${next} may pass ${figure(limit)} °C unread`;
  const again = late && spiky ? againShare * (further.mean - room) - 2 : 0;
  if (late && sentBack) return `${may}: it was sent back before`;
  if (further.mean + Math.max(again, (late ? 1.5 : 1.25) * spike) > limit + (late ? 0 : 2))
    return `${may}: it has spiked before`;
  if (!late) return undefined;
  if (further.mean + further.sd > limit - clear)
    return `stage ${next} may reach ${headingWords(further)}, and readings come late`;
  if (curve.runawayAt(next) > limit - 2) return `${may}: friction grows faster than speed`;
  if (further.mean + lumpShare * (further.mean - room) > limit + mostOver)
    return `${may} where a lump of grease comes, and readings come late`;
  return undefined;
}
