/** The life of one rotor: its jobs and looks in order, what was measured at each bearing, and how it moved. Pure. */
import type { State } from '../engine/state.js';
import { showValue } from '../engine/texts.js';
import { type LifeMark, lifeMarkOf } from './life-mark.js';

interface Measured {
  readonly key: string;
  readonly label: string;
  /** 'job' or a position. */
  readonly place: string;
  readonly where: string;
  /** Canonical unit. */
  readonly value: number;
  readonly plusMinus: number | undefined;
  readonly text: string;
  /** Against the first of this rotor at this place; undefined for the first itself. */
  readonly moved?: { readonly by: number; readonly beyondDoubt: boolean };
}
export interface LifeEvent extends LifeMark {
  readonly job: string;
  readonly name: string;
  readonly measured: readonly Measured[];
}

/** @param jobs finished jobs of one rotor, in any order */
export function historyOf(jobs: readonly { readonly job: string; readonly state: State }[]): readonly LifeEvent[] {
  const first = new Map<string, Measured>();
  return jobs
    .flatMap(({ job, state }) => {
      const mark = lifeMarkOf(state);
      return mark ? [{ job, state, mark }] : [];
    })
    .sort((a, b) => (a.mark.at < b.mark.at ? -1 : a.mark.at > b.mark.at ? 1 : 0))
    .map(({ job, state, mark }) => ({
      ...mark,
      job,
      name: state.ledger.job?.name ?? '',
      measured: measuredIn(state).map((m) => {
        const name = `${m.key}@${m.place}`;
        const base = first.get(name);
        if (!base) {
          first.set(name, m);
          return m;
        }
        const by = m.value - base.value;
        const doubt = Math.hypot(m.plusMinus ?? 0, base.plusMinus ?? 0);
        return { ...m, moved: { by, beyondDoubt: Math.abs(by) > doubt } };
      }),
    }));
}

function measuredIn(state: State): readonly Measured[] {
  const { model, values } = state;
  return (model.procedure.life?.trend ?? []).flatMap(({ key, as, label }) => {
    const info = model.keys.get(key);
    if (!info) return [];
    return model.places.flatMap((p): Measured[] => {
      if (p.kind !== info.at || !values.takesPart(p.id)) return [];
      const v = values.get(key, p.id);
      if (!v.known || typeof v.value !== 'number' || !Number.isFinite(v.value)) return [];
      const where = p.id === 'job' ? '' : values.placeLabel(p.id);
      const half = typeof v.plusMinus === 'number' ? v.plusMinus : undefined;
      const text = showValue(model, key, v.value, half);
      return [{ key: as ?? key, label, place: p.id, where, value: v.value, plusMinus: half, text }];
    });
  });
}

/** The course of one figure at one place, oldest first. */
export interface Course {
  readonly label: string;
  readonly where: string;
  readonly points: readonly { readonly at: string; readonly value: number; readonly text: string }[];
}

export function coursesOf(events: readonly LifeEvent[]): readonly Course[] {
  const all = new Map<string, { label: string; where: string; points: Course['points'][number][] }>();
  for (const e of events)
    for (const m of e.measured) {
      const name = `${m.key}@${m.place}`;
      const course = all.get(name) ?? { label: m.label, where: m.where, points: [] };
      course.points.push({ at: e.at, value: m.value, text: m.text });
      all.set(name, course);
    }
  return [...all.values()];
}
