/**
 * Judges a run-in reading by reading: hold, next, back-off, stop or complete, from what is coming as well as from what
 * is. A fold over the whole history, with no memory of its own: the same readings always give the same answer.
 */
import { apartBy, climbs, faster, isLoud, leapt, rapidRise } from './run-in-alarm.js';
import { Curve, sharesOf } from './run-in-curve.js';
import { coming as comingIn, dueAfterChange, dueHere, handsNeed, knownStages, leapTime } from './run-in-due.js';
import type { Estimate } from './run-in-fit.js';
import { Hiss, hissing } from './run-in-hiss.js';
import { atLastStage, endWords, patience } from './run-in-last.js';
import { Opened, restBefore } from './run-in-rest.js';
import { headingWords, type Plan, type Reading, type Said, say, sure, type Verdict } from './run-in-said.js';
import { Short } from './run-in-short.js';
import { Stood } from './run-in-stood.js';
import { Unread } from './run-in-unread.js';
import { unseenAt } from './run-in-unseen.js';
import { figure } from './spec.js';

/** Heading over the limit and so near to it, K: no time for a reading any more. The same where it has spiked before. */
const [closeTo, closeAgain] = [6, 8];
/** It climbs by 1 K/min before so many stages are known: nothing tells yet whether it runs away. Next reading, min. */
const soonWhereUnknown = 2;

const settled = { settled: true };

/** The same reading by reading: `add` them in their order, numbered from 1; `verdict` whenever it is wanted. */
export class RunInJudgement {
  private allowed = 1;
  private cooling: string | undefined;
  private stood = new Stood();
  private final: Said | undefined;
  private loud = false;
  /** Stage at which the run-in ends, as it was meant at this reading. */
  private upTo: number;
  private readonly backOffs = new Map<number, number>();
  private readonly ahead: number[] = [];
  private readonly warnings: string[] = [];
  /** Hottest that this stage was heading for since it began. */
  private worst = { stage: 0, heading: 0 };
  private recent: Reading[] = [];
  /** degC of the last reading before this stage, where it came from another speed. */
  private stageBegan: number | undefined;
  /** This stage began after it stood: it warms up for longer. */
  private cold = false;
  /** The last stage before which it was to rest. */
  private rested = 0;
  private readonly hiss = new Hiss();
  private readonly unread = new Unread();
  private readonly opened = new Opened();
  private readonly short = new Short();
  private expected = Number.POSITIVE_INFINITY;
  private due = 1;
  /** The same if its speed stays as it is. */
  private stay = 1;
  private late = 0;
  /** When the next reading of a steady speed is due, for which reading. */
  private running: { readonly of: Reading; readonly due: number } | undefined;
  private last: Reading | undefined;
  private said: Said;
  private most = Number.POSITIVE_INFINITY;

  constructor(
    private readonly plan: Plan,
    private readonly curve = new Curve(plan.room, sharesOf(plan.stages)),
  ) {
    this.upTo = (plan.limitedAfter ?? 0) > 0 ? plan.stages.length : plan.upTo;
    this.said = say('hold', 1, `begin at stage 1, ${this.rpm(1)}, and take the first reading`);
  }

  add(reading: Reading, number: number): void {
    const { last } = this;
    const due = last?.stage === reading.stage ? this.stay : this.due;
    this.late = last && reading.stage > 0 ? Math.max(0, reading.minutes - last.minutes - due) : 0;
    // What it was heading for at this speed before it was set.
    if (last && last.stage !== reading.stage && reading.stage > 0)
      this.expected = this.curve.headingAt(reading.stage).mean;
    this.unread.add(reading, this.expected, this.late);
    this.curve.add(reading);
    this.short.add(reading);
    this.loud ||= isLoud(reading);
    this.hiss.add(reading, last);
    const opened = this.said.decision === 'next' ? this.said.stage : this.allowed;
    this.allowed = Math.max(this.allowed, Math.min(opened, reading.stage));
    const isAhead = reading.stage > opened;
    if (isAhead) this.ahead.push(number);
    if (last && last.stage !== reading.stage) this.cold = last.stage === 0 && reading.stage === this.rested;
    if (last && last.stage !== reading.stage) this.stageBegan = last.stage > 0 ? last.temp : undefined;
    this.recent = last && last.stage === 0 ? [reading] : [...this.recent.slice(-20), reading];
    this.last = reading;
    this.warnings.length = 0;
    this.said = this.decide(reading, number, isAhead);
    if (this.said.ends) this.final ??= this.said;
    this.most = Math.min(this.most, this.said.most ?? this.most);
    if (number === this.plan.limitedAfter) this.limit(reading);
    this.stay = this.dueIfItStays(reading);
    this.due = this.dueNext(reading);
  }

  verdict(): Verdict {
    const { last } = this;
    const running = last !== undefined && last.stage > 0;
    return {
      ...this.said,
      heading: running ? this.curve.heading() : undefined,
      headingTop: running ? this.curve.headingAt(this.upTo) : undefined,
      coolTo: this.said.standing ? (this.opened.coolTo ?? this.plan.room + this.plan.rules.coolMargin) : undefined,
      nextReading: this.due,
      stayReading: this.stay,
      expected: last && this.curve.soon(this.stay),
      ahead: this.ahead,
      late: this.late,
      most: this.most,
      warnings: this.warnings,
      timeConstant: this.curve.timeConstant(),
    };
  }

  /** It was limited to a lower stage after this reading: what was run stays, what ended it is lifted, but no noise. */
  private limit(r: Reading): void {
    this.upTo = this.plan.upTo;
    this.running = undefined;
    if (this.loud) return;
    const { standing, why } = this.said;
    this.final = undefined;
    this.allowed = Math.min(this.allowed, this.upTo);
    const on = `limited to stage ${this.upTo}: `;
    if (standing) {
      this.cooling ??= why.split(/[:.] /)[0] ?? why;
      this.said = say('back-off', this.allowed, `${on}stand still, ${this.cool}, then ${this.resume()}`, {
        standing,
      });
    } else this.said = say(r.stage > this.upTo ? 'back-off' : 'hold', this.allowed, `${on}go on at stage ${this.at()}`);
  }

  private rpm(stage: number): string {
    return `${figure(this.plan.stages[stage - 1] ?? 0)} rpm`;
  }

  private decide(r: Reading, number: number, isAhead: boolean): Said {
    if (this.final) return this.final;
    if (isLoud(r))
      return say(
        'stop',
        1,
        `${r.sound} at reading ${number}: stop, find the cause, and begin a new run-in only once it turns smoothly by hand`,
        { standing: true, ends: true },
      );
    const { cool } = this;
    const { limit } = this.plan;
    if (r.temp >= limit)
      return this.backOff(r, 'stop', `${figure(r.temp)} °C is at or over ${figure(limit)} °C: stop, ${cool}`);
    if (this.cooling) {
      if (!this.stood.hasCooled(r, this.plan))
        return say('back-off', this.allowed, `${this.cooling}: stand still, ${cool}, then ${this.resume()}`, {
          standing: true,
        });
      this.cooling = undefined;
      this.stood = new Stood();
    }
    if (r.stage === 0)
      return (
        this.opened.standing(r, this.plan, this.stood) ??
        say('hold', this.allowed, `it stands still: go on at stage ${this.at()}`)
      );
    this.opened.shut();
    if (isAhead)
      return say(
        'back-off',
        this.allowed,
        `stage ${r.stage} is not open yet: go back to stage ${this.at()}, until it has settled there`,
      );
    return this.whileRunning(r);
  }

  private whileRunning(r: Reading): Said {
    const { limit, rules, stages } = this.plan;
    const { curve, cool, upTo } = this;
    const heading = curve.heading();
    const top = curve.headingAt(upTo);
    const rate = curve.rate();
    const coming = comingIn(curve, this.likelyGap(r));
    const here = `it heads for ${headingWords(heading)} at this stage`;
    if (this.worst.stage !== r.stage) this.worst = { stage: r.stage, heading: 0 };
    else this.worst.heading = Math.max(this.worst.heading, heading.mean);
    // Hot before the next reading can be expected: now, not then.
    const hot = heading.mean > limit && (coming.mean >= limit - 1 || coming.mean + coming.sd >= limit + 2);
    if (hot && !this.short.tellsNothing(heading, limit))
      return this.backOff(
        r,
        'back-off',
        `${here}, and may pass ${figure(limit)} °C before the next reading: stand still, ${cool}`,
      );
    const close =
      this.unread.spiky && heading.mean - heading.sd > limit && climbs(this.recent, r) ? closeAgain : closeTo;
    if (heading.mean > limit && r.temp > limit - close)
      return this.backOff(
        r,
        'back-off',
        `${here}, and is within ${close} K of ${figure(limit)} °C: stand still, ${cool}`,
      );
    const leap = leapt(this.recent, r);
    if (heading.mean - heading.sd > limit + 10 && r.temp > limit - 10 && leap)
      return this.backOff(r, 'back-off', `${leap}, and ${here}: stand still, ${cool}`);
    const rapid =
      rapidRise(this.recent, r, this.stageBegan, rules) ??
      (heading.mean > limit
        ? faster(this.recent, r, limit, r.stage <= 0.3 * stages.length, this.unread.late && curve.grew)
        : undefined);
    if (rapid) return this.backOff(r, 'back-off', `${rapid}: stand still, ${cool}`);
    const gap = apartBy(r, this.plan);
    if (gap) this.warnings.push(gap.warning);
    const apart = gap?.drags && top.mean > limit - rules.nearLimit ? gap.why : undefined;
    if (apart) return this.backOff(r, 'back-off', `${apart}: stand still, ${cool}`);
    if (this.hiss.minutes !== undefined)
      return hissing(r, this.hiss.minutes, rules, this.allowed, `go on at stage ${this.at()}`);
    if (this.short.unsure) return say('hold', r.stage, this.short.why);
    const since = curve.since;
    if (since < rules.leastStage - 0.5 || (this.unread.here < 2 && this.late > 5))
      return say(
        'hold',
        r.stage,
        `at the stage for ${figure(Math.floor(since * 10) / 10)} of at least ${rules.leastStage} min`,
      );
    const steady = Math.abs(rate.mean) <= rules.settleSpan / rules.settleWindow;
    const isLast = r.stage >= upTo;
    if (
      since >= 2 * rules.leastStage &&
      top.mean - sure * top.sd > limit &&
      ((steady && !this.cold) || since >= (this.cold ? patience : 1) * rules.longestBlocked)
    )
      return this.end(r, `at top speed it would reach ${headingWords(top)}`);
    if (isLast) {
      const said = atLastStage(r, this.plan, { since, rate, heading, cold: this.cold });
      return typeof said === 'string' ? this.end(r, said) : said;
    }
    const near = heading.mean > limit - rules.nearLimit || heading.mean + heading.sd > limit;
    const further = curve.headingAt(r.stage + 1);
    // After a spike the next speed may bring another: then be surer of where it ends.
    const extra = this.worst.heading > limit - rules.nearLimit ? sure * further.sd : further.sd - rules.nearLimit;
    const tooFar = further.mean > limit - 1 || further.mean + extra > limit;
    const surely = heading.mean - heading.sd > limit - rules.nearLimit || further.mean - further.sd > limit;
    const unseen = unseenAt(r.stage + 1, this.plan, curve, this.unread, this.backOffs.size > 0);
    if (steady && !near && !tooFar && !unseen) return this.next(r.stage + 1, heading, top);
    if (steady && since >= (surely && !this.cold ? 1 : patience) * rules.longestBlocked)
      return this.end(
        r,
        near ? here : (unseen ?? `at stage ${r.stage + 1} it would reach ${headingWords(further)}`),
        heading.mean > limit ? r.stage - 1 : r.stage,
      );
    if (!steady)
      return say(
        'hold',
        r.stage,
        `not settled: it moves by ${figure(Math.abs(rate.mean) * rules.settleWindow, 2)} K in ${rules.settleWindow} min, ${rules.settleSpan} K is the most`,
      );
    if (!near && !tooFar && unseen)
      return say('hold', r.stage, `${unseen}. Stay beside it: read when due three times, then it opens`, settled);
    return say(
      'hold',
      r.stage,
      near
        ? `${here}, too near ${figure(limit)} °C to go on; wait whether the grease works itself in`
        : `stage ${r.stage + 1} would reach ${headingWords(further)}, too near ${figure(limit)} °C; wait whether the grease works itself in`,
      settled,
    );
  }

  private next(next: number, heading: Estimate, top: Estimate): Said {
    const { upTo, plan, curve } = this;
    const until = restBefore(next, plan, curve, this.unread.lateLately);
    this.opened.open(next, until);
    if (until !== undefined) this.rested = next;
    this.stood = new Stood();
    const last = upTo < plan.stages.length ? `stage ${upTo}` : 'top speed';
    const end = sure * top.sd > 25 ? '' : ` and ${headingWords(top)} at ${last}`;
    const rest =
      until === undefined
        ? ''
        : `stand still, cool to ${figure(Math.floor(until))} °C so that a lump of grease has room, then `;
    return say(
      'next',
      next,
      `it heads for ${headingWords(heading)} here${end}: ${rest}go to stage ${next}, ${this.rpm(next)}`,
      {
        settled: true,
        standing: until !== undefined,
      },
    );
  }

  private backOff(r: Reading, decision: 'stop' | 'back-off', why: string): Said {
    this.opened.shut();
    const from = Math.max(1, Math.min(this.allowed, r.stage === 0 ? this.allowed : r.stage));
    if (!this.cooling) {
      const times = (this.backOffs.get(from) ?? 0) + 1;
      this.backOffs.set(from, times);
      if (r.stage > 0) this.allowed = Math.max(1, from - 1);
      if (times > this.plan.rules.mostBackOffs || from === 1)
        return this.ending(why, r.temp < this.plan.limit ? Math.max(1, from - 1) : from - 1);
    }
    this.cooling = why.split(': ')[0] ?? why;
    this.stood = new Stood();
    return say(decision, this.allowed, `${why}, then ${this.resume()}`, { standing: true });
  }

  private end(r: Reading, why: string, most = this.upTo - 1): Said {
    this.allowed = Math.max(1, Math.min(this.allowed, r.stage));
    return this.ending(why, most);
  }
  private ending(why: string, most: number): Said {
    return say('stop', this.allowed, `${why}. ${endWords(most)}`, { standing: true, ends: true, most });
  }

  private dueIfItStays(r: Reading): number {
    return (this.said.standing && this.said.decision !== 'next') || r.stage === 0 ? 15 : this.dueRunning(r);
  }
  private dueRunning(r: Reading): number {
    if (this.short.unsure) return 1;
    if (r.stage <= knownStages + 1 && climbs(this.recent, r)) return soonWhereUnknown;
    const { spiky, most } = this.unread;
    // Asked before it is judged and after: only that it is sent back could move it, and then it stands.
    if (this.running?.of !== r) {
      const past = { spike: spiky ? most : undefined, sentBack: this.backOffs.size > 0 };
      this.running = { of: r, due: dueHere(this.plan, this.curve, r.stage >= this.upTo, past) };
    }
    return this.running.due;
  }
  /** Minutes until the next reading: as due where they come as due, else as they came. */
  private likelyGap(r: Reading): number {
    const usual = Math.max(2, Math.min(this.plan.rules.longestGap, this.curve.usualGap));
    if (this.unread.late) return usual;
    // What leapt before may leap as fast again.
    return Math.max(this.backOffs.size > 0 ? leapTime : 0, Math.min(usual, this.dueRunning(r) + handsNeed));
  }
  private dueNext(r: Reading): number {
    if (this.said.decision !== 'next') return this.stay;
    if (this.said.standing) return this.opened.due(r, this.curve);
    const next = this.said.stage;
    const wary = this.unread.spiky || this.backOffs.size > 0 || this.curve.runawayAt(next) > this.plan.room;
    return dueAfterChange(this.plan, r.temp, this.curve.headingAt(next).mean, wary, next);
  }

  private get cool(): string {
    return `cool to ${figure(this.plan.room + this.plan.rules.coolMargin)} °C or below`;
  }
  private resume = (): string => `resume at stage ${this.at()}`;
  private at = (): string => `${this.allowed}, ${this.rpm(this.allowed)}`;
}
