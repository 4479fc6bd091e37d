/**
 * The words that a practice rotor's conditions may use: every value of the procedure as seen from a place, and
 * - `way_<key>`  the way in which a reading was taken, '' when none was chosen;
 * - `overruled`  gates that were gone on against at this place, around it or below it;
 * - `done`       steps that are done there;
 * - `cut_short`  steps there whose wait was cut short and would still go on;
 * - `true_<key>` a figure as the rotor really is, whatever was typed: what a trap says of it, else what the rotor shows;
 * - `row`        of a log, the number of the reading, counted from 0.0.
 */
import type { Environment } from '@marcbachmann/cel-js';
import type { Answer } from '../engine/journal/entry.js';
import { related, slot } from '../engine/journal/ledger.js';
import type { State } from '../engine/state/state.js';
import { compile, type Expression, environmentFor } from '../procedure/expression.js';
import type { KeyInfo, Model } from '../procedure/model.js';
import { readAnswer } from '../procedure/questions/index.js';
import type { Question } from '../procedure/schema.js';
import type { Rotor } from './rotor-file.js';

const PREFIX = 'way_';
const TRUE = 'true_';

const listOf = (key: string, words: readonly string[], model: Model): KeyInfo => {
  const options = words.map((value) => ({ value, label: value }));
  const question: Question = { kind: 'series', key, label: key, options, least: 1, most: 1000 };
  return word(key, 'job', 'list<string>', question, model);
};
const word = (key: string, at: string, type: KeyInfo['type'], question: Question, model: Model): KeyInfo => ({
  key,
  at,
  type,
  label: key,
  quantity: undefined,
  unit: '',
  from: { by: 'question', step: model.procedure.steps[0]!, question },
});

/** The procedure's keys and the further ones, each with the words that it can hold. */
function rotorKeys(model: Model, rotor: Rotor): ReadonlyMap<string, KeyInfo> {
  const keys = new Map(model.keys);
  for (const step of model.procedure.steps)
    for (const q of step.ask ?? []) {
      const ways = rotor.readings.flatMap((r) => (r.key === q.key ? (r.ways ?? []) : []));
      const options = [...new Set(['', ...ways.map((w) => w.way)])].map((value) => ({ value, label: value }));
      const key = `${PREFIX}${q.key}`;
      const question: Question = { kind: 'choice', key, label: key, options };
      keys.set(key, word(key, step.at, 'string', question, model));
      const own = model.keys.get(q.key);
      if (own?.type === 'double') keys.set(`${TRUE}${q.key}`, { ...own, key: `${TRUE}${q.key}` });
    }
  const gates = model.procedure.steps.flatMap((s) => (s.gates ?? []).map((g) => g.id));
  keys.set('overruled', listOf('overruled', [...gates, 'wait'], model));
  const steps = model.procedure.steps.map((s) => s.id);
  keys.set('done', listOf('done', steps, model));
  keys.set('cut_short', listOf('cut_short', steps, model));
  keys.set('row', { ...listOf('row', [], model), type: 'double', from: { by: 'event', branch: '' } });
  return keys;
}

/** Evaluates the conditions of one rotor. Compiles each once. */
export class RotorWords {
  readonly keys: ReadonlyMap<string, KeyInfo>;
  readonly environment: Environment;
  private readonly compiled = new Map<string, Expression>();

  constructor(
    model: Model,
    private readonly rotor: Rotor,
  ) {
    this.keys = rotorKeys(model, rotor);
    this.environment = environmentFor(new Map([...this.keys].map(([n, k]) => [n, k.type])), model.tables);
  }

  /** True, false, or undefined while it is not known. */
  holds(text: string, state: State, place: string, row = 0): boolean | undefined {
    const result = this.evaluate(text, state, place, row);
    return typeof result === 'boolean' ? result : undefined;
  }

  /** Undefined while a value that it needs is not known. */
  evaluate(text: string, state: State, place: string, row = 0): Answer | undefined {
    let e = this.compiled.get(text);
    if (!e) {
      e = compile(() => this.environment, text);
      this.compiled.set(text, e);
    }
    const values: Record<string, Answer> = {};
    for (const name of e.names) {
      const value = this.value(name, state, place, row);
      if (value !== undefined) values[name] = value;
    }
    return e.run(values);
  }

  private value(name: string, state: State, place: string, row: number): Answer | undefined {
    if (state.model.keys.has(name)) {
      const v = state.values.get(name, place);
      return v.known ? v.value : undefined;
    }
    switch (name) {
      case 'row':
        return row;
      case 'overruled':
        return [...state.ledger.steps].flatMap(([id, s]) =>
          related(id.slice(id.indexOf('@') + 1), place) ? s.overrules.map((o) => o.gate) : [],
        );
      case 'done':
        return state.views.flatMap((v) =>
          (v.status === 'done' || v.status === 'waiting') && related(v.place, place) ? [v.step.id] : [],
        );
      case 'cut_short':
        return state.views.flatMap((v) =>
          v.wait?.skipped && state.now < v.wait.until && related(v.place, place) ? [v.step.id] : [],
        );
      default:
        return name.startsWith(TRUE)
          ? this.truth(state, name.slice(TRUE.length), place)
          : name.startsWith(PREFIX)
            ? wayOf(state, name.slice(PREFIX.length), place)
            : undefined;
    }
  }

  /** Of what neither a trap nor a reading says, what was typed is all that there is. */
  private truth(state: State, key: string, place: string): Answer | undefined {
    const info = state.model.keys.get(key);
    const home = info && state.values.enclosing(info.at, place);
    if (!home || info.from.by !== 'question') return undefined;
    const { step, question } = info.from;
    const typed =
      this.rotor.traps.find((t) => t.at === home && t.truth?.[key] !== undefined)?.truth?.[key] ??
      this.rotor.readings.find((r) => r.step === step.id && r.at === home && r.when === undefined && r.shows?.[key])
        ?.shows?.[key];
    const read = typed === undefined ? undefined : readAnswer(question, typed, state.model.tables, undefined);
    const given = state.values.get(key, home);
    return read?.ok ? read.value : given.known ? given.value : undefined;
  }
}

/** How a reading was taken; '' when no way was chosen. */
function wayOf(state: State, key: string, place: string): string | undefined {
  const info = state.model.keys.get(key);
  const home = info && state.values.enclosing(info.at, place);
  if (!home || info.from.by !== 'question') return undefined;
  return state.ledger.steps.get(slot(info.from.step.id, home))?.answers.get(key)?.entry.way ?? '';
}
