/** The readings of a job, and by which of them a stop may be put right. Pure; by ids alone, never by words. */
import type { Question } from '../../procedure/questions/index.js';
import type { Gate, Step } from '../../procedure/schema.js';
import type { Given } from '../journal/ledger-shape.js';
import { keysNamedIn } from '../values/texts.js';
import { type Derivation, derivationsFor } from './derivation.js';
import type { State } from './state.js';

export interface CorrectableReading {
  readonly step: Step;
  readonly place: string;
  readonly question: Question;
  readonly given: Given;
}

/** Every answer that holds now, the newest first. */
export function readingsOf(state: State): CorrectableReading[] {
  const out = new Map<number, CorrectableReading>();
  for (const [id, ledger] of state.ledger.steps) {
    const [stepId = '', place = 'job'] = id.split('@');
    const step = state.model.steps.get(stepId);
    if (!step) continue;
    for (const [key, given] of [...ledger.rows.flatMap((r) => [...r]), ...ledger.answers]) {
      const question = step.ask?.find((q) => q.key === key);
      if (question) out.set(given.first.seq, { step, place, question, given });
    }
  }
  return [...out.values()].sort((a, b) => b.given.entry.seq - a.given.entry.seq);
}

export interface Correctable {
  readonly readings: readonly CorrectableReading[];
  /** So many of them, from the first on, are named by the gate or by its condition. */
  readonly named: number;
  /** So many of them, from the first on, are what the gate says is corrected; left out: it says nothing of it. */
  readonly chosen?: number;
}

/**
 * Readings by which a gate may be put right, seen from one place: those that it names, then those that its condition
 * reads, then what both were worked out from, the nearest first.
 * @param step the one that it stops: of several of its own answers the newest stands first
 */
export function correctable(state: State, gate: Gate, place: string, step?: Step): Correctable {
  const { model, values } = state;
  // What is not asked any more decides nothing.
  const all = readingsOf(state).filter((r) => !r.question.when || values.holds(r.question.when, r.place) !== false);
  const of = derivationsFor(state);
  const out: CorrectableReading[] = [];
  const seen = new Set<Derivation>();
  const add = (d: Derivation): boolean => {
    const { from } = model.keys.get(d.key)!;
    const key = 'question' in from ? from.question?.key : undefined;
    // The newest of a log comes first.
    const hit = key && all.find((r) => r.question.key === key && r.place === d.place);
    if (hit && !out.includes(hit)) out.push(hit);
    return hit !== undefined;
  };
  // It did not stop yet by what was answered before the last of them.
  const newestFirst = (adds: () => void): void => {
    const before = out.length;
    adds();
    const met = out.splice(before);
    const own = met.filter((r) => r.step === step && r.place === place);
    out.push(...own.sort((a, b) => b.given.entry.seq - a.given.entry.seq), ...met.filter((r) => !own.includes(r)));
  };
  const visible = (key: string): boolean => values.find(key, place) !== undefined;
  const below = (layer: readonly Derivation[], meet: (d: Derivation) => void = add): void => {
    for (let now = [...new Set(layer)]; now.length; ) {
      for (const d of now) seen.add(d);
      newestFirst(() => now.forEach((d) => meet(d)));
      now = [...new Set(now.flatMap((d) => d.inputs))].filter((d) => !seen.has(d));
    }
  };
  const named = (gate.correct ?? []).filter(visible).map((key) => of(key, place));
  // What the gate names stands first, in its order; a figure by what it was worked out from.
  for (const d of named) if (!add(d)) below([d]);
  const chosen = out.length;
  const own = model
    .expression(gate.must)
    .names.filter(visible)
    .map((key) => of(key, place));
  newestFirst(() => own.forEach(add));
  const firm = out.length;
  const shown = keysNamedIn(gate.say).filter(visible);
  below([...named, ...own, ...shown.map((key) => of(key, place))]);
  // What says which places the job has is no figure that was misread: it is changed only where it is named.
  const scope = new Set<string>();
  const conditions = model.places.flatMap((p) => (p.when ? model.expression(p.when).names : []));
  seen.clear();
  below(
    conditions.filter((key) => values.find(key, 'job') !== undefined).map((key) => of(key, 'job')),
    (d) => scope.add(`${d.key}@${d.place}`),
  );
  const kept = out.filter((r, i) => i < firm || !scope.has(`${r.question.key}@${r.place}`));
  return { readings: kept, named: firm, ...(gate.correct ? { chosen } : {}) };
}
