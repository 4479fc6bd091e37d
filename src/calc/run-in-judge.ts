/** What the judgement of a log says, kept for the log that grows by a reading. */
import { RunInJudgement } from './run-in-judgement.js';
import type { Plan, Reading, Verdict } from './run-in-said.js';

/** Logs that were judged last, with the judgement as it stood after their last reading: a log that grew goes on there. */
const lately: { readonly plan: string; readonly read: readonly Reading[]; readonly judgement: RunInJudgement }[] = [];
/** Two bearings, and a value that is tried out for each. */
const mostLately = 4;

/** What the judgement of all readings in their order says. */
export function judge(readings: readonly Reading[], plan: Plan): Verdict {
  const same = JSON.stringify(plan);
  const at = lately.findIndex(
    (l) => l.plan === same && l.read.length <= readings.length && l.read.every((r, i) => alike(r, readings[i]!)),
  );
  const [found] = at < 0 ? [] : lately.splice(at, 1);
  const going = found ?? { plan: same, read: [], judgement: new RunInJudgement(plan) };
  for (let i = going.read.length; i < readings.length; i++) going.judgement.add(readings[i]!, i + 1);
  lately.unshift({ ...going, read: readings });
  lately.length = Math.min(lately.length, mostLately);
  const { ahead, warnings, ...verdict } = going.judgement.verdict();
  return { ...verdict, ahead: [...ahead], warnings: [...warnings] };
}

const alike = (a: Reading, b: Reading): boolean =>
  a.stage === b.stage && a.minutes === b.minutes && a.temp === b.temp && a.sound === b.sound && a.other === b.other;
