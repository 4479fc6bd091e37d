/** What is said at the last stage: complete at thermal equilibrium and clear of the limit. Temperatures degC, times min. */
import type { Estimate } from './run-in-fit.js';
import { headingWords, type Plan, type Reading, type Said, say, sure } from './run-in-said.js';
import { figure } from './spec.js';

/** A stage that opens no further one, though nothing is sure, is waited for this many times as long. */
export const patience = 3;

/** What is left to do where it ends; `most`: the highest stage that a limited run-in may go to, 0 for none. */
export const endWords = (most: number): string =>
  `Stop and find the cause - too much grease, preload, a seal that rubs, a fan that does not blow${most >= 1 ? ' - or end it as a limited run-in at a lower stage' : ''}`;

interface AtLast {
  /** Minutes at it. */
  readonly since: number;
  /** K/min */
  readonly rate: Estimate;
  readonly heading: Estimate;
  /** It stood before: cold oil drags more than it will, so what it heads for falls as it warms up. */
  readonly cold: boolean;
}

/** What is said, or why the run-in ends here. */
export function atLastStage(
  r: Reading,
  { limit, rules, stages }: Plan,
  { since, rate, heading, cold }: AtLast,
): Said | string {
  // Near the limit a slow drift could still end over it: half as much, by the estimate alone, since readings tell it no better.
  const perHour = heading.mean > limit - 2 * rules.nearLimit ? rules.equilibrium / 2 : rules.equilibrium;
  const drift = 60 * Math.abs(rate.mean);
  const settled = since >= rules.leastLast - 0.5 && drift <= perHour && drift + 30 * rate.sd <= rules.equilibrium;
  const cool = heading.mean <= limit - rules.nearLimit && heading.mean + sure * heading.sd <= limit;
  const heads = `it heads for ${headingWords(heading)}`;
  if (settled && cool)
    return say(
      'complete',
      r.stage,
      `settled at ${figure(r.temp)} °C at ${figure(stages[r.stage - 1] ?? 0)} rpm: it moves by ${perHour} K an hour at most and heads for ${headingWords(heading)}`,
      { settled: true },
    );
  const surely = heading.mean - heading.sd > limit - rules.nearLimit;
  if (!cool && since >= (cold ? 2 * patience : surely ? 1 : patience) * rules.longestBlocked) return heads;
  if (!settled)
    return say(
      'hold',
      r.stage,
      since < rules.leastLast
        ? `at the last stage for ${figure(Math.floor(since))} of at least ${rules.leastLast} min`
        : `not settled: it moves by ${figure(Math.abs(rate.mean) * 60, 2)} ± ${figure(rate.sd * 60, 2)} K an hour, ${perHour} K is the most`,
    );
  return say('hold', r.stage, `${heads}, too near ${figure(limit)} °C: wait`, { settled: true });
}
