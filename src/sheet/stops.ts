/** Every stop that was met on the way, with its sentence as it stood then and how it ended. Pure. */

import type { Entry } from '../engine/journal/entry.js';
import { stopWords } from '../engine/state/refusals.js';
import { State } from '../engine/state/state.js';
import type { StepView } from '../engine/steps/board.js';
import { ofStep, partLabel, textOf } from './figures.js';
import type { StopLine, StopResult } from './sheet-data.js';

/** Journals longer than this are no job of a pair of bearings, and not gone through entry by entry. */
const MOST = 5000;

type Open = Omit<StopLine, 'ended'> & { readonly view: StepView };

/** What an undo took back, with its value. */
function takenBack(then: State, of: number): string {
  const e = then.entries[of - 1];
  const value =
    e?.kind === 'answer' || e?.kind === 'correct'
      ? `: ${partLabel(then, e.key, e.place)}: ${textOf(then, e.key, e.value, e.plusMinus)}`
      : '';
  return `taken back${value}`;
}

const how = (then: State, e: Entry): string => {
  switch (e.kind) {
    case 'answer':
      return 'answered again';
    case 'correct':
      return `corrected: ${e.reason}`;
    case 'overrule':
      return `OVERRULED by ${e.initials}: ${e.reason}`;
    case 'undo':
      return takenBack(then, e.of);
    case 'raise':
      return 'something unforeseen was recorded';
    default:
      return 'gone on';
  }
};

/** Taken back, led elsewhere by an event, or asked no more: the stop is gone, and nothing was put right by that. */
function resultOf(then: State, e: Entry, own: StepView, gate: string): StopResult {
  if (e.kind === 'undo') return 'taken back';
  if (e.kind === 'raise') return 'unforeseen';
  if (e.kind === 'overrule') return 'overruled';
  const must = own.step.gates?.find((g) => g.id === gate)?.must;
  const holds = must !== undefined && then.values.holds(must, own.place) === true;
  return own.status === 'not-needed' && !holds ? 'asked no more' : 'put right';
}

/** Notes the stops of a job that is done entry by entry. */
export class StopLog {
  /** In the order in which they were met. */
  readonly lines: StopLine[] = [];
  private readonly open = new Map<string, Open>();

  /** The state after one more entry, as it stood at that instant. */
  add(then: State): void {
    const { open, lines } = this;
    const entry = then.entries.at(-1);
    if (!entry || then.entries.length > MOST) return;
    for (const [id, { view, ...stop }] of open) {
      const own = then.board.own(view.step, view.place);
      if (own.status !== 'not-needed' && own.gates.some((g) => g.gate.id === stop.gate)) continue;
      open.delete(id);
      lines[lines.findIndex((l) => l.seq === stop.seq && l.gate === stop.gate && l.place === stop.place)] = {
        ...stop,
        ended: { at: entry.at, by: entry.by, how: how(then, entry), result: resultOf(then, entry, own, stop.gate) },
      };
    }
    for (const view of then.board.stopped())
      for (const held of view.gates) {
        const { gate } = held;
        const id = `${view.step.id}@${view.place}:${gate.id}`;
        if (open.has(id)) continue;
        const says = stopWords(then, held, view.place);
        const stop = { ...ofStep(then, view), gate: gate.id, says, seq: entry.seq, at: entry.at, by: entry.by };
        open.set(id, { ...stop, view });
        lines.push(stop);
      }
  }
}

/** The stops of a job of which only the journal is there: it is gone through entry by entry. */
export function stopsOf({ entries, model, options }: State): readonly StopLine[] {
  if (entries.length > MOST) return [];
  const log = new StopLog();
  let before: State | undefined;
  entries.forEach((entry, i) => {
    before = new State(model, entries.slice(0, i + 1), Date.parse(entry.at), {
      ...{ ...options, before },
      spent: true,
    });
    log.add(before);
  });
  return log.lines;
}
