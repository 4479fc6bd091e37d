/** Counts of scored rotors, as rows of a table with their goals. */
// @ts-nocheck

import { limit, type Scored } from './score.js';

/** A scored rotor without its readings. */
export interface Line {
  readonly kind: Scored['kind'];
  readonly asDue: boolean;
  readonly every: number;
  readonly how: Scored['ended']['how'];
  readonly minutes: number;
  readonly best: number | undefined;
  readonly hottest: number;
  readonly sentBack: number;
  readonly readings: number;
  readonly later: number;
  readonly slope: number;
}

export const lineOf = (s: Scored): Line => ({
  kind: s.kind,
  asDue: s.case.habit.asDue,
  every: s.case.habit.every,
  how: s.ended.how,
  minutes: s.ended.minutes,
  best: s.best.minutes,
  hottest: s.ended.hottest,
  sentBack: s.ended.sentBack,
  readings: s.ended.readings,
  later: s.ended.later,
  slope: s.ended.rateThen,
});

export function median(list: readonly number[]): number {
  const sorted = [...list].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
}
const percent = (part: number, whole: number): number => (whole === 0 ? 0 : (100 * part) / whole);

export interface Figures {
  readonly rotors: number;
  readonly healthy: number;
  readonly spiky: number;
  readonly hardSpikes: number;
  readonly borderline: number;
  readonly bad: number;
  /** Rotors that ended over the limit and were accepted. */
  readonly badAccepted: number;
  /** Rotors driven more than 5 K over the limit, and the hottest of all. */
  readonly overdriven: number;
  readonly overdrivenAsDue: number;
  readonly hottest: number;
  /** % of healthy ones. */
  readonly stoppedInVain: number;
  readonly neverFinished: number;
  /** % of those with a spike that settles, accepted without once being sent back; and accepted at all. */
  readonly carried: number;
  readonly carriedInTheEnd: number;
  /** Median of time over the fastest safe time. */
  readonly ratio: number;
  readonly ratioAsDue: number;
  readonly ratioOwnClock: number;
  readonly minutes: number;
  readonly readings: number;
  /** % of the accepted that still moved by more than 2 K an hour. */
  readonly moving: number;
}

export function figuresOf(lines: readonly Line[]): Figures {
  const of = (...kinds: Line['kind'][]): Line[] => lines.filter((l) => kinds.includes(l.kind));
  const healthy = of('healthy');
  const spiky = of('spiky');
  const good = of('healthy', 'spiky');
  const accepted = lines.filter((l) => l.how === 'accepted');
  const ratio = (list: readonly Line[]): number =>
    median(list.flatMap((l) => (l.how === 'accepted' && l.best !== undefined ? [l.minutes / l.best] : [])));
  return {
    rotors: lines.length,
    healthy: healthy.length,
    spiky: spiky.length,
    hardSpikes: of('hard spike').length,
    borderline: of('borderline').length,
    bad: of('bad').length,
    badAccepted: accepted.filter((l) => l.later > limit).length,
    overdriven: lines.filter((l) => l.hottest > limit + 5).length,
    overdrivenAsDue: lines.filter((l) => l.asDue && l.hottest > limit + 5).length,
    hottest: Math.max(...lines.map((l) => l.hottest)),
    stoppedInVain: percent(healthy.filter((l) => l.sentBack > 0 || l.how === 'rejected').length, healthy.length),
    neverFinished: good.filter((l) => l.how === 'never').length,
    carried: percent(spiky.filter((l) => l.how === 'accepted' && l.sentBack === 0).length, spiky.length),
    carriedInTheEnd: percent(spiky.filter((l) => l.how === 'accepted').length, spiky.length),
    ratio: ratio(good),
    ratioAsDue: ratio(good.filter((l) => l.asDue)),
    ratioOwnClock: ratio(good.filter((l) => !l.asDue)),
    minutes: median(good.filter((l) => l.how === 'accepted').map((l) => l.minutes)),
    readings: median(good.map((l) => l.readings)),
    moving: percent(accepted.filter((l) => l.slope > 2).length, accepted.length),
  };
}

const whole = (n: number): string => n.toFixed(0);
const one = (n: number): string => n.toFixed(1);
const two = (n: number): string => n.toFixed(2);
const rows: readonly (readonly [keyof Figures, string, string, (n: number) => string])[] = [
  ['rotors', 'rotors', '', whole],
  ['healthy', 'healthy, no spike of 5 K', '', whole],
  ['spiky', 'healthy, with a spike that settles', '', whole],
  ['hardSpikes', 'healthy, spike to within 6 K of the limit', '', whole],
  ['borderline', 'end within 6 K below the limit', '', whole],
  ['bad', 'end over the limit', '', whole],
  ['badAccepted', 'over the limit, accepted', '0', whole],
  ['overdriven', 'driven more than 5 K over the limit', '0', whole],
  ['overdrivenAsDue', '- read when due', '0', whole],
  ['hottest', 'hottest ring of all, °C', '<= 75', one],
  ['stoppedInVain', 'healthy, stopped or sent back, %', '<= 2', one],
  ['neverFinished', 'healthy, never finished in 25 h', '0', whole],
  ['carried', 'spikes carried through, never sent back, %', '>= 95', one],
  ['carriedInTheEnd', 'spikes carried through in the end, %', '', one],
  ['ratio', 'median time of the healthy / fastest safe', '<= 1.25', two],
  ['ratioAsDue', '- read when due', '', two],
  ['ratioOwnClock', '- read by their own clock, 1 to 15 min', '', two],
  ['minutes', 'median time of the healthy, min', '', whole],
  ['readings', 'median readings of the healthy', '', whole],
  ['moving', 'accepted, truly over 2 K an hour, %', '', one],
];

/** Columns: name and figures. */
export function table(columns: readonly (readonly [string, Figures])[]): string {
  const head = ['what', 'goal', ...columns.map(([name]) => name)];
  const body = rows.map(([key, label, goal, show]) => [
    label,
    goal,
    ...columns.map(([, figures]) => show(Math.round(figures[key] * 1000) / 1000)),
  ]);
  return [head, head.map(() => '-'), ...body].map((cells) => `| ${cells.join(' | ')} |`).join('\n');
}
