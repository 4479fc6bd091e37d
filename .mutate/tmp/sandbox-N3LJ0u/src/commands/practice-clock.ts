/**
 * The clock of the guide. For real work it is the computer's; in a practice job time may be let pass, since nobody
 * learns from watching solvent dry. What passed is kept in the times of the job's own entries, and nowhere else.
 */
// @ts-nocheck

import type { Draft, Entry } from '../engine/entry.js';
import type { Model } from '../procedure/model.js';

/** Minutes that pass with each reading of a log. */
const ROW = 5;
const MINUTE = 60_000;

export class PracticeClock {
  private ahead = 0;
  private practice = false;
  private model: Model | undefined;

  constructor(private readonly wall: () => number = Date.now) {}

  /** Milliseconds since 1970. */
  readonly now = (): number => this.wall() + this.ahead;

  /** A job is opened: a practice job goes on from its last entry, a real one by the computer's clock. */
  begin(entries: readonly Entry[]): void {
    const first = entries[0];
    this.practice = first?.kind === 'job' && first.practice !== undefined;
    const last = Date.parse(entries.at(-1)?.at ?? '');
    this.ahead = this.practice && !Number.isNaN(last) ? Math.max(0, last - this.wall()) : 0;
    this.model = undefined;
  }

  /** The procedure of the open practice job. */
  knows(model: Model): void {
    this.model = model;
  }

  end(): void {
    this.ahead = 0;
    this.practice = false;
    this.model = undefined;
  }

  /** Lets time pass; does nothing in real work. */
  pass(minutes: number): void {
    if (this.practice && minutes > 0) this.ahead += minutes * MINUTE;
  }

  /** Before entries are kept: a reading of a log takes its time. */
  before(drafts: readonly Draft[]): void {
    const begins = drafts.some((d) => {
      if (d.kind !== 'answer') return false;
      const step = this.model?.steps.get(d.step);
      return step?.repeat !== undefined && step.ask?.[0]?.key === d.key;
    });
    if (begins) this.pass(ROW);
  }
}

/** The time by which a job that is only looked at stands: in practice never before its last entry. */
export function timeOf(entries: readonly Entry[]): number {
  const clock = new PracticeClock();
  clock.begin(entries);
  return clock.now();
}
