/** A practice rotor played by a plan, with the time that it takes. Gives the journal and the same work as a replay file. */

import { type Action, propose } from '../../src/engine/actions/propose.js';
import type { Draft, Entry } from '../../src/engine/journal/entry.js';
import type { ReplayFile } from '../../src/engine/replay/replay-file.js';
import { State } from '../../src/engine/state/state.js';
import type { StepView } from '../../src/engine/steps/board.js';
import type { Model } from '../../src/procedure/model.js';
import { nextMove, type Played } from '../../src/training/play.js';
import type { PracticeRotor } from '../../src/training/practice-rotor.js';
import type { Typed } from '../../src/training/rotor-file.js';

export interface Walk extends Played {
  readonly end?: (state: State, view: StepView) => boolean;
  /** Step to a correction made before it. */
  readonly correct?: Readonly<
    Record<string, { step: string; at: string; key: string; value: Typed; way?: string; reason: string }>
  >;
}
/** What a physical step takes, and a reading of a log; ms. */
const WORK = 4 * 60_000;
const ROW = 5;
type Item = Record<string, unknown>;

export function walk(
  model: Model,
  rotor: PracticeRotor,
  plan: Walk,
): { file: ReplayFile; state: State; entries: readonly Entry[] } {
  const start = Date.parse('2026-03-02T08:00:00Z');
  let now = start;
  let entries: readonly Entry[] = [];
  let cached: State | undefined;
  let before: State | undefined;
  const state = (): State => {
    cached ??= before = new State(model, entries, now, { before, spent: true });
    return cached;
  };
  const pass = (ms: number): void => {
    now += ms;
    cached = undefined;
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
  const corrected = new Set<string>();
  const items: Item[] = [];

  for (let guard = 0; guard < 3000; guard++) {
    const view = state().next('a');
    if (!view) {
      const wait = state().waiting[0];
      if (!wait?.wait) break;
      pass(wait.wait.until + 60_000 - now);
      items.push({ after: '' });
      continue;
    }
    if (plan.end?.(state(), view)) break;
    const { step, place } = view;
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
    if (step.physical && view.wants !== 'confirm' && last?.step !== step.id) pass(WORK);
    const row = step.repeat ? state().values.completeRows(step.id, place).length : 0;
    const begins = step.repeat && view.wants === 'question' && view.question?.key === step.ask?.[0]?.key;
    const gap = now - (Date.parse(entries.at(-1)?.at ?? '') || now);
    const minutes = row === 0 ? 1 : ROW;
    if (begins) pass(minutes * 60_000);
    const move = nextMove(rotor, state(), view, plan, 'AP');
    const own = last?.step === step.id && (last.at ?? 'job') === place && last.held === undefined;
    const item: Item = own && last ? last : { step: step.id, ...(place === 'job' ? {} : { at: place }) };
    if (move !== 'end' && move.do === 'raise' && view.wants !== 'gate') {
      act(move);
      items.push({ raise: move.branch, at: move.place });
      continue;
    }
    if (move === 'end' && plan.gates?.[view.gates[0]?.gate.id ?? ''] !== 'end') break;
    if (item !== last) {
      if (last && 'after' in last && Object.keys(last).length === 1) items.pop();
      if (gap > 1000) item.after = `${Math.round(gap / 60_000)} min`;
      items.push(item);
    }
    if (move === 'end') {
      item.held = view.gates[0]?.gate.id;
      break;
    }
    if (begins && move.do === 'answer') {
      const rows = (item.rows as Item[] | undefined) ?? [];
      rows.push({ after: `${minutes} min` });
      item.rows = rows;
    }
    act(move);
    if (move.do === 'raise') {
      item.held = view.gates[0]?.gate.id;
      items.push({ raise: move.branch, at: move.place });
    } else if (move.do === 'overrule') {
      const { gate, reason, initials } = move;
      item.overrule = [...((item.overrule as Item[] | undefined) ?? []), { gate, reason, initials }];
    } else if (move.do === 'predict') item.predict = { ...(item.predict as Item), [move.key]: move.text };
    else if (move.do === 'sign') item.sign = move.initials;
    else if (move.do === 'answer') {
      const given = { answers: { [move.key]: move.text }, ...(move.way ? { ways: { [move.key]: move.way } } : {}) };
      if (view.wants === 'gate') {
        item.held = view.gates[0]?.gate.id;
        items.push({ step: step.id, ...(place === 'job' ? {} : { at: place }), ...given });
      } else if (step.repeat) (item.rows as Item[]).at(-1)![move.key] = move.text;
      else {
        item.answers = { ...(item.answers as Item), ...given.answers };
        if (move.way) item.ways = { ...(item.ways as Item), ...given.ways };
      }
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
