/** Every prediction of a job, judged by what the guide knew when it was made. Pure. */
import type { Entry } from '../engine/journal/entry.js';
import type { State } from '../engine/state/state.js';
import { fillIn, predictionWords, showValue } from '../engine/values/texts.js';
import { expectedOf, whenSaid, workedSolution } from './expected.js';
import { isOwn } from './filled.js';
import { type Expected, judgePrediction, nearness, type PredictionJudgement } from './judge-prediction.js';
import type { Typed } from './rotor-file.js';
import { phaseOf } from './stands.js';
import { trueState } from './truth.js';

type Predicted = Extract<Entry, { kind: 'predict' }>;

export interface JudgedPrediction extends PredictionJudgement {
  readonly step: string;
  /** Order of its phase in the work, from 0. */
  readonly phase: number;
  readonly key: string;
  readonly place: string;
  readonly title: string;
  readonly label: string;
  readonly where: string;
  readonly typed: string;
  /** The figure with its uncertainty; on a practice rotor by what the rotor really is. */
  readonly actual: string;
  readonly worked: readonly string[];
  /** Where readings were false: what the guide said by them, and how the prediction stood to that. */
  readonly byFalseReadings?: {
    readonly guide: string;
    readonly verdict: PredictionJudgement['verdict'];
  };
  /** Said once more after the answer had been on the screen: it does not count. */
  readonly again?: true;
  /** It was taken back later; what was said first counts all the same. */
  readonly takenBack?: true;
}

/** @param truths what is true where a reading was not, see truth.ts */
export function judgedPredictions(state: State, truths: ReadonlyMap<string, Typed> = new Map()): JudgedPrediction[] {
  const said = new Set<string>();
  return state.entries.flatMap((e, i) => {
    if (e.kind !== 'predict' || !isOwn(state, e)) return [];
    const slot = `${e.key}@${e.place}`;
    const again = said.has(slot);
    said.add(slot);
    const takenBack = state.takenBack(e);
    // Taken back and not said again: it is still what was said before the answer was seen.
    return [
      {
        ...judgeEntry(state, e, i, truths),
        ...(again ? { again, verdict: 'not-judged' as const } : {}),
        ...(takenBack ? { takenBack } : {}),
      },
    ];
  });
}

function judgeEntry(state: State, e: Predicted, index: number, truths: ReadonlyMap<string, Typed>): JudgedPrediction {
  const typed = predictionWords(state.model, e);
  const then = whenSaid(state, index, e);
  const guide = expectedOf(then, e.key, e.place);
  const real = trueState(then, truths);
  const truth = real && expectedOf(real, e.key, e.place);
  const misled = truth?.value !== undefined && guide.value !== undefined && !sameFigure(truth, guide);
  const expected = misled ? truth : guide;
  const words = (x: typeof guide): string =>
    x.value === undefined ? '' : showValue(state.model, e.key, x.value, x.plusMinus);
  const step = state.model.steps.get(e.step);
  const byGuide = judgePrediction(typed, guide);
  const byTruth = judgePrediction(typed, expected);
  // Worked out rightly from a false reading: the slip is the reading, not the working.
  const sound = misled && byGuide.verdict !== 'wrong';
  const { slip, ...unslipped } = byTruth;
  return {
    ...unslipped,
    ...(slip && !sound ? { slip } : {}),
    step: e.step,
    phase: phaseOf(state, e.step),
    key: e.key,
    place: e.place,
    title: fillIn(then.values, step?.title ?? e.step, e.place),
    label: fillIn(then.values, state.model.keys.get(e.key)?.label ?? e.key, e.place),
    where: e.place === 'job' ? '' : state.values.placeLabel(e.place),
    typed,
    actual: words(expected),
    worked: workedSolution(misled && real ? real : then, e.key, e.place),
    ...(misled ? { byFalseReadings: { guide: words(guide), verdict: byGuide.verdict } } : {}),
  };
}

/** A figure moved by less than it is known is the same figure. */
export function sameFigure(a: Expected, b: Expected): boolean {
  if (typeof a.value === 'number' && typeof b.value === 'number')
    return (
      nearness(a.value, b.value, typeof b.plusMinus === 'number' ? b.plusMinus : undefined, b.quantity) === 'right'
    );
  return JSON.stringify(a.value) === JSON.stringify(b.value);
}
