/** What the calculators warn of, at the step that the procedure names for it. */

import type { State } from '../../engine/state/state.js';
import type { StepView } from '../../engine/steps/board.js';
import type { Question } from '../../procedure/schema.js';
import { glyphs } from '../look/glyphs.js';
import type { Block, Line, Room } from '../look/line.js';
import { wrap } from '../look/wrap.js';

/**
 * One sentence each, with the places that it is about when the step is for all of them.
 * Calculators that still wait for an answer of this very step are not heard yet.
 * @param since only what rests on this entry or a later one
 */
export function warningsAt(state: State, view: StepView, since = 0): string[] {
  const { values, model } = state;
  const waits = (q: Question): boolean =>
    !view.ledger?.answers.has(q.key) && !(q.when && values.holds(q.when, view.place) === false);
  const open = new Set((view.step.ask ?? []).filter(waits).map((q) => q.key));
  const places = new Map<string, string[]>();
  for (const use of model.procedure.calcs ?? []) {
    if (use.warn_at !== view.step.id) continue;
    if (Object.values(use.with).some((text) => model.expression(text).names.some((n) => open.has(n)))) continue;
    const here = values.enclosing(use.at, view.place);
    for (const p of here === undefined ? values.below(use.at, view.place) : [here]) {
      const run = values.calc(use, p);
      if (run.asOf < since) continue;
      for (const w of run.outcome?.warnings ?? []) {
        const at = places.get(w) ?? [];
        if (here === undefined && !at.includes(values.placeLabel(p))) at.push(values.placeLabel(p));
        places.set(w, at);
      }
    }
  }
  return [...places].map(([w, at]) => (at.length ? `${at.join(', ')}: ${w}` : w));
}

export const warningLine = (text: string, width: number, room: Room): Line[] =>
  wrap([{ text: `${glyphs(room.ascii).warn} Mind  `, tone: 'alert' }, { text }], width, 2);

/** `before`: the same step at another place, where who knows the job read what is warned of in the same words. */
export function warningBlocks(state: State, view: StepView, room: Room, before?: StepView): Block[] {
  const brisk = state.ledger.pace === 'brisk';
  if (view.wants === 'caution' || view.wants === 'predict') return [];
  const read = before ? warningsAt(state, before) : [];
  const whole = warningsAt(state, view);
  const all = whole.filter((w) => !read.includes(w));
  if (all.length === 0) return [];
  const others = whole.length - 1;
  const more = others < 1 ? '' : brisk ? ` ${glyphs(room.ascii).more} n` : ` And ${others} more: press n.`;
  return [
    {
      rank: 2,
      gap: true,
      label: 'Mind',
      lines: (width) =>
        brisk ? warningLine(`${all[0]}${more}`, width, room) : all.flatMap((w) => warningLine(w, width, room)),
      small: (width) => warningLine(`${all[0]}${more}`, width, room),
    },
  ];
}
