/** What a change would do, told before it is made: one state compared with another. Pure. */
import type { Answer, Draft, Entry } from './entry.js';
import { type Remedy, State } from './state.js';
import { showValue } from './texts.js';

/** The state as it would be with these entries at the end of the journal, at the time of `state`. */
export function withDrafts(state: State, drafts: readonly Draft[], options: ConstructorParameters<typeof State>[3] = {}): State {
  const at = new Date(state.now).toISOString();
  const seq = state.entries.at(-1)?.seq ?? 0;
  const more = drafts.map((d, i) => ({ ...d, seq: seq + 1 + i, at }) as Entry);
  return new State(state.model, [...state.entries, ...more], state.now, options);
}

export interface ChangedValue {
  readonly key: string;
  readonly place: string;
  readonly label: string;
  readonly old: string;
  readonly now: string;
  /** True for figures that a step shows or rests on; those matter first. */
  readonly shown: boolean;
}
export interface ChangedStep {
  readonly step: string;
  readonly place: string;
  readonly title: string;
  readonly what: 'reopened' | 'needed' | 'no longer needed' | 'stopped' | 'released';
}
export interface Impact {
  readonly values: readonly ChangedValue[];
  readonly steps: readonly ChangedStep[];
  /** Physical work that would then rest on an old figure. */
  readonly remedies: readonly Remedy[];
}

function same(a: Answer, b: Answer): boolean {
  if (typeof a === 'number' && typeof b === 'number') return Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(a));
  if (Array.isArray(a) && Array.isArray(b)) return a.length === b.length && a.every((x, i) => same(x as Answer, b[i] as Answer));
  return a === b;
}

/** Values, steps and finished work in which `after` differs from `before`. */
export function impactOf(before: State, after: State): Impact {
  const { model } = before;
  const matter = new Set(model.procedure.steps.flatMap((s) => [...(s.show ?? []), ...(s.rests_on ?? [])]));
  const values: ChangedValue[] = [];
  for (const [key, info] of model.keys)
    for (const p of model.places) {
      if (p.kind !== info.at || !before.values.takesPart(p.id)) continue;
      const a = before.values.get(key, p.id);
      const b = after.values.get(key, p.id);
      if (!a.known && !b.known) continue;
      if (a.known && b.known && same(a.value, b.value)) continue;
      const old = a.known ? showValue(model, key, a.value) : 'not known';
      const now = b.known ? showValue(model, key, b.value) : 'not known';
      values.push({ key, place: p.id, label: info.label, old, now, shown: matter.has(key) });
    }
  values.sort((a, b) => Number(b.shown) - Number(a.shown));
  const steps: ChangedStep[] = before.views.flatMap((v): ChangedStep[] => {
    const w = after.view(v.step.id, v.place);
    if (!w || w.status === v.status) return [];
    const at = { step: v.step.id, place: v.place, title: v.step.title };
    if (w.status === 'reopened') return [{ ...at, what: 'reopened' }];
    if (w.status === 'not-needed') return [{ ...at, what: 'no longer needed' }];
    if (v.status === 'not-needed') return [{ ...at, what: 'needed' }];
    if (w.status === 'stopped') return [{ ...at, what: 'stopped' }];
    if (v.status === 'stopped') return [{ ...at, what: 'released' }];
    if (v.status === 'done' && w.status !== 'waiting') return [{ ...at, what: 'reopened' }];
    return [];
  });
  const had = new Set(before.remedies.map((r) => `${r.view.step.id}@${r.view.place}:${r.text}`));
  const remedies = after.remedies.filter((r) => !had.has(`${r.view.step.id}@${r.view.place}:${r.text}`));
  return { values, steps, remedies };
}
