/**
 * The state as it is told to others. The work is led by what counts until somebody was asked: a ball is no ceramic one until
 * it is proven. On a record such a value would read as a finding. Pure.
 */
import type { Answer } from '../journal/entry.js';
import { slot } from '../journal/ledger.js';
import { raisedAt } from '../journal/ledger-shape.js';
import { readsOf } from '../values/reads.js';
import { Values } from '../values/values.js';
import type { State } from './state.js';

/** True where a branch has steps at this place that were not called for. */
const uncalled = ({ model, ledger }: State, branch: string | undefined, place: string): boolean =>
  branch !== undefined && raisedAt(model, ledger.raised, branch, place).length === 0;

/**
 * Steps at their places that were never done, with a value that counts meanwhile. Of a step that is not called for it counts
 * for good, and so does all that is worked out with it.
 */
function presumed(state: State): ReadonlySet<string> {
  const { model, ledger } = state;
  const out = new Set<string>();
  for (const step of model.procedure.steps)
    if (step.ask?.some((q) => q.otherwise !== undefined))
      for (const p of model.places) {
        const id = slot(step.id, p.id);
        if (p.kind !== step.at || uncalled(state, step.branch, p.id) || ledger.steps.get(id)?.done) continue;
        if (state.view(step.id, p.id)!.status !== 'not-needed') out.add(id);
      }
  return out;
}

const made = new WeakMap<State, State>();

/** The same state, with nothing presumed of a step that was not reached. */
export function found(state: State): State {
  const known = made.get(state);
  if (known) return known;
  const { model, ledger, options } = state;
  const slots = presumed(state);
  const before = { values: state.values, touched: readsOf(model, slots), spent: false };
  const values = new Values(model, ledger, options.trial, options.earlier, before, slots);
  const own: State = Object.create(state, { values: { value: values } });
  made.set(state, own).set(own, own);
  return own;
}

export type Lacks = 'not asked yet' | 'does not apply' | 'unknown';

/** Why a value is not known at a place; of one that is worked out, why those are not that it needs. */
export function lacksOf(state: State, key: string, place: string, path: readonly string[] = []): Lacks {
  const { values, model } = state;
  const address = values.find(key, place);
  if (!address || path.includes(key)) return 'unknown';
  const { home } = address;
  const { from } = address.info;
  if (from.by === 'question' || from.by === 'rows') {
    const view = state.view(from.step.id, home);
    if (!view || view.status === 'not-needed') return 'does not apply';
    const when = from.question?.when;
    if (when !== undefined && values.holds(when, home) === false) return 'does not apply';
    // A list of a log is not known only where one of its rows lacks the reading.
    const left = from.by === 'rows' || view.ledger?.answers.has(from.question.key);
    return view.ledger?.done || left ? 'unknown' : 'not asked yet';
  }
  const why = (rules: readonly (string | undefined)[], at: string): Lacks[] =>
    rules
      .flatMap((rule) => (rule === undefined ? [] : values.evaluate(rule, at).names))
      .filter((n) => model.keys.has(n) && !values.get(n, at).known)
      .map((n) => lacksOf(state, n, at, [...path, key]));
  const all = ((): Lacks[] => {
    if (from.by === 'calc') {
      const { when, with: given } = from.use;
      if (when !== undefined && values.holds(when, home) !== true)
        return values.holds(when, home) === false ? ['does not apply'] : why([when], home);
      return why(Object.values(given), home);
    }
    if (from.by !== 'fact') return [];
    const { fact } = from;
    if ('over' in fact)
      return values.below(fact.over, home).flatMap((p) => why([fact.all, fact.any, fact.count, fact.list], p));
    const { when } = fact;
    if (when !== undefined && values.holds(when, home) !== true)
      return values.holds(when, home) === false ? ['does not apply'] : why([when], home);
    return why([fact.is], home);
  })();
  if (all.includes('not asked yet')) return 'not asked yet';
  return all.length === 0 || all.includes('unknown') ? 'unknown' : 'does not apply';
}

type Silence = 'nothing reported yet' | 'does not apply';

/**
 * Why a known value is no finding: it follows from nothing but that something was not reported, no row was written, or a
 * step does not apply. Undefined where anything that was answered, or a constant, makes it.
 */
export function silenceOf(state: State, key: string, place: string): Silence | undefined {
  const { values, model } = state;
  const v = values.get(key, place);
  if (!v.known) return undefined;
  const { home, info } = values.find(key, place)!;
  const { from } = info;
  if (from.by === 'event') return v.asOf === 0 ? 'nothing reported yet' : undefined;
  if (from.by === 'rows' || from.by === 'question') {
    if (from.by === 'rows' ? v.asOf > 0 : v.origin.from !== 'otherwise') return undefined;
    if (state.view(from.step.id, home)?.status === 'not-needed') return 'does not apply';
    return from.by === 'rows' || uncalled(state, from.step.branch, home) ? 'nothing reported yet' : undefined;
  }
  if (from.by !== 'fact' || !('is' in from.fact)) return undefined;
  const rule = model.expression(from.fact.is);
  const why = new Set<Silence>();
  const given: [string, Answer][] = [];
  for (const n of rule.names) {
    const silence = silenceOf(state, n, home);
    const own = values.get(n, home);
    if (silence === undefined || !own.known) continue;
    why.add(silence);
    given.push([n, own.value]);
  }
  if (!why.size || rule.run(Object.fromEntries(given)) === undefined) return undefined;
  return why.has('nothing reported yet') ? 'nothing reported yet' : 'does not apply';
}
