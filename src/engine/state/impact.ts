/** What a correction (or any other entry) would do, told before it is confirmed: one state compared with another. Pure. */
import { isList } from '../../guards/guards.js';
import { type Answer, type Draft, stamped } from '../journal/entry.js';
import type { StepView } from '../steps/board.js';
import type { Value } from '../values/known.js';
import { fillIn, showKey } from '../values/texts.js';
import { stopWords } from './refusals.js';
import { type Remedy, State, type StateOptions } from './state.js';

/** The state as it would be with these entries at the end of the journal, at the time of `state`. Nothing is recorded. */
export function withDrafts(state: State, drafts: readonly Draft[], options: StateOptions = state.options): State {
  const at = new Date(state.now).toISOString();
  const seq = state.entries.length;
  const more = drafts.map((d, i) => stamped(d, seq + 1 + i, at));
  return new State(state.model, [...state.entries, ...more], state.now, { ...options, before: state });
}

export interface ChangedValue {
  readonly key: string;
  readonly place: string;
  /** Name of the place; empty for the job as a whole. */
  readonly where: string;
  readonly label: string;
  /** In words, with unit; "not known" when it is not. */
  readonly old: string;
  readonly now: string;
  readonly oldValue: Answer | undefined;
  readonly nowValue: Answer | undefined;
  /** True for figures that a step shows or rests on; those matter first. */
  readonly shown: boolean;
}
interface ChangedStep {
  readonly step: string;
  readonly place: string;
  readonly where: string;
  readonly title: string;
  /** `sign again`: a signature was given for what no longer stands. `open again`: it was done and now asks something. */
  readonly what: 'reopened' | 'needed' | 'no longer needed' | 'stopped' | 'released' | 'sign again' | 'open again';
}
interface ChangedGate {
  readonly step: string;
  readonly place: string;
  readonly where: string;
  readonly title: string;
  readonly gate: string;
  /** Its sentence, with the figures as they would be. */
  readonly say: string;
  readonly what: 'closes' | 'opens';
}
export interface Impact {
  /** Every value that changes; rows of logs are left to the log. */
  readonly values: readonly ChangedValue[];
  readonly steps: readonly ChangedStep[];
  readonly gates: readonly ChangedGate[];
  /** Physical work already done that would then rest on an old figure: with old and new figures and what to do. */
  readonly remedies: readonly Remedy[];
}

/** What further entries would do to a job. */
export function impact(state: State, drafts: readonly Draft[]): Impact {
  return impactOf(state, withDrafts(state, drafts));
}

/** Values, steps, gates and finished work in which `after` differs from `before`. */
export function impactOf(before: State, after: State): Impact {
  const had = new Set(before.remedies.map((r) => `${r.view.step.id}@${r.view.place}:${r.text}`));
  const pairs = after.views.map((v): [StepView, StepView] => [
    before.board.own(v.step, v.place),
    after.board.own(v.step, v.place),
  ]);
  return {
    values: changedValues(before, after),
    steps: pairs.flatMap(([old, now]) => changedStep(after, old, now)),
    gates: pairs.flatMap(([old, now]) => changedGates(before, after, old, now)),
    remedies: after.remedies.filter((r) => !had.has(`${r.view.step.id}@${r.view.place}:${r.text}`)),
  };
}

const whereOf = (state: State, place: string): string => (place === 'job' ? '' : state.values.placeLabel(place));

const complete = (v: StepView): boolean => v.status === 'done' || v.status === 'waiting';

/** The step looked at on its own: that something before it is open again is no change of its own. */
function changedStep(after: State, old: StepView, now: StepView): ChangedStep[] {
  const what = ((): ChangedStep['what'] | undefined => {
    if (now.status === 'not-needed') return old.status === 'not-needed' ? undefined : 'no longer needed';
    if (old.status === 'not-needed') return 'needed';
    if (now.status === 'reopened') return old.status === 'reopened' ? undefined : 'reopened';
    if (now.status === 'stopped') return old.status === 'stopped' ? undefined : 'stopped';
    if (old.status === 'stopped') return 'released';
    if (!complete(old) || complete(now)) return undefined;
    return now.wants === 'sign' ? 'sign again' : 'open again';
  })();
  if (!what) return [];
  return [{ step: now.step.id, place: now.place, where: whereOf(after, now.place), title: now.step.title, what }];
}

/** A gate of work not begun is no news: it is met when its step comes. */
function changedGates(before: State, after: State, old: StepView, now: StepView): ChangedGate[] {
  const gates = (state: State, holding: StepView, other: StepView, what: ChangedGate['what']): ChangedGate[] =>
    holding.gates
      .filter((g) => !other.gates.some((o) => o.gate.id === g.gate.id))
      .map((g) => ({
        step: now.step.id,
        place: now.place,
        where: whereOf(state, now.place),
        title: now.step.title,
        gate: g.gate.id,
        say: stopWords(state, g, now.place),
        what,
      }));
  return [
    ...gates(after, now, old, 'closes'),
    ...(now.status === 'not-needed' ? [] : gates(before, old, now, 'opens')),
  ];
}

function same(a: Value, b: Value): boolean {
  if (!a.known || !b.known) return a.known === b.known;
  return alike(a.value, b.value);
}

function alike(a: Answer, b: Answer | undefined): boolean {
  if (typeof a === 'number' && typeof b === 'number')
    return Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), Math.abs(b));
  if (isList(a) && isList(b)) return a.length === b.length && a.every((x, i) => alike(x, b[i]));
  return a === b;
}

function changedValues(before: State, after: State): ChangedValue[] {
  const { model } = before;
  const matter = new Set(model.procedure.steps.flatMap((s) => [...(s.show ?? []), ...(s.rests_on ?? [])]));
  const out: ChangedValue[] = [];
  for (const [key, info] of model.keys) {
    if (info.from.by === 'rows') continue;
    for (const p of model.places) {
      if (p.kind !== info.at || !(before.values.takesPart(p.id) || after.values.takesPart(p.id))) continue;
      const a = before.values.get(key, p.id);
      const b = after.values.get(key, p.id);
      if (same(a, b)) continue;
      const show = (state: State, v: Value): string => (v.known ? showKey(state.values, key, p.id, true) : 'not known');
      out.push({
        key,
        place: p.id,
        where: whereOf(after, p.id),
        label: fillIn(after.values, info.label, p.id),
        old: show(before, a),
        now: show(after, b),
        oldValue: a.known ? a.value : undefined,
        nowValue: b.known ? b.value : undefined,
        shown: matter.has(key),
      });
    }
  }
  return out.sort((a, b) => Number(b.shown) - Number(a.shown));
}
