/** Whether a rotor that was sent to cool has cooled: near the room, or as far as it cools at all. Temperatures degC, times min. */
import type { Plan, Reading } from './run-in-said.js';

/** So long it stands without cooling any more before that counts as cooled, min. */
const standsFor = 30;

export class Stood {
  private since: Reading | undefined;

  hasCooled(r: Reading, { room, rules }: Plan): boolean {
    if (r.temp <= room + rules.coolMargin) return true;
    // It stands and cools no more: then this is its room, whatever was typed.
    if (r.stage !== 0) {
      this.since = undefined;
      return false;
    }
    const { since } = this;
    if (!since || Math.abs(since.temp - r.temp) > rules.equilibrium / 2) {
      this.since = r;
      return false;
    }
    return r.minutes - since.minutes >= standsFor;
  }
}
