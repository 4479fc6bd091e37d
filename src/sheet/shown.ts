/** Logs, drawings and the strip of marks: what the sheet shows rather than says. */
import { slot } from '../engine/journal/ledger.js';
import type { State } from '../engine/state/state.js';
import { ofStep, partLabel, textOf } from '../engine/state/told.js';
import { drawnValues } from '../engine/values/drawn.js';
import { fillIn } from '../engine/values/texts.js';
import { isList } from '../guards/guards.js';
import { showQuantity } from '../units/show.js';
import type { LogTable, Picture, Strip } from './sheet-data.js';

/** A mark is drawn by a rule: mm. */
const MARK = 0.1;

export function logsOf(state: State): LogTable[] {
  return state.views.flatMap((view) => {
    if (!view.step.repeat) return [];
    const rows = state.values.completeRows(view.step.id, view.place);
    if (!rows.length) return [];
    const columns = (view.step.ask ?? [])
      .filter((q) => rows.some((r) => r.has(q.key)))
      .map((q) => ({
        key: q.key,
        label: partLabel(state, q.key, view.place),
        unit: state.model.keys.get(q.key)?.unit ?? '',
      }));
    return [
      {
        ...ofStep(state, view),
        columns,
        rows: rows.map((row) => {
          const given = [...row.values()];
          const last = given.at(-1);
          return {
            at: last?.first.at ?? '',
            by: last?.first.by ?? '',
            cells: columns.map((c) => {
              const g = row.get(c.key);
              if (!g) return '';
              const text = textOf(state, c.key, g.value, g.plusMinus);
              return g.unfit ? `${text} (does not count)` : text;
            }),
            corrected: given.some((g) => g.entry.kind === 'correct'),
          };
        }),
      },
    ];
  });
}

/** One drawing of each kind at each place: that of the last step that was reached. */
export function picturesOf(state: State): Picture[] {
  const last = new Map<string, Picture>();
  for (const view of state.views) {
    const picture = view.step.draw?.picture;
    if (!picture || !view.ledger?.last || view.status === 'not-needed') continue;
    const values = drawnValues(state.values, view.step, view.place);
    const before = last.get(`${picture}@${view.place}`);
    if (before && Object.keys(values).length < Object.keys(before.values).length) continue;
    last.delete(`${picture}@${view.place}`);
    last.set(`${picture}@${view.place}`, { ...ofStep(state, view), picture, values });
  }
  return [...last.values()];
}

/** Whether the steps that drew these marks drew them as they stand now: after the work others were never used. */
function drawnAs(state: State, key: string, marks: readonly unknown[]): boolean {
  return state.model.procedure.steps
    .filter((s) => s.physical && s.rests_on?.includes(key))
    .every((s) => {
      const drawn = state.ledger.steps.get(slot(s.id, 'job'))?.done?.figures?.[key];
      return !isList(drawn) || drawn.every((m, i) => Math.abs(Number(m) - Number(marks[i])) < MARK);
    });
}

/** The strip of marks, when the procedure has one and its marks are known. */
export function stripOf(state: State): Strip | undefined {
  const spec = state.model.procedure.sheet?.strip;
  if (!spec) return undefined;
  const v = state.values.get(spec.marks, 'job');
  if (!v.known || !isList(v.value)) return undefined;
  if (state.finished && !drawnAs(state, spec.marks, v.value)) return undefined;
  const marks = [...v.value].filter((m): m is number => typeof m === 'number' && m >= 0);
  if (!marks.length) return undefined;
  const all = spec.each ? state.values.below(spec.each, 'job') : [];
  const served = spec.when ? all.filter((p) => state.values.holds(spec.when ?? '', p) !== false) : all;
  // A mark without its own name is better than one with another's.
  const places = served.length === marks.length ? served : all.length === marks.length ? all : [];
  const names = places.map((p) => state.values.placeLabel(p));
  return {
    title: fillIn(state.values, spec.title, 'job'),
    say: fillIn(state.values, spec.say, 'job'),
    marks: marks.map((mm, i) => {
      const name = names[i];
      const size = showQuantity(mm, 'length', { roundBy: MARK });
      return { mm, name: name ?? `mark ${i + 1}`, label: name ? `${name}, ${size}` : size };
    }),
  };
}
