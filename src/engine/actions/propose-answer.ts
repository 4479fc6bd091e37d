/** An answer turned into entries: what was given, and what the brisk pace adds to it. */
import { closest } from 'fastest-levenshtein';
import { kindOf, readAnswer } from '../../procedure/questions/index.js';
import type { Bounds } from '../../procedure/questions/kind.js';
import type { Question } from '../../procedure/schema.js';
import type { Draft } from '../journal/entry.js';
import { slot } from '../journal/ledger.js';
import { raisedAt } from '../journal/ledger-shape.js';
import { certainStops } from '../state/certain-stop.js';
import { withDrafts } from '../state/impact.js';
import { currencyClash, gateSentence, notNow } from '../state/refusals.js';
import type { State } from '../state/state.js';
import { figuresOf, type StepView } from '../steps/board.js';
import { fillIn, suggestionOf } from '../values/texts.js';
import { type Action, accept, type Proposal, refuse } from './action.js';
import { hidesStop } from './closing.js';

export const questionOf = (state: State, { step, place }: StepView, key: string): Question | string => {
  const q = step.ask?.find((a) => a.key === key);
  if (q) return { ...q, label: fillIn(state.values, q.label, place) };
  const keys = (step.ask ?? []).map((a) => a.key);
  return keys.length
    ? `Step “${step.id}” asks no “${key.slice(0, 60)}”; did you mean “${closest(key, keys)}”?`
    : `Step “${step.id}” asks nothing, so “${key.slice(0, 60)}” has no place in it.`;
};

export function answer(
  state: State,
  view: StepView,
  action: Extract<Action, { do: 'answer' | 'predict' }>,
  by: string,
): Proposal {
  const q = questionOf(state, view, action.key);
  if (typeof q === 'string') return refuse(q);
  if (q.when && state.values.holds(q.when, view.place) === false)
    return refuse(`“${q.label}” does not apply here as the answers stand; leave ${q.key} out.`);
  const most = view.step.repeat?.most ?? Number.POSITIVE_INFINITY;
  if (view.status === 'open' && state.values.completeRows(view.step.id, view.place).length >= most)
    return refuse(`“${view.step.title}” has its ${most} rows and is not complete; stop and find out why.`);
  const expected = view.question;
  const again = view.status === 'stopped' || view.status === 'reopened';
  const mayCome = again || q.key === expected?.key || !answeredHere(state, view, q.key);
  if (!mayCome) return refuse(`“${q.label}” is answered already; correct it instead, with a reason.`);
  const read = readAnswer(q, action.text, state.model.tables, boundsOf(state, q, view.place));
  if (!read.ok) return refuse(read.message);
  const clash = currencyClash(state, q.key, view.place, read.typed);
  if (clash) return refuse(clash);
  const mistaken = q.kind === 'choice' && q.options.some((o) => o.takes_back && o.value === read.value);
  const report = mistaken ? untouchedReport(state, view) : undefined;
  if (report) return accept({ kind: 'undo', of: report.seq, by });
  const draft: Draft = {
    kind: 'answer',
    step: view.step.id,
    place: view.place,
    by,
    key: q.key,
    value: read.value,
    typed: read.typed,
    plusMinus: read.plusMinus,
    way: action.way,
    figures: view.step.decision ? figuresOf(state.values, view.step, view.place) : undefined,
  };
  // A danger is told at once: who doubts the value corrects it once the machine is off.
  const unusual = read.unusual !== undefined && stopsNow(state, view, draft) ? undefined : read.unusual;
  const given = accept(draft, unusual);
  // What is answered for the first time hides nothing that was seen.
  const hidden = given.ok && view.ledger?.answers.has(q.key) && !view.step.repeat && hidesStop(state, given.drafts);
  if (hidden) return refuse(hidden);
  return withDone(state, view, q.filled ? given : filledIn(state, view, given, by), by);
}

/** The report that brought this step; undefined once anything that it reopened was done again: that was opened since, and stays so. */
function untouchedReport({ model, ledger }: State, { step, place }: StepView): { readonly seq: number } | undefined {
  const report = step.branch ? raisedAt(model, ledger.raised, step.branch, place).at(-1) : undefined;
  const own = slot(step.id, place);
  const again = [...ledger.reopened].some(
    ([id, seq]) => seq === report?.seq && id !== own && ledger.steps.get(id)?.last,
  );
  return again ? undefined : report;
}

/** True when a dangerous step is stopped by this answer, whatever comes behind it, and nobody may overrule that. */
function stopsNow(state: State, { step, place, gates }: StepView, draft: Draft): boolean {
  if (!step.hazard) return false;
  const after = withDrafts(state, [draft]);
  const then = after.board.own(step, place);
  const held = [...then.gates.map((g) => g.gate), ...certainStops(after, then).map((s) => s.gate)];
  return held.some((g) => g.overrule === 'never' && !gates.some((before) => before.gate === g));
}

/** True when it was answered at this step, in a log in the row that is not complete yet. */
function answeredHere(state: State, view: StepView, key: string): boolean {
  const { step, place, ledger } = view;
  if (!ledger) return false;
  if (!step.repeat) return ledger.answers.has(key);
  return state.values.completeRows(step.id, place).length < ledger.rows.length && ledger.rows.at(-1)!.has(key);
}

/** In the brisk pace: with the last answer that has to be asked, what is due is filled in. */
function filledIn(state: State, { step, place }: StepView, given: Proposal, by: string): Proposal {
  if (!given.ok || state.ledger.pace !== 'brisk' || !step.ask?.some((q) => q.filled)) return given;
  let drafts = given.drafts;
  for (const _ of step.ask) {
    const now = withDrafts(state, drafts);
    const view = now.view(step.id, place)!;
    const q = view.question;
    if (!q?.filled) break;
    // A new row is nothing to be filled in yet.
    if (step.repeat && now.values.completeRows(step.id, place).length === view.ledger!.rows.length) break;
    const text = suggestionOf(now.values, q, place);
    if (text === undefined) break;
    const next = answer(now, view, { do: 'answer', step: step.id, place, key: q.key, text }, by);
    if (!next.ok || next.unusual) break;
    drafts = [...drafts, ...next.drafts.map((d) => ({ ...d, joined: true as const }))];
  }
  return { ...given, drafts };
}

/** In the brisk pace the last answer says that the work is done as well, where the procedure says so. */
function withDone(state: State, { step, place, status }: StepView, given: Proposal, by: string): Proposal {
  if (!given.ok || state.ledger.pace !== 'brisk' || !step.says_done || status === 'reopened') return given;
  const now = withDrafts(state, given.drafts);
  if (now.view(step.id, place)!.wants !== 'confirm') return given;
  const done: Draft = {
    kind: 'done',
    step: step.id,
    place,
    by,
    figures: figuresOf(now.values, step, place),
    joined: true,
  };
  return { ...given, drafts: [...given.drafts, done] };
}

/** A place at which the same step was answered, so that its answers can be taken here; the latest one. */
export function alikeAt(state: State, view: StepView): string | undefined {
  const { step, place, ledger } = view;
  if (!step.alike || view.wants !== 'question' || (ledger?.answers.size ?? 0) > 0) return undefined;
  const done = state.views.filter(
    (v) => v.step === step && v.place !== place && (v.status === 'done' || v.status === 'waiting'),
  );
  return done.sort((a, b) => b.ledger!.seq - a.ledger!.seq)[0]?.place;
}

export function alike(state: State, view: StepView, as: string, by: string): Proposal {
  const { step, place } = view;
  const other = state.view(step.id, as);
  if (!step.alike) return refuse(`“${step.title}” is looked at anew at each place; answer it here.`);
  if (!other || as === place || (other.status !== 'done' && other.status !== 'waiting'))
    return refuse(`“${step.title}” is not done at ${as.slice(0, 60)}; answer it here.`);
  if (view.wants !== 'question') return refuse(view.wants === 'gate' ? gateSentence(state, view) : notNow(state, view));
  const given = other.ledger!.answers;
  return takeOver(state, view, ({ key }) => given.get(key)?.typed ?? given.get(key)?.value, by);
}

/** What the shop has at hand, as an earlier job knew it: each question that is marked so, as far as they follow. */
export function fromShelf(
  state: State,
  view: StepView,
  { texts, from }: Pick<Extract<Action, { do: 'shelf' }>, 'texts' | 'from'>,
  by: string,
): Proposal {
  if (view.wants !== 'question') return refuse(view.wants === 'gate' ? gateSentence(state, view) : notNow(state, view));
  const taken = takeOver(state, view, (q) => (q.shelf ? texts[q.key] : undefined), by);
  return taken.ok ? { ...taken, drafts: taken.drafts.map((d) => (d.kind === 'answer' ? { ...d, from } : d)) } : taken;
}

/** The questions of a step that are open, in their order and as long as each has a text; one key takes them all back. */
function takeOver(state: State, { step, place }: StepView, textOf: (q: Question) => unknown, by: string): Proposal {
  let drafts: readonly Draft[] = [];
  for (const _ of step.ask ?? []) {
    const now = drafts.length ? withDrafts(state, drafts) : state;
    const here = now.view(step.id, place)!;
    const q = here.question;
    const text = q && textOf(q);
    if (!q || text === undefined) break;
    const next = answer(now, here, { do: 'answer', step: step.id, place, key: q.key, text }, by);
    if (!next.ok) return next;
    drafts = [...drafts, ...next.drafts.map((d, i) => (drafts.length + i ? { ...d, joined: true as const } : d))];
  }
  return drafts.length ? { ok: true, drafts, unusual: undefined } : refuse(`“${step.title}” has nothing to take over.`);
}

/** What the job holds against an answer. */
export function boundsOf(state: State, q: Question, place: string): Bounds {
  const number = (text: string | undefined): number | undefined => {
    const v = text === undefined ? undefined : state.values.evaluate(text, place);
    return v?.known && typeof v.value === 'number' ? v.value : undefined;
  };
  const { counted, most, wanted, near } = kindOf(q).bounds?.(q) ?? {};
  return { counted: number(counted), most: number(most), wanted: number(wanted), near: number(near) };
}
