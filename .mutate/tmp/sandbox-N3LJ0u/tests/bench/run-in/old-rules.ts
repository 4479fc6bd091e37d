/** The rules of the run-in as they were before they looked ahead, kept word for word to be measured beside the new ones. */
// @ts-nocheck


import { figure } from '../../../src/calc/spec.js';
import { showDuration } from '../../../src/units/show.js';

type Sound = 'smooth' | 'hiss' | 'rough' | 'grinding';

interface Reading {
  /** 1, 2, …; 0 while it stands still. */
  readonly stage: number;
  /** Elapsed wall minutes. */
  readonly minutes: number;
  /** degC */
  readonly temp: number;
  readonly sound: Sound;
}

/** Limits of the table run-in-rules; minutes, K, K/min. */
interface Rules {
  readonly leastStage: number;
  readonly settleWindow: number;
  readonly settleSpan: number;
  readonly rapidRate: number;
  readonly rapidRise: number;
  readonly coolMargin: number;
  readonly nearLimit: number;
  readonly longestHiss: number;
}

type Trouble =
  | { readonly kind: 'noise'; readonly reading: number }
  | { readonly kind: 'hot'; readonly reading: number }
  | { readonly kind: 'rapid'; readonly reading: number; readonly rise: number; readonly over: number };

interface History {
  /** Noise: nothing later in the same run-in lifts it. */
  readonly noise?: Trouble & { kind: 'noise' };
  /** It must still cool; the last trouble that asked for it. */
  readonly cooling?: Trouble;
  /** Highest stage that may be run now. */
  readonly allowed: number;
  /** Numbers of the readings that stood at a stage that the readings before them had not opened. */
  readonly ahead: readonly number[];
  /** Readings since the last cooling or change of stage, at the latest stage. */
  readonly here: readonly Reading[];
}

/** Two readings closer than this are taken as this far apart, min: a typed minute is a whole one. */
const leastGap = 0.5;

/** Rise between two readings when it is rapid. */
function rapidRise(a: Reading, b: Reading, rules: Rules): { rise: number; over: number } | undefined {
  const over = Math.max(b.minutes - a.minutes, leastGap);
  const rise = b.temp - a.temp;
  return rise >= rules.rapidRise && rise / over >= rules.rapidRate ? { rise, over } : undefined;
}

/** Minutes for which it has hissed at every reading up to the last one. */
function hissedFor(readings: readonly Reading[]): number {
  const last = readings[readings.length - 1];
  if (last?.sound !== 'hiss') return 0;
  const before = readings.findLastIndex((r) => r.sound !== 'hiss');
  return last.minutes - (readings[before + 1]?.minutes ?? last.minutes);
}

/** Readings over the settle window move by no more than the span, three at least, after the shortest time at the stage. */
function isSettled(here: readonly Reading[], rules: Rules): boolean {
  const last = here[here.length - 1];
  const first = here[0];
  if (!last || !first || last.minutes - first.minutes < rules.leastStage) return false;
  let start = here.length - 1;
  while (start > 0 && last.minutes - (here[start]?.minutes ?? 0) < rules.settleWindow) start--;
  const window = here.slice(start);
  if (window.length < 3 || last.minutes - (window[0]?.minutes ?? 0) < rules.settleWindow) return false;
  const temps = window.map((reading) => reading.temp);
  return Math.max(...temps) - Math.min(...temps) <= rules.settleSpan;
}

function fold(readings: readonly Reading[], limit: number, ambient: number, rules: Rules): History {
  let allowed = 1;
  let cooling: Trouble | undefined;
  let noise: (Trouble & { kind: 'noise' }) | undefined;
  let here: Reading[] = [];
  const ahead: number[] = [];
  readings.forEach((reading, i) => {
    if (!noise && (reading.sound === 'rough' || reading.sound === 'grinding'))
      noise = { kind: 'noise', reading: i + 1 };
    const before = (stage: number): number => Math.max(1, Math.min(allowed, stage) - 1);
    if (cooling) {
      if (reading.stage > allowed) ahead.push(i + 1);
      if (reading.temp >= limit) cooling = { kind: 'hot', reading: i + 1 };
      if (reading.temp > ambient + rules.coolMargin) return;
      cooling = undefined;
      here = [reading];
      return;
    }
    if (here.length > 0 && here[0]?.stage !== reading.stage) {
      // A settled stage opens the next one; a spike right after the change still counts against the last reading.
      if (isSettled(here, rules) && (here[0]?.stage ?? 0) === allowed) allowed++;
    }
    if (reading.stage > allowed) ahead.push(i + 1);
    const last = here[here.length - 1];
    const rapid = last ? rapidRise(last, reading, rules) : undefined;
    if (reading.temp >= limit) cooling = { kind: 'hot', reading: i + 1 };
    else if (rapid) cooling = { kind: 'rapid', reading: i + 1, ...rapid };
    if (cooling) {
      allowed = before(reading.stage);
      here = [];
      return;
    }
    here = here.length > 0 && here[0]?.stage === reading.stage ? [...here, reading] : [reading];
  });
  return { allowed, ahead, here, ...(noise ? { noise } : {}), ...(cooling ? { cooling } : {}) };
}

export type OldReading = Reading;
interface Said {
  readonly decision: 'hold' | 'next' | 'back-off' | 'stop' | 'complete';
  readonly stage: number;
  readonly why: string;
  readonly standing?: boolean;
}

const oldRules: Rules = {
  leastStage: 15,
  settleWindow: 10,
  settleSpan: 1,
  rapidRate: 2,
  rapidRise: 3,
  coolMargin: 5,
  nearLimit: 5,
  longestHiss: 30,
};

export function oldJudge(readings: readonly Reading[], stages: readonly number[], limit: number, room: number): Said {
  const history = fold(readings, limit, room, oldRules);
  return decide(readings, history, isSettled(history.here, oldRules), stages, limit, room, oldRules);
}

function decide(
  readings: readonly Reading[],
  history: History,
  settled: boolean,
  stages: readonly number[],
  limit: number,
  ambient: number,
  rules: Rules,
): Said {
  const last = readings[readings.length - 1];
  const rpm = (stage: number): string => `${figure(stages[stage - 1] ?? 0)} rpm`;
  if (!last) return { decision: 'hold', stage: 1, why: `begin at stage 1, ${rpm(1)}, and take the first reading` };
  const cool = `cool to ${figure(ambient + rules.coolMargin)} °C or below`;
  if (history.noise)
    return {
      decision: 'stop',
      stage: 1,
      standing: true,
      why: `${readings[history.noise.reading - 1]?.sound} at reading ${history.noise.reading}: stop, find the cause, and begin a new run-in only once it turns smoothly by hand`,
    };
  const { allowed } = history;
  if (history.cooling?.kind === 'hot' && last.temp >= limit)
    return {
      decision: 'stop',
      stage: allowed,
      standing: true,
      why: `${figure(last.temp)} °C is at or over ${figure(limit)} °C: stop, ${cool}, then resume at stage ${allowed}, ${rpm(allowed)}`,
    };
  if (history.cooling) {
    const cause =
      history.cooling.kind === 'rapid'
        ? `rose ${figure(history.cooling.rise, 2)} K in ${showDuration(history.cooling.over)} at reading ${history.cooling.reading}`
        : `reached ${figure(limit)} °C at reading ${history.cooling.reading}`;
    return {
      decision: 'back-off',
      stage: allowed,
      standing: true,
      why: `it ${cause}: stand still, ${cool}, then resume at stage ${allowed}, ${rpm(allowed)}`,
    };
  }
  if (last.stage === 0)
    return { decision: 'hold', stage: allowed, why: `it stands still: go on at stage ${allowed}, ${rpm(allowed)}` };
  if (last.stage > allowed)
    return {
      decision: 'back-off',
      stage: allowed,
      why: `stage ${last.stage} is not open yet: go back to stage ${allowed}, ${rpm(allowed)}, until it has settled there`,
    };
  const hissed = hissedFor(readings);
  if (hissed >= rules.longestHiss)
    return {
      decision: 'stop',
      stage: allowed,
      why: `it has hissed for ${showDuration(hissed)}: stop and look at seals, beads and cage; then go on at stage ${allowed}, ${rpm(allowed)}`,
    };
  if (last.sound === 'hiss')
    return {
      decision: 'hold',
      stage: last.stage,
      why: 'a hiss: hold until it turns smooth; if it stays half an hour, stop and look',
    };
  if (!settled) {
    const here = last.minutes - (history.here[0]?.minutes ?? last.minutes);
    const least =
      here < rules.leastStage
        ? `at the stage for ${figure(Math.floor(here * 10) / 10)} of at least ${rules.leastStage} min`
        : `the last ${rules.settleWindow} min must move by ${rules.settleSpan} K at most, over three readings`;
    return { decision: 'hold', stage: last.stage, why: `not settled: ${least}` };
  }
  if (last.stage >= stages.length)
    return { decision: 'complete', stage: last.stage, why: `settled at ${figure(last.temp)} °C at the top speed` };
  if (last.temp > limit - rules.nearLimit)
    return {
      decision: 'hold',
      stage: last.stage,
      why: `settled, but ${figure(last.temp)} °C is within ${rules.nearLimit} K of ${figure(limit)} °C: no further stage; look for too much grease, preload or drag`,
    };
  return {
    decision: 'next',
    stage: last.stage + 1,
    why: `settled at ${figure(last.temp)} °C: go to stage ${last.stage + 1}, ${rpm(last.stage + 1)}`,
  };
}
