/** What a run-in's readings say so far: a fold over the whole history, with no memory of its own. */

export type Sound = 'smooth' | 'hiss' | 'rough' | 'grinding';

export interface Reading {
  /** 1, 2, …; 0 while it stands still. */
  readonly stage: number;
  /** Elapsed wall minutes. */
  readonly minutes: number;
  /** degC */
  readonly temp: number;
  readonly sound: Sound;
}

/** Limits of the table run-in-rules; minutes, K, K/min. */
export interface Rules {
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

export interface History {
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
export function hissedFor(readings: readonly Reading[]): number {
  const last = readings[readings.length - 1];
  if (last?.sound !== 'hiss') return 0;
  const before = readings.findLastIndex((r) => r.sound !== 'hiss');
  return last.minutes - (readings[before + 1]?.minutes ?? last.minutes);
}

/** Readings over the settle window move by no more than the span, three at least, after the shortest time at the stage. */
export function isSettled(here: readonly Reading[], rules: Rules): boolean {
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

export function fold(readings: readonly Reading[], limit: number, ambient: number, rules: Rules): History {
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
