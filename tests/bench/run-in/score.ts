/** Runs in drawn rotors by the rules of the guide and tells what came of them. */
import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { RunInJudgement } from '../../../src/calc/run-in-judgement.js';
import type { Plan, Rules } from '../../../src/calc/run-in-said.js';
import { randomOf } from '../../../src/simulator/random.js';
import { type Advice, type Best, best, type Ended, follow, type Guide } from './crew.js';
import { type Case, caseOf, type Simulator, showsOf } from './machines.js';

export const limit = 70;
/** A healthy rotor ends this far below the limit, the near-limit of the rules and what a thermometer is off; K. */
const clear = 6;

function rules(): Rules {
  const table = parse(readFileSync('procedures/tables/run-in-rules.yaml', 'utf8')) as {
    rows: { id: string; value: number }[];
  };
  const rule = (id: string): number => table.rows.find((row) => row.id === id)?.value ?? Number.NaN;
  return {
    leastStage: rule('least-stage'),
    settleWindow: rule('settle-window'),
    settleSpan: rule('settle-span'),
    equilibrium: rule('equilibrium'),
    leastLast: rule('least-last'),
    coolMargin: rule('cool-margin'),
    nearLimit: rule('near-limit'),
    longestHiss: rule('longest-hiss'),
    apartWatch: rule('apart-watch'),
    apartStop: rule('apart-stop'),
    longestBlocked: rule('longest-blocked'),
    mostBackOffs: rule('most-back-offs'),
    longestGap: rule('longest-gap'),
    rapidRise: rule('rapid-rise'),
    rapidTime: rule('rapid-time'),
    stageRise: rule('stage-rise'),
  };
}
const now = rules();

const stagesOf = (c: Case): number[] =>
  Array.from({ length: c.machine.stages }, (_, i) => (c.machine.top * (i + 1)) / c.machine.stages);

/** The worse of two bearings decides, as in the procedure. */
const order = ['stop', 'back-off', 'hold', 'next', 'complete'] as const;
function worse(a: Advice, b: Advice): Advice {
  const first = order.indexOf(a.decision) <= order.indexOf(b.decision) ? a : b;
  // Where one of them holds, the other stays too.
  const due = (x: Advice): number | undefined => (first.decision === 'hold' ? x.stayReading : x.nextReading);
  const standing = [a, b].map((x) => x.standing && (x.decision !== 'next' || first.decision === 'next'));
  const rests = first.decision === 'next' && standing.includes(true);
  const dues = [a, b].flatMap((x, i) => (rests && !standing[i] ? [] : [due(x)]));
  return {
    ...first,
    decision: first.decision,
    stage: Math.min(a.stage, b.stage),
    // A rest before the next stage waits until both are ready for it.
    standing: standing.includes(true),
    ends: a.ends || b.ends,
    ...(dues.includes(undefined) ? {} : { nextReading: Math.min(...dues.flatMap((d) => d ?? [])) }),
  };
}

export function planOf(c: Case): Plan {
  const stages = stagesOf(c);
  // The room is read to a whole degree.
  return { stages, upTo: stages.length, limit, room: Math.round(c.machine.room), rules: now };
}

export function guideOf(c: Case): Guide {
  const plan = planOf(c);
  const judges = [new RunInJudgement(plan), new RunInJudgement(plan)] as const;
  return (rows) => {
    const r = rows[rows.length - 1];
    const one = (i: 0 | 1): Advice => {
      if (r) judges[i].add({ ...r, sound: 'smooth', temp: r.temps[i], other: r.temps[1 - i] ?? 0 }, rows.length);
      return judges[i].verdict();
    };
    return worse(one(0), one(1));
  };
}

export type Kind = 'healthy' | 'spiky' | 'hard spike' | 'borderline' | 'bad';

/** By what truly comes, not by what was drawn. */
export function kindOf(truth: Best, smooth: number): Kind {
  if (truth.end > limit) return 'bad';
  if (truth.end > limit - clear) return 'borderline';
  if (truth.minutes === undefined || truth.hottest > limit - clear) return 'hard spike';
  return smooth >= 5 ? 'spiky' : 'healthy';
}

export interface Scored {
  readonly case: Case;
  readonly kind: Kind;
  readonly best: Best;
  readonly ended: Ended;
}

export function score(simulator: Simulator, seed: number): Scored {
  const c = caseOf(simulator, seed);
  const known = best(c.machine, limit);
  const random = randomOf(seed * 7 + 13);
  const ended = follow(c.machine, guideOf(c), c.habit, random, showsOf(c.habit, random));
  return { case: c, best: known, kind: kindOf(known, known.spike), ended };
}
