/**
 * The clock of the guide. For real work it is the computer's; in a practice job time may be let pass, since nobody
 * learns from watching solvent dry. What passed is kept in the times of the job's own entries, and nowhere else.
 */
import type { Draft, Entry } from '../engine/journal/entry.js';
import type { Model } from '../procedure/model.js';

/** Minutes that pass with each reading of a log. */
const ROW = 5;
const MINUTE = 60_000;
/** Longer without an entry is a break, and counts no more than this. */
const LONGEST = 10 * MINUTE;
/** Name in the summary of a job. */
const KEYS = 'keys';

/** Job and its minutes at the keys, where they were counted. */
export const minutesOf = (job: { id: string; summary: Readonly<Record<string, unknown>> }): [string, number][] => {
  const minutes = job.summary[KEYS];
  return typeof minutes === 'number' ? [[job.id, minutes]] : [];
};

export class PracticeClock {
  private ahead = 0;
  private touched = 0;
  /** How far the computer's clock is behind the last key of the open job: it was put back, or is another one's. */
  private behind = 0;
  /** Minutes at the keys of the open practice job. */
  private worked = 0;
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

  /** What is recorded next was done then, ms since 1970; until a job is opened. */
  stand(then: number): void {
    this.ahead = then - this.wall();
  }

  /** Minutes that were worked on the open practice job before and when its last key was, as its summary has them. */
  worksOn({ [KEYS]: minutes, touched }: Readonly<Record<string, unknown>> = {}): void {
    this.worked = typeof minutes === 'number' && minutes > 0 ? minutes : 0;
    this.touched = this.wall();
    const last = typeof touched === 'string' ? Date.parse(touched) : Number.NaN;
    this.behind = last > this.touched ? last - this.touched : 0;
  }

  /** Minutes at the keys until now, for the summary; undefined in real work. What was let pass and breaks are left out. */
  atTheKeys(): number | undefined {
    if (!this.practice) return undefined;
    const now = this.wall();
    this.worked += Math.min(LONGEST, Math.max(0, now - this.touched)) / MINUTE;
    this.behind += Math.max(0, this.touched - now);
    this.touched = now;
    return Math.round(this.worked * 100) / 100;
  }

  /**
   * The summary of the open practice job with what only this clock knows: minutes at the keys, and when a key was pressed
   * by the computer's clock, never before the key before it. Its entries are ahead of that once time was let pass.
   */
  noted(summary: Readonly<Record<string, string | number | boolean>>): typeof summary {
    const minutes = this.atTheKeys();
    return minutes === undefined
      ? summary
      : { ...summary, [KEYS]: minutes, touched: new Date(this.touched + this.behind).toISOString() };
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
