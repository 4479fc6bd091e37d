/**
 * An apprentice at a practice rotor: takes the next thing that the guide wants, reads off what the rotor shows
 * and decides by a plan. Gives the journal and the same work as a replay file.
 */
// @ts-nocheck

import type { StepView } from '../../src/engine/board.js';
import type { Draft, Entry } from '../../src/engine/entry.js';
import { type Action, gateSentence, propose } from '../../src/engine/propose.js';
import type { ReplayFile } from '../../src/engine/replay-file.js';
import { State } from '../../src/engine/state.js';
import { showValue } from '../../src/engine/texts.js';
import type { Model } from '../../src/procedure/model.js';
import type { PracticeRotor } from '../../src/training/practice-rotor.js';
import type { Typed } from '../../src/training/rotor-file.js';

type Choice = Typed | ((state: State, row: number) => Typed | undefined);
export interface Plan {
  readonly mentor?: string;
  /** Key to what is answered; wins over what the rotor shows. */
  readonly answers: Readonly<Record<string, Choice>>;
  /** Key to the ways that are taken, one after the other. */
  readonly ways?: Readonly<Record<string, readonly string[]>>;
  /** Key to what is expected; the guide's own figure when left out. */
  readonly predict?: Readonly<Record<string, string>>;
  /** What is done when a gate stops: go on with a reason, raise a branch, or end here. Answer again when left out. */
  readonly gates?: Readonly<Record<string, { overrule: string } | { raise: string } | 'end'>>;
  /** Called before each step; what it returns is raised first. */
  readonly raise?: (state: State, view: StepView) => { branch: string; at: string } | undefined;
  readonly end?: (state: State, view: StepView) => boolean;
  /** Minutes that pass before a row of the log. */
  readonly rowMinutes?: (state: State, row: number) => number;
  /** Step to a correction made before it. */
  readonly correct?: Readonly<
    Record<string, { step: string; at: string; key: string; value: Typed; way?: string; reason: string }>
  >;
}
/** What a physical step takes, ms. */
const WORK = 4 * 60_000;
type Item = Record<string, unknown>;

export function walk(
  model: Model,
  rotor: PracticeRotor,
  plan: Plan,
): { file: ReplayFile; state: State; entries: readonly Entry[] } {
  const start = Date.parse('2026-03-02T08:00:00Z');
  let now = start;
  let entries: readonly Entry[] = [];
  let cached: State | undefined;
  let before: State | undefined;
  const state = (): State => {
    cached ??= before = new State(model, entries, now, { before });
    return cached;
  };
  const add = (drafts: readonly Draft[]): void => {
    for (const d of drafts) {
      now += 1000;
      entries = [...entries, { ...d, seq: entries.length + 1, at: new Date(now).toISOString() } as Entry];
    }
    cached = undefined;
  };
  const act = (action: Action): void => {
    const p = propose(state(), action, 'AP');
    if (!p.ok) throw new Error(`${JSON.stringify(action)}: ${p.message}`);
    add(p.drafts);
  };
  add([
    {
      kind: 'job',
      name: rotor.title,
      procedure: rotor.procedure,
      version: model.procedure.version,
      hash: model.hash,
      practice: rotor.id,
      apprentice: 'AP',
      ...(plan.mentor ? { mentor: plan.mentor } : {}),
      by: 'AP',
    },
  ]);
  const used = new Map<string, number>();
  const corrected = new Set<string>();
  const items: Item[] = [];
  const overrules: Item[] = [];

  const read = (view: StepView, key: string, row: number): { text: Typed; way: string | undefined } => {
    const { step, place } = view;
    const offered = rotor.ways(step.id, place, key, state());
    let way: string | undefined;
    if (offered.length) {
      const n = used.get(key) ?? 0;
      used.set(key, n + 1);
      way = plan.ways?.[key]?.[n] ?? offered[0]!.way;
      if (!offered.some((o) => o.way === way))
        throw new Error(`${key}: no way ${way} among ${offered.map((o) => o.way)}`);
    }
    const chosen = plan.answers[`${key}@${place}`] ?? plan.answers[key];
    const planned = typeof chosen === 'function' ? chosen(state(), row) : chosen;
    const text = planned ?? rotor.typed(step.id, place, key, row, state(), way);
    if (text === undefined) throw new Error(`${step.id}@${place}: nothing for ${key}`);
    return { text, way };
  };

  for (let guard = 0; guard < 3000; guard++) {
    const view = state().available('a')[0];
    if (!view) {
      const wait = state().waiting[0];
      if (!wait?.wait) break;
      now = wait.wait.until + 60_000;
      cached = undefined;
      items.push({ after: '' });
      continue;
    }
    if (plan.end?.(state(), view)) break;
    const { step, place } = view;
    const at = { step: step.id, place };
    const event = plan.raise?.(state(), view);
    if (event) {
      act({ do: 'raise', branch: event.branch, place: event.at });
      items.push({ raise: event.branch, at: event.at });
      continue;
    }
    const fix = plan.correct?.[step.id];
    if (fix && !corrected.has(step.id)) {
      corrected.add(step.id);
      act({
        do: 'correct',
        step: fix.step,
        place: fix.at,
        key: fix.key,
        text: fix.value,
        way: fix.way,
        reason: fix.reason,
      });
      items.push({ correct: fix });
      continue;
    }
    const last = items.at(-1);
    if (step.physical && view.wants !== 'confirm' && last?.step !== step.id) {
      now += WORK;
      cached = undefined;
    }
    const item: Item =
      last?.step === step.id && (last.at ?? 'job') === place && last.held === undefined
        ? last
        : { step: step.id, ...(place === 'job' ? {} : { at: place }) };
    if (item !== last) {
      if (last && 'after' in last && Object.keys(last).length === 1) items.pop();
      if (now - (Date.parse(entries.at(-1)?.at ?? '') || now) > 1000)
        item.after = `${Math.round((now - Date.parse(entries.at(-1)!.at)) / 60_000)} min`;
      items.push(item);
    }
    switch (view.wants) {
      case 'gate': {
        const gate = view.gates[0]!.gate;
        const how = plan.gates?.[gate.id];
        if (how === 'end') {
          item.held = gate.id;
          guard = 1e9;
          break;
        }
        if (how && 'raise' in how) {
          item.held = gate.id;
          act({ do: 'raise', branch: how.raise, place });
          items.push({ raise: how.raise, at: place });
          break;
        }
        if (how && 'overrule' in how) {
          const overrule = { gate: gate.id, reason: how.overrule, initials: plan.mentor ?? 'AP' };
          act({ do: 'overrule', ...at, ...overrule });
          const all = (item.overrule as Item[] | undefined) ?? [];
          item.overrule = [...all, overrule];
          overrules.push(overrule);
          break;
        }
        // Nothing planned: answer the last question of the step once more.
        const q = (step.ask ?? []).findLast((a) => plan.ways?.[a.key] || plan.answers[a.key] !== undefined);
        if (!q || gate.at === 'enter') throw new Error(`${step.id}@${place}: ${gateSentence(state(), view)}`);
        item.held = gate.id;
        const { text, way } = read(view, q.key, 0);
        act({ do: 'answer', ...at, key: q.key, text, way });
        items.push({
          step: step.id,
          ...(place === 'job' ? {} : { at: place }),
          answers: { [q.key]: text },
          ...(way ? { ways: { [q.key]: way } } : {}),
        });
        break;
      }
      case 'caution':
        act({ do: 'caution', ...at });
        break;
      case 'predict': {
        const key = step.predict!.find((k) => !view.ledger?.predictions.some((p) => p.key === k))!;
        const v = state().values.get(key, place);
        const text = plan.predict?.[key] ?? (v.known ? showValue(model, key, v.value) : 'none given');
        act({ do: 'predict', ...at, key, text });
        item.predict = { ...(item.predict as Item), [key]: text };
        break;
      }
      case 'question': {
        const q = view.question!;
        const row = step.repeat ? state().values.completeRows(step.id, place).length : 0;
        const first = step.repeat && q.key === step.ask?.[0]?.key;
        if (first) {
          const minutes = plan.rowMinutes?.(state(), row) ?? 5;
          now += minutes * 60_000;
          cached = undefined;
          const rows = (item.rows as Item[] | undefined) ?? [];
          rows.push({ after: `${minutes} min` });
          item.rows = rows;
        }
        const { text, way } = read(view, q.key, row);
        act({ do: 'answer', ...at, key: q.key, text, way });
        if (step.repeat) (item.rows as Item[]).at(-1)![q.key] = text;
        else {
          item.answers = { ...(item.answers as Item), [q.key]: text };
          if (way) item.ways = { ...(item.ways as Item), [q.key]: way };
        }
        break;
      }
      case 'confirm':
        act({ do: 'done', ...at });
        break;
      case 'sign':
        item.sign = plan.mentor ?? 'AP';
        act({ do: 'sign', ...at, initials: item.sign as string });
        break;
      default:
        throw new Error(`${step.id} wants ${view.wants}`);
    }
  }
  const file = {
    replay: 1,
    invented: true,
    name: rotor.title,
    procedure: rotor.procedure,
    practice: rotor.id,
    by: 'AP',
    apprentice: 'AP',
    ...(plan.mentor ? { mentor: plan.mentor } : {}),
    start: '2026-03-02T08:00:00Z',
    steps: items.filter((i) => !(Object.keys(i).length === 1 && 'after' in i)),
  } as unknown as ReplayFile;
  return { file, state: state(), entries };
}
