/** One bearing's curve, followed reading by reading: fit, stages so far, and what is to come. Temperatures degC, times min. */
import { riseAt, type StageHeading } from './run-in-ahead.js';
import { type Estimate, HeadingFit } from './run-in-fit.js';
import type { RunInPoint } from './run-in-said.js';
import { growth, highestPower, runaway } from './run-in-unread.js';

/** It is taken that a change of speed came this long after the reading at which it was told. */
const changeAfter = 1;

/** Share of the top speed of each stage. */
export const sharesOf = (stages: readonly number[]): number[] => stages.map((rpm) => rpm / (stages.at(-1) ?? 1));

export class Curve {
  private fit: HeadingFit | undefined;
  private last: RunInPoint | undefined;
  private done: StageHeading[] = [];
  private gaps: number[] = [];
  /** Minute of the reading at which the last change of speed was told. */
  changedAt = 0;

  constructor(
    private readonly room: number,
    /** Share of the top speed of each stage. */
    private readonly speeds: readonly number[],
  ) {}

  add(point: RunInPoint): void {
    const speed = this.speedOf(point.stage);
    const { last } = this;
    if (!this.fit || !last) {
      this.fit = new HeadingFit(point.temp - this.room, speed);
      this.changedAt = point.minutes;
      this.last = point;
      return;
    }
    const gap = point.minutes - last.minutes;
    if (last.stage === point.stage) this.fit.pass(gap);
    else {
      const before = Math.min(changeAfter, gap / 2);
      this.fit.pass(before);
      if (last.stage > 0) this.keep(last.stage);
      this.fit.turn(speed);
      this.fit.pass(gap - before);
      this.changedAt = last.minutes;
    }
    this.fit.read(point.temp - this.room, Math.max(0.25, gap));
    if (gap > 0) this.gaps.push(gap);
    this.last = point;
  }

  /** Minutes at the speed that is set. */
  get since(): number {
    return (this.last?.minutes ?? 0) - this.changedAt;
  }

  /** How far apart readings come: the longest of the last few that nearly all keep to. */
  get usualGap(): number {
    const late = this.gaps.slice(-6).sort((a, b) => a - b);
    return late.length === 0 ? 5 : (late[Math.max(0, late.length - 2)] ?? 5);
  }

  /** degC at this stage in the end. */
  heading(): Estimate {
    return this.over(this.fit?.heading());
  }
  /** degC in so many minutes at this speed. */
  soon(minutes: number): Estimate {
    return this.over(this.fit?.soon(minutes));
  }
  /** degC of the housing now. */
  housing(): number {
    return this.room + (this.fit?.housing() ?? 0);
  }
  /** If `stage` is set now, degC in so many minutes; and degC from which it would reach `most` by then if it stood before. */
  entry(stage: number, minutes: number, most: number): { readonly hot: number; readonly from: number } {
    if (!this.fit) return { hot: this.room, from: this.room };
    const { kept, made } = this.fit.entry(riseAt(this.speedOf(stage), this.stages()).mean, minutes);
    return { hot: this.room + kept * this.fit.housing() + made, from: this.room + (most - this.room - made) / kept };
  }
  /** degC in the end at another stage's speed. */
  headingAt(stage: number): Estimate {
    return this.over(riseAt(this.speedOf(stage), this.stages()));
  }
  /** degC at another stage's speed if friction goes on to grow as from stage to stage; the room where it does not. */
  runawayAt(stage: number): number {
    return this.room + runaway(this.speedOf(stage), this.stages());
  }
  /** Before this stage friction grew faster from speed to speed than speed explains. */
  get grew(): boolean {
    return growth(this.done.filter((s) => s.speed < this.speedOf(this.last?.stage ?? 0))) > highestPower;
  }
  /** K/min now. */
  rate(): Estimate {
    return this.fit?.rate() ?? { mean: 0, sd: 1 };
  }
  timeConstant(): Estimate | undefined {
    return this.fit?.timeConstant();
  }

  private stages(): readonly StageHeading[] {
    const stage = this.last?.stage ?? 0;
    if (stage === 0 || !this.fit) return this.done;
    const speed = this.speedOf(stage);
    return [...this.done.filter((s) => s.speed !== speed), { ...this.fit.heading(), speed }];
  }
  private keep(stage: number): void {
    const speed = this.speedOf(stage);
    if (!this.fit) return;
    this.done = [...this.done.filter((s) => s.speed !== speed), { ...this.fit.heading(), speed }].sort(
      (a, b) => a.speed - b.speed,
    );
  }
  private speedOf(stage: number): number {
    return stage === 0 ? 0 : (this.speeds[stage - 1] ?? 1);
  }
  private over(rise: Estimate | undefined): Estimate {
    return { mean: this.room + (rise?.mean ?? 0), sd: rise?.sd ?? 5 };
  }
}
