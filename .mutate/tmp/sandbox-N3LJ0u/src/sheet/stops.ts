/** Every stop that was met on the way, with its sentence as it stood then and how it ended. Pure. */
// @ts-nocheck

import type { StepView } from '../engine/board.js';
import type { Entry } from '../engine/entry.js';
import { State } from '../engine/state.js';
import { fillIn } from '../engine/texts.js';
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

/** In the order in which they were met. */
export function stopsOf(state: State): StopLine[] {
  const { entries, model } = state;
  if (entries.length > MOST) return [];
  const open = new Map<string, Open>();
  const lines: StopLine[] = [];
  let before: State | undefined;
  entries.forEach((entry, i) => {
    const now = Date.parse(entry.at);
    const then = new State(model, entries.slice(0, i + 1), now, { ...state.options, ...(before ? { before } : {}) });
    before = then;
    for (const [id, { view, ...stop }] of open) {
      const own = then.board.own(view.step, view.place);
      if (own.status !== 'not-needed' && own.gates.some((g) => g.gate.id === stop.gate)) continue;
      open.delete(id);
      lines[lines.findIndex((l) => l.seq === stop.seq && l.gate === stop.gate && l.place === stop.place)] = {
        ...stop,
        ended: { at: entry.at, by: entry.by, how: how(entry) },
      };
    }
    for (const view of then.views) {
      if (view.status !== 'stopped') continue;
      for (const { gate } of view.gates) {
        const id = `${view.step.id}@${view.place}:${gate.id}`;
        if (open.has(id)) continue;
        const says = fillIn(then.values, gate.say, view.place);
        const stop = { ...ofStep(then, view), gate: gate.id, says, seq: entry.seq, at: entry.at, by: entry.by };
        open.set(id, { ...stop, view });
        lines.push(stop);
      }
    }
  });
  return lines;
}
