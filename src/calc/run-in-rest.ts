/**
 * A rest before a stage that a lump of grease could take over the limit before anybody reads it: it stands and cools first,
 * so that a lump which comes in the first quarter of an hour, while the housing is still cool, ends below the limit.
 * Temperatures degC, times min.
 */
import type { Curve } from './run-in-curve.js';
import { type Plan, type Reading, type Said, say } from './run-in-said.js';
import type { Stood } from './run-in-stood.js';
import { figure } from './spec.js';

/**
 * Share of a stage's rise by which a lump may heat a ring before it is read: where readings come as due, and where they come
 * late. Set on simulated rotors, no source: this guide's own caution.
 */
const [readAsDue, readLate] = [0.6, 0.7];
/** Standard deviation of what a stage heads for up to which it is known what comes, K. */
const knownWithin = 6;
/** K over the limit that such a lump may reach. */
const bearable = 2;
/** Rests that gain less than this are not worth it, K. */
const leastGain = 3;
/** First look at a rotor that rests, min. */
const firstLook = 10;

/**
 * degC to cool to before stage `next`; undefined where it may go there as it is. Only where it is known what comes: on a cold
 * housing preload grows, and friction that feeds on itself runs away.
 */
export function restBefore(
  next: number,
  { limit, room, rules }: Plan,
  curve: Curve,
  late: boolean,
): number | undefined {
  const further = curve.headingAt(next);
  if (further.sd > knownWithin || curve.runawayAt(next) > room) return undefined;
  const lump = (late ? readLate : readAsDue) * (further.mean - room);
  const { hot, from } = curve.entry(next, rules.leastStage, limit + bearable - lump);
  if (hot + lump <= limit + bearable) return undefined;
  const until = Math.max(room + rules.coolMargin, from);
  return curve.housing() - until < leastGain ? undefined : until;
}

/** A stage that was opened while it ran, kept while it stands before it. */
export class Opened {
  private stage: number | undefined;
  private until: number | undefined;

  /** `until`: degC to cool to first. */
  open(stage: number, until: number | undefined): void {
    this.stage = stage;
    this.until = until;
  }
  /** degC, where it is to cool first. */
  get coolTo(): number | undefined {
    return this.until === undefined ? undefined : Math.floor(this.until);
  }
  shut(): void {
    this.stage = undefined;
    this.until = undefined;
  }

  /** What is said while it stands; undefined where no stage was opened. */
  standing(r: Reading, plan: Plan, stood: Stood): Said | undefined {
    const { stage, until } = this;
    if (stage === undefined) return undefined;
    const speed = `${figure(plan.stages[stage - 1] ?? 0)} rpm`;
    if (until === undefined || r.temp <= until || stood.hasCooled(r, plan)) {
      this.until = undefined;
      return say('next', stage, `it stands still: go to stage ${stage}, ${speed}`);
    }
    const why = `stand still, cool to ${figure(Math.floor(until))} °C, then go to stage ${stage}, ${speed}`;
    return say('next', stage, why, { standing: true });
  }

  /** Minutes until it has cooled, 3 to 15. */
  due(r: Reading, curve: Curve): number {
    const { until = r.temp } = this;
    if (r.stage > 0) return firstLook;
    return [15, 10, 8, 5].find((minutes) => curve.soon(minutes).mean >= until - 1) ?? 3;
  }
}
