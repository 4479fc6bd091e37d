/** Every stop that was met on the way, with its sentence as it stood then and how it ended. Pure. */

import type { Entry } from '../engine/journal/entry.js';
import { stopWords } from '../engine/state/refusals.js';
import { State } from '../engine/state/state.js';
import type { StepView } from '../engine/steps/board.js';
import { ofStep } from './figures.js';
import type { StopLine } from './sheet-data.js';

/** Journals longer than this are no job of a pair of bearings, and not gone through entry by entry. */
const MOST = 5000;

type Open = Omit<StopLine, 'ended'> & { readonly view: StepView };

const how = (e: Entry): string => {
  switch (e.kind) {
    case 'answer':
      return 'answered again';
    case 'correct':
      return `corrected: ${e.reason}`;
    case 'overrule':
      return `OVERRULED by ${e.initials}: ${e.reason}`;
    case 'undo':
      return 'taken back';
    case 'raise':
      return 'something unforeseen was recorded';
    default:
      return 'gone on';
  }
};

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
        ended: { at: entry.at, by: entry.by, how: how(entry) },
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
