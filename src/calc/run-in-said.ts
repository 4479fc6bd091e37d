/** What a run-in is judged by and what is said of it. Speeds rpm, temperatures degC of the outer ring, times min. */
import type { Estimate } from './run-in-fit.js';

export interface RunInPoint {
  /** 1, 2, …; 0 while it stands still. */
  readonly stage: number;
  /** Elapsed wall minutes. */
  readonly minutes: number;
  /** degC */
  readonly temp: number;
}

export type Sound = 'smooth' | 'hiss' | 'rough' | 'grinding';
export type Decision = 'hold' | 'next' | 'back-off' | 'stop' | 'complete';

export interface Reading extends RunInPoint {
  readonly sound: Sound;
  /** degC of the other bearing at the same time. */
  readonly other?: number;
}

/** Limits of the table run-in-rules; minutes, K, K/min. */
export interface Rules {
  readonly leastStage: number;
  readonly settleWindow: number;
  readonly settleSpan: number;
  readonly equilibrium: number;
  readonly leastLast: number;
  readonly coolMargin: number;
  readonly nearLimit: number;
  readonly longestHiss: number;
  readonly apartWatch: number;
  readonly apartStop: number;
  readonly longestBlocked: number;
  readonly mostBackOffs: number;
  readonly longestGap: number;
  readonly rapidRise: number;
  readonly rapidTime: number;
  readonly stageRise: number;
}

export interface Plan {
  /** rpm */
  readonly stages: readonly number[];
  /** Stage at which the run-in ends: the last one unless it is a limited run-in. */
  readonly upTo: number;
  /** Readings that were there when it was limited to `upTo`; 0 or absent: it was meant so from the start. */
  readonly limitedAfter?: number;
  readonly limit: number;
  readonly room: number;
  readonly rules: Rules;
}

export interface Said {
  readonly decision: Decision;
  readonly stage: number;
  readonly why: string;
  /** The rotor stands still first. */
  readonly standing: boolean;
  /** Nothing of the run-in goes on before the cause is found, or the run-in is limited to a lower stage. */
  readonly ends: boolean;
  /** Where it ends: the highest stage that a limited run-in may go to; 0 where there is none. */
  readonly most?: number;
  readonly settled: boolean;
  /** It hissed too long: seals, beads and cage are to be looked at. */
  readonly hissed: boolean;
}

export const say = (decision: Decision, stage: number, why: string, more: Partial<Said> = {}): Said => ({
  decision,
  stage,
  why,
  standing: false,
  ends: false,
  settled: false,
  hissed: false,
  ...more,
});

export interface Verdict extends Said {
  readonly heading: Estimate | undefined;
  readonly headingTop: Estimate | undefined;
  /** degC at which it has cooled, where it stands first. */
  readonly coolTo: number | undefined;
  /** Minutes until the next reading is due. */
  readonly nextReading: number;
  /** The same where its speed stays as it is, since the other bearing holds. */
  readonly stayReading: number;
  /** degC of the next reading if its speed stays; undefined before the first. */
  readonly expected: Estimate | undefined;
  /** Numbers of the readings at a stage that the readings before them had not opened. */
  readonly ahead: readonly number[];
  /** The last reading came this many minutes after it was due. */
  readonly late: number;
  readonly warnings: readonly string[];
  /** Slow time constant, min. */
  readonly timeConstant: Estimate | undefined;
}

/** Two standard deviations: about one in forty lies beyond, on each side. Decisions keep to it. */
export const sure = 2;

/**
 * What is told of an estimate, degC. Measured on rotors of three simulators that end below the limit: the truth lies half a
 * standard deviation lower, since grease goes on working itself in, and 94 to 98 in 100 lie within one more to each side.
 * Decisions take the estimate itself and two standard deviations: they err towards hot. Friction that runs away has no end
 * to tell of.
 */
export const shown = ({ mean, sd }: Estimate): { readonly value: number; readonly plusMinus: number } => ({
  value: mean - 0.5 * sd,
  plusMinus: Math.max(1, sd),
});

/** 44 ± 1 °C */
export function headingWords(e: Estimate): string {
  const { value, plusMinus } = shown(e);
  return value > 200 ? 'far over 200 °C' : `${Math.round(value)} ± ${Math.max(1, Math.round(plusMinus))} °C`;
}
