/** Steps that nobody ever sees, gates that never open, and conditions on what is asked only later. */
import type { Environment } from '@marcbachmann/cel-js';
import type { Tables } from '../calc/types.js';
import type { Judge } from './judge.js';
import type { KeyInfo } from './model.js';
import type { Complain, Path } from './problem.js';
import type { Procedure, Step } from './schema.js';
import { trialFor } from './trial.js';

const change = 'Change the condition or take the part out.';
const nothing = (): boolean => false;

/** Gives the steps whose conditions hang on what is not asked by then. */
export function checkReach(
  p: Procedure,
  keys: ReadonlyMap<string, KeyInfo>,
  env: Environment,
  tables: Tables,
  judge: Pick<Judge, 'sound'>,
  complain: Complain,
): Set<Step> {
  const { can } = trialFor(keys, env, tables, judge.sound);
  const late = new Set<Step>();
  const never = (text: string | undefined): boolean => {
    if (text === undefined) return false;
    const seen = can(text, nothing);
    return seen !== undefined && !seen.true;
  };
  const both = (a: string | undefined, b: string): string => (a === undefined ? b : `(${a}) && (${b})`);
  const parts = (...texts: (string | undefined)[]): boolean => texts.every((t) => t === undefined || judge.sound(t));
  /** Keys that can't be known when this step begins (or ends, without its own). */
  const later = (step: Step, own: boolean) => {
    const here = p.steps.indexOf(step);
    return (key: string): boolean => {
      const from = keys.get(key)?.from;
      if (from?.by !== 'question') return false;
      const other = from.step;
      if (other === step) return own && !step.repeat;
      if (other.branch || step.branch || other.not_after?.includes(step.id)) return false;
      return p.steps.indexOf(other) > here;
    };
  };
  const asked = (text: string, missing: (key: string) => boolean): string => {
    const names = [...new Set(text.match(/\w+/g))].filter(missing);
    return names.length ? names.map((k) => `“${k}”`).join(' and ') : 'what it reads';
  };

  p.places.forEach((k, i) =>
    k.instances.forEach((x, j) => {
      if (never(x.when))
        complain(
          'place-never',
          ['places', i, 'instances', j, 'when'],
          `The place “${x.id}” never takes part: its condition is never true.`,
          change,
        );
    }),
  );
  (p.branches ?? []).forEach((b, i) => {
    if (never(b.when))
      complain(
        'event-never',
        ['branches', i, 'when'],
        `The branch “${b.id}” can never be raised: its condition is never true.`,
        change,
      );
  });

  p.steps.forEach((s, i) => {
    const path: Path = ['steps', i];
    const unreachable = never(s.when);
    if (unreachable)
      complain(
        'step-never',
        [...path, 'when'],
        `The step “${s.id}” can never be reached: its condition is never true.`,
        change,
      );
    const early = later(s, true);
    const start = s.when === undefined || unreachable ? undefined : can(s.when, early);
    if (s.when && start && !start.true && !start.false) {
      late.add(s);
      complain(
        'condition-asked-later',
        [...path, 'when'],
        `The condition of “${s.id}” hangs on ${asked(s.when, early)}, asked only in this step or later.`,
        'Ask it earlier, or give that question an “otherwise”.',
      );
    }
    (s.gates ?? []).forEach((g, j) => {
      const at: Path = [...path, 'gates', j];
      if (never(g.when))
        complain(
          'gate-never-counts',
          [...at, 'when'],
          `The gate “${g.id}” never counts: its condition is never true.`,
          change,
        );
      else if (never(g.must))
        complain(
          'gate-never-opens',
          [...at, 'must'],
          `The gate “${g.id}” can never open: what it asks for is never true.`,
          change,
        );
      else if (!unreachable && parts(s.when, g.when, g.must) && never(both(s.when, both(g.when, g.must))))
        complain(
          'gate-never-opens',
          [...at, 'must'],
          `The gate “${g.id}” can never open while the step applies: the two conditions exclude each other.`,
          change,
        );
      else {
        const missing = later(s, g.at === 'enter');
        const seen = can(g.must, missing);
        if (seen && !seen.true)
          complain(
            'gate-waits-for-later',
            [...at, 'must'],
            `The gate “${g.id}” waits for ${asked(g.must, missing)}, asked only ${g.at === 'enter' ? 'in this step or later' : 'later'}: it never opens.`,
            g.at === 'enter' ? 'Write “at: leave”, or ask it earlier.' : 'Ask it earlier.',
          );
      }
    });
    (s.ask ?? []).forEach((q, j) => {
      if (never(q.when))
        complain(
          'question-never',
          [...path, 'ask', j, 'when'],
          `The question “${q.key}” can never be asked: its condition is never true.`,
          change,
        );
      else if (q.when !== undefined) {
        const following = new Set((s.ask ?? []).slice(j).map((x) => x.key));
        const missing = (key: string): boolean => following.has(key) || later(s, false)(key);
        const seen = can(q.when, missing);
        if (seen && !seen.true && !seen.false) {
          late.add(s);
          complain(
            'condition-asked-later',
            [...path, 'ask', j, 'when'],
            `The condition of “${q.key}” hangs on ${asked(q.when, missing)}, asked only after it.`,
            'Ask that first.',
          );
        }
      }
    });
  });
  return late;
}
