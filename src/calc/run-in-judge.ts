/**
 * Judges a run-in reading by reading: hold, next, back-off, stop or complete, from what is coming as well as from what
 * is. A fold over the whole history, with no memory of its own: the same readings always give the same answer.
 */
import { showDuration } from '../units/show.js';
import { Curve } from './run-in-curve.js';
import { coming as comingIn, dueAfterChange, dueHere } from './run-in-due.js';
import type { Estimate } from './run-in-fit.js';
import { type Decision, type Plan, type Reading, type Said, sure, told, type Verdict } from './run-in-said.js';
import { Unread } from './run-in-unread.js';
import { figure } from './spec.js';

/** A stage that opens no further one, though nothing is sure, is waited for this many times as long. */
const patience = 3;

/** Logs that were judged last, with the judgement as it stood after their last reading: a log that grew goes on there. */
const lately: { readonly plan: string; readonly read: readonly Reading[]; readonly judgement: Judgement }[] = [];
/** Two bearings, and a value that is tried out for each. */
const mostLately = 4;

/** What the judgement of all readings in their order says. */
export function judge(readings: readonly Reading[], plan: Plan): Verdict {
  const same = JSON.stringify(plan);
  const at = lately.findIndex(
    (l) => l.plan === same && l.read.length <= readings.length && l.read.every((r, i) => alike(r, readings[i]!)),
  );
  const [found] = at < 0 ? [] : lately.splice(at, 1);
  const going = found ?? { plan: same, read: [], judgement: new Judgement(plan) };
  for (let i = going.read.length; i < readings.length; i++) going.judgement.add(readings[i]!, i + 1);
  lately.unshift({ ...going, read: readings });
  lately.length = Math.min(lately.length, mostLately);
  const { ahead, warnings, ...verdict } = going.judgement.verdict();
  return { ...verdict, ahead: [...ahead], warnings: [...warnings] };
}

const alike = (a: Reading, b: Reading): boolean =>
  a.stage === b.stage && a.minutes === b.minutes && a.temp === b.temp && a.sound === b.sound && a.other === b.other;

/** The same reading by reading: `add` them in their order, numbered from 1; `verdict` whenever it is wanted. */
export class Judgement {
  private readonly curve: Curve;
  private allowed = 1;
  private cooling: string | undefined;
  private standsSince: Reading | undefined;
  private final: Said | undefined;
  private readonly backOffs = new Map<number, number>();
  private readonly ahead: number[] = [];
  private readonly warnings: string[] = [];
  /** Hottest that this stage was heading for since it began. */
  private worst = { stage: 0, heading: 0 };
  private recent: Reading[] = [];
  /** degC of the last reading before this stage, where it came from another speed. */
  private stageBegan: number | undefined;
  private hissSince: number | undefined;
  private readonly unread = new Unread();
  private expected = Number.POSITIVE_INFINITY;
  private due = 1;
  private late = 0;
  private last: Reading | undefined;
  private said: Said;

  constructor(private readonly plan: Plan) {
    const top = plan.stages[plan.stages.length - 1] ?? 1;
    const speeds = plan.stages.map((rpm) => rpm / top);
    this.curve = new Curve(plan.room, speeds);
    this.said = this.say('hold', 1, `begin at stage 1, ${this.rpm(1)}, and take the first reading`);
  }

  add(reading: Reading, number: number): void {
    const { last } = this;
    this.late = last ? Math.max(0, reading.minutes - last.minutes - this.due) : 0;
    // What it was heading for at this speed before it was set.
    if (last && last.stage !== reading.stage && reading.stage > 0)
      this.expected = this.curve.headingAt(reading.stage).mean;
    this.unread.add(reading, this.expected, this.late);
    this.curve.add(reading);
    this.hissSince = reading.sound === 'hiss' ? (this.hissSince ?? reading.minutes) : undefined;
    const opened = this.said.decision === 'next' ? this.said.stage : this.allowed;
    if (!this.cooling) this.allowed = Math.max(this.allowed, Math.min(opened, reading.stage));
    const isAhead = reading.stage > opened;
    if (isAhead) this.ahead.push(number);
    if (last && last.stage !== reading.stage) this.stageBegan = last.stage > 0 ? last.temp : undefined;
    this.recent = last && last.stage === 0 ? [reading] : [...this.recent.slice(-20), reading];
    this.last = reading;
    this.warnings.length = 0;
    this.said = this.decide(reading, number, isAhead);
    if (this.said.ends) this.final ??= this.said;
    this.due = this.nextDue(reading);
  }

  verdict(): Verdict {
    const { last } = this;
    const running = last !== undefined && last.stage > 0;
    return {
      ...this.said,
      heading: running ? this.curve.heading() : undefined,
      headingTop: running ? this.curve.headingAt(this.plan.upTo) : undefined,
      nextReading: this.due,
      ahead: this.ahead,
      late: this.late,
      warnings: this.warnings,
      timeConstant: this.curve.timeConstant(),
    };
  }

  private rpm(stage: number): string {
    return `${figure(this.plan.stages[stage - 1] ?? 0)} rpm`;
  }
  private say(decision: Decision, stage: number, why: string, more: Partial<Said> = {}): Said {
    return { decision, stage, why, standing: false, ends: false, settled: false, ...more };
  }

  private decide(r: Reading, number: number, isAhead: boolean): Said {
    if (this.final) return this.final;
    if (r.sound === 'rough' || r.sound === 'grinding')
      return this.say(
        'stop',
        1,
        `${r.sound} at reading ${number}: stop, find the cause, and begin a new run-in only once it turns smoothly by hand`,
        { standing: true, ends: true },
      );
    const { limit, room, rules } = this.plan;
    const cool = `cool to ${figure(room + rules.coolMargin)} °C or below`;
    if (r.temp >= limit)
      return this.backOff(r, 'stop', `${figure(r.temp)} °C is at or over ${figure(limit)} °C: stop, ${cool}`);
    if (this.cooling) {
      if (!this.hasCooled(r))
        return this.say('back-off', this.allowed, `${this.cooling}: stand still, ${cool}, then ${this.resume()}`, {
          standing: true,
        });
      this.cooling = undefined;
      this.standsSince = undefined;
    }
    if (r.stage === 0) return this.say('hold', this.allowed, `it stands still: go on at stage ${this.at()}`);
    if (isAhead)
      return this.say(
        'back-off',
        this.allowed,
        `stage ${r.stage} is not open yet: go back to stage ${this.at()}, until it has settled there`,
      );
    return this.running(r, cool);
  }

  private running(r: Reading, cool: string): Said {
    const { limit, rules, stages, upTo } = this.plan;
    const { curve } = this;
    const heading = curve.heading();
    const top = curve.headingAt(upTo);
    const rate = curve.rate();
    const coming = comingIn(curve, rules.longestGap);
    const here = `it heads for ${told(heading)} at this stage`;
    if (this.worst.stage !== r.stage) this.worst = { stage: r.stage, heading: 0 };
    else this.worst.heading = Math.max(this.worst.heading, heading.mean);
    // Hot before the next reading can be expected: now, not then.
    if (heading.mean > limit && (coming.mean >= limit - 1 || coming.mean + coming.sd >= limit + 2))
      return this.backOff(
        r,
        'back-off',
        `${here}, and may pass ${figure(limit)} °C before the next reading: stand still, ${cool}`,
      );
    const rapid = this.rapid(r);
    if (rapid) return this.backOff(r, 'back-off', `${rapid}: stand still, ${cool}`);
    const apart = this.apart(r);
    if (apart) return this.backOff(r, 'back-off', `${apart}: stand still, ${cool}`);
    if (this.hissSince !== undefined) {
      const hissed = r.minutes - this.hissSince;
      if (hissed >= rules.longestHiss)
        return this.say(
          'stop',
          this.allowed,
          `it has hissed for ${showDuration(hissed)}: stop and look at seals, beads and cage; then go on at stage ${this.at()}`,
        );
      return this.say('hold', r.stage, 'a hiss: hold until it turns smooth; if it stays half an hour, stop and look');
    }
    const since = curve.since;
    if (since < rules.leastStage - 0.5 || (this.unread.here < 2 && this.late > 5))
      return this.say(
        'hold',
        r.stage,
        `at the stage for ${figure(Math.floor(since * 10) / 10)} of at least ${rules.leastStage} min; ${here}`,
      );
    const steady = Math.abs(rate.mean) <= rules.settleSpan / rules.settleWindow;
    const isLast = r.stage >= upTo;
    if (since >= 2 * rules.leastStage && top.mean - sure * top.sd > limit && (steady || since >= rules.longestBlocked))
      return this.end(r, `at top speed it would reach ${told(top)}`);
    if (isLast) return this.lastStage(r, since, rate, heading);
    const near = heading.mean > limit - rules.nearLimit || heading.mean + heading.sd > limit;
    const further = curve.headingAt(r.stage + 1);
    // After a spike the next speed may bring another: then be surer of where it ends.
    const extra = this.worst.heading > limit - rules.nearLimit ? sure * further.sd : further.sd - rules.nearLimit;
    const tooFar = further.mean > limit - 1 || further.mean + extra > limit;
    const surely = heading.mean - heading.sd > limit - rules.nearLimit || further.mean - further.sd > limit;
    const unseen = this.unseen(r, further);
    if (steady && !near && !tooFar && !unseen)
      return this.say(
        'next',
        r.stage + 1,
        `it heads for ${told(heading)} here${sure * top.sd > 25 ? '' : ` and ${told(top)} at ${upTo < stages.length ? `stage ${upTo}` : 'top speed'}`}: go to stage ${r.stage + 1}, ${this.rpm(r.stage + 1)}`,
        { settled: true },
      );
    if (steady && since >= (surely ? 1 : patience) * rules.longestBlocked)
      return this.end(r, near ? here : (unseen ?? `at stage ${r.stage + 1} it would reach ${told(further)}`));
    if (!steady)
      return this.say(
        'hold',
        r.stage,
        `not settled: it moves by ${figure(Math.abs(rate.mean) * rules.settleWindow, 2)} K in ${rules.settleWindow} min, ${rules.settleSpan} K is the most; ${here}`,
      );
    if (!near && !tooFar && unseen)
      return this.say('hold', r.stage, `${unseen}. Read when due three times, then it opens`, { settled: true });
    return this.say(
      'hold',
      r.stage,
      near
        ? `${here}, too near ${figure(limit)} °C to go on; wait whether the grease works itself in`
        : `stage ${r.stage + 1} would reach ${told(further)}, too near ${figure(limit)} °C; wait whether the grease works itself in`,
      { settled: true },
    );
  }

  /** Why the next stage may pass the limit before anybody reads it, where readings come late. */
  private unseen(r: Reading, further: Estimate): string | undefined {
    const { limit, room } = this.plan;
    const next = r.stage + 1;
    const { spike, spiky, late } = this.unread;
    const rise = further.mean - room;
    const again = late && spiky ? 0.3 * rise - 2 : 0;
    if (further.mean + Math.max(again, (late ? 1.5 : 1.25) * spike) > limit + (late ? 0 : 2))
      return `stage ${next} may pass ${figure(limit)} °C unread: it has spiked before`;
    if (late && further.mean + further.sd > limit - 2)
      return `stage ${next} may reach ${told(further)}, and readings come late`;
    if (late && this.curve.runawayAt(next) > limit - 2)
      return `stage ${next} may pass ${figure(limit)} °C unread: friction grows faster than speed`;
    return undefined;
  }

  private lastStage(r: Reading, since: number, rate: Estimate, heading: Estimate): Said {
    const { limit, rules } = this.plan;
    const most = rules.equilibrium / 60;
    const settled = since >= rules.leastLast - 0.5 && Math.abs(rate.mean) + 0.5 * rate.sd <= most;
    const cool = heading.mean <= limit - rules.nearLimit && heading.mean + sure * heading.sd <= limit;
    if (settled && cool)
      return this.say(
        'complete',
        r.stage,
        `settled at ${figure(r.temp)} °C at ${this.rpm(r.stage)}: it moves by ${rules.equilibrium} K an hour at most and heads for ${told(heading)}`,
        { settled: true },
      );
    const surely = heading.mean - heading.sd > limit - rules.nearLimit;
    if (!cool && since >= (surely ? 1 : patience) * rules.longestBlocked)
      return this.end(r, `it heads for ${told(heading)}`);
    if (!settled)
      return this.say(
        'hold',
        r.stage,
        since < rules.leastLast
          ? `at the last stage for ${figure(Math.floor(since))} of at least ${rules.leastLast} min; it heads for ${told(heading)}`
          : `not settled: it moves by ${figure(Math.abs(rate.mean) * 60, 2)} ± ${figure(rate.sd * 60, 2)} K an hour, ${rules.equilibrium} K is the most; it heads for ${told(heading)}`,
      );
    return this.say('hold', r.stage, `it heads for ${told(heading)}, too near ${figure(limit)} °C: wait`, {
      settled: true,
    });
  }

  /** Both bearings share shaft, speed and grease: one that is much hotter at half speed or below drags. */
  private apart(r: Reading): string | undefined {
    const { rules, stages } = this.plan;
    if (r.other === undefined) return undefined;
    const gap = r.temp - r.other;
    if (gap > rules.apartWatch)
      this.warnings.push(
        `It is ${figure(gap, 2)} K warmer than the other bearing on the same shaft: look for too much grease, preload or a rubbing seal in this one.`,
      );
    const slow = (stages[r.stage - 1] ?? 0) <= 0.5 * (stages[stages.length - 1] ?? 1);
    const top = this.curve.headingAt(this.plan.upTo);
    const hot = top.mean > this.plan.limit - rules.nearLimit;
    return gap > rules.apartStop && slow && hot
      ? `${figure(gap, 2)} K above the other bearing on the same shaft`
      : undefined;
  }

  /** A spike that does not wait: so many kelvin within minutes, or above where the stage began. */
  private rapid(r: Reading): string | undefined {
    const { rules } = this.plan;
    const here = this.recent.filter((p) => p.stage > 0);
    const soon = here.filter((p) => r.minutes - p.minutes <= rules.rapidTime + 1);
    const from = soon.reduce((low, p) => (p.temp < low.temp ? p : low), r);
    if (r.temp - from.temp >= rules.rapidRise)
      return `it rose ${figure(r.temp - from.temp, 2)} K in ${showDuration(r.minutes - from.minutes)}`;
    const before = this.stageBegan;
    if (before !== undefined && r.temp - before >= rules.stageRise)
      return `it is ${figure(r.temp - before, 2)} K above where this stage began`;
    return undefined;
  }

  private backOff(r: Reading, decision: 'stop' | 'back-off', why: string): Said {
    const from = Math.max(1, Math.min(this.allowed, r.stage === 0 ? this.allowed : r.stage));
    if (!this.cooling) {
      const times = (this.backOffs.get(from) ?? 0) + 1;
      this.backOffs.set(from, times);
      if (r.stage > 0) this.allowed = Math.max(1, from - 1);
      if (times > this.plan.rules.mostBackOffs || from === 1)
        return this.say('stop', this.allowed, `${why}. ${this.endWords()}`, { standing: true, ends: true });
    }
    this.cooling = why.split(': ')[0] ?? why;
    this.standsSince = undefined;
    return this.say(decision, this.allowed, `${why}, then ${this.resume()}`, { standing: true });
  }

  private end(r: Reading, why: string): Said {
    this.allowed = Math.max(1, Math.min(this.allowed, r.stage));
    return this.say('stop', this.allowed, `${why}. ${this.endWords()}`, { standing: true, ends: true });
  }
  private endWords(): string {
    return 'Stop and find the cause - too much grease, preload, a seal that rubs, a fan that does not blow - or end it as a limited run-in at a lower stage';
  }

  private hasCooled(r: Reading): boolean {
    const { room, rules } = this.plan;
    if (r.temp <= room + rules.coolMargin) return true;
    // It stands and cools no more: then this is its room, whatever was typed.
    if (r.stage !== 0) {
      this.standsSince = undefined;
      return false;
    }
    const since = this.standsSince;
    if (!since || since.temp - r.temp > rules.equilibrium / 2 || r.temp - since.temp > rules.equilibrium / 2) {
      this.standsSince = r;
      return false;
    }
    return r.minutes - since.minutes >= 30;
  }

  private nextDue(r: Reading): number {
    if (this.said.standing || r.stage === 0) return 15;
    if (this.said.decision === 'next') return dueAfterChange(this.plan, r.temp, this.curve.headingAt(r.stage + 1).mean);
    return dueHere(this.plan, this.curve, r.stage >= this.plan.upTo, this.unread.spiky);
  }

  private resume = (): string => `resume at stage ${this.at()}`;
  private at = (): string => `${this.allowed}, ${this.rpm(this.allowed)}`;
}
