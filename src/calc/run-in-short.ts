/**
 * Readings that are so near to each other that what the sensors are off makes the slope: where a bearing heads for by them is a
 * guess. So a guess that it passes the limit waits for one more reading, a minute later. Temperatures degC, times min.
 */
import type { Estimate } from './run-in-fit.js';
import { type Reading, shown } from './run-in-said.js';

/** A minute apart two sensors of 1 K each make a slope of 2 K/min at most: no more than a bearing climbs by itself. */
const apart = 1;
/** K: two sensors of 1 K each, and 4 K more; so much in a minute is no sensor. */
const surely = 6;

export class Short {
  /** The reading at which it was unsure first, while it is. */
  private since: Reading | undefined;
  private last: Reading | undefined;
  /** The reading before, and the coldest of those less than a minute old. */
  private before: Reading | undefined;
  private coldest = 0;
  private recent: readonly Reading[] = [];
  /** It seems to pass the limit, by readings that do not tell yet. */
  unsure = false;
  readonly why = 'too short a time tells nothing: read it once more in a minute';

  add(r: Reading): void {
    this.before = this.last;
    this.last = r;
    this.recent = [...this.recent, r].filter((p) => r.minutes - p.minutes < apart);
    this.coldest = Math.min(...this.recent.map((p) => p.temp));
    if (!this.unsure) this.since = undefined;
    this.unsure = false;
  }

  /** Asked once a reading, where it seems to pass the limit. For a minute at most: then it is believed. */
  tellsNothing(heading: Estimate, limit: number): boolean {
    const { last: r, before, since } = this;
    if (!r || !before || r.minutes - before.minutes >= apart || (since && r.minutes - since.minutes >= apart))
      return false;
    const { value, plusMinus } = shown(heading);
    this.unsure = value - plusMinus <= limit && r.temp - this.coldest < surely;
    if (this.unsure) this.since ??= r;
    return this.unsure;
  }
}
