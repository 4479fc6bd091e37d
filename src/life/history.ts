/** The life of one rotor: its jobs and looks in order, what was measured at each bearing, and how it moved. Pure. */
import type { LifeEvent, LifeFigure } from '../engine/journal/entry.js';
import { found } from '../engine/state/found.js';
import type { State } from '../engine/state/state.js';
import { showValue } from '../engine/values/texts.js';
import { isList } from '../guards/guards.js';
import { lifeMarkOf } from './life-mark.js';
import type { FinishedJob } from './take-over.js';

/** Most events that are kept and shown: the latest. */
const MOST = 60;

/** What a finished job is in the life of its rotor; undefined where it has no place there. */
function eventOf(job: string, whole: State, finished?: true): LifeEvent | undefined {
  const mark = lifeMarkOf(whole, finished);
  if (!mark) return undefined;
  const state = found(whole);
  const { life } = state.model.procedure;
  const words = life?.found === undefined ? [] : wordsAt(state, life.found);
  return {
    job,
    name: state.ledger.job?.name ?? '',
    did: mark.did,
    at: mark.at,
    machine: mark.machine,
    ...(life?.begins ? { begins: true as const } : {}),
    ...(mark.hours === undefined ? {} : { hours: mark.hours }),
    ...(mark.due === undefined ? {} : { due: mark.due }),
    found: words,
    figures: figuresIn(state),
  };
}

function wordsAt(state: State, key: string): LifeEvent['found'] {
  const { model, values } = state;
  return values.placesOf(key).flatMap((place) => {
    const v = values.get(key, place);
    const where = place === 'job' ? '' : values.placeLabel(place);
    return v.known ? [{ where, text: showValue(model, key, v.value) }] : [];
  });
}

function figuresIn(state: State): LifeFigure[] {
  const { model, values } = state;
  return (model.procedure.life?.trend ?? []).flatMap(({ key, as, label }) =>
    values.placesOf(key).flatMap((place): LifeFigure[] => {
      const v = values.get(key, place);
      if (!v.known) return [];
      const where = place === 'job' ? '' : values.placeLabel(place);
      const unit = model.keys.get(key)?.unit ?? '';
      const one = (value: unknown, half: unknown, n?: number): LifeFigure[] => {
        if (typeof value !== 'number' || !Number.isFinite(value)) return [];
        const plusMinus = typeof half === 'number' && Number.isFinite(half) ? half : undefined;
        return [
          {
            key: n === undefined ? (as ?? key) : `${as ?? key}_${n}`,
            label: n === undefined ? label : `${label} ${n}`,
            ...(n === undefined ? {} : { item: n }),
            ...{ place, where, value, unit },
            ...(plusMinus === undefined ? {} : { plusMinus }),
            text: showValue(model, key, value, plusMinus),
          },
        ];
      };
      if (!isList(v.value)) return one(v.value, v.plusMinus);
      const halves = isList(v.plusMinus) ? v.plusMinus : [];
      return [...v.value].flatMap((x, i) => one(x, halves[i] ?? v.plusMinus, i + 1));
    }),
  );
}

/** In order of time, the latest at the end; of very many the latest only. */
const inOrder = (events: readonly LifeEvent[]): readonly LifeEvent[] =>
  [...events].sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0)).slice(-MOST);

/** @param jobs of one rotor, in any order; that they are finished is known */
export const historyOf = (jobs: readonly FinishedJob[]): readonly LifeEvent[] =>
  inOrder(jobs.flatMap(({ job, state }) => eventOf(job, state, true) ?? []));

/** What a job knows of its rotor: what it was told when it began, and itself once it is finished. */
export function lifeOf(state: State, job = ''): readonly LifeEvent[] {
  const own = eventOf(job, state);
  return inOrder([...(state.ledger.job?.life ?? []), ...(own ? [own] : [])]);
}

interface Move {
  readonly by: number;
  /** Half width of the difference: the root of the squares of both. */
  readonly doubt: number;
  /** It moved by more than that. */
  readonly beyondDoubt: boolean;
}
export interface CoursePoint extends LifeFigure {
  readonly at: string;
  readonly did: string;
  /** Against the first of its course; undefined for the first itself. */
  readonly moved?: Move;
}
/** One figure at one place, oldest first. A new course begins with a job that makes a new beginning. */
export interface Course {
  readonly key: string;
  readonly label: string;
  readonly place: string;
  readonly where: string;
  readonly unit: string;
  readonly item?: number;
  readonly points: readonly CoursePoint[];
}

export function coursesOf(events: readonly LifeEvent[]): readonly Course[] {
  const all = new Map<string, { head: LifeFigure; points: CoursePoint[]; base: LifeFigure | undefined }>();
  for (const e of events) {
    const own = new Set(e.figures.map((f) => `${f.key}@${f.place}`));
    // What a regreasing itself measures is held against the one before; what is measured in service begins anew.
    if (e.begins) for (const [name, course] of all) if (!own.has(name)) course.base = undefined;
    for (const f of e.figures) {
      const name = `${f.key}@${f.place}`;
      const course = all.get(name) ?? { head: f, points: [], base: undefined };
      const { base } = course;
      const by = base ? f.value - base.value : 0;
      const doubt = Math.hypot(f.plusMinus ?? 0, base?.plusMinus ?? 0);
      const moved = base ? { moved: { by, doubt, beyondDoubt: Math.abs(by) > doubt } } : {};
      course.points.push({ ...f, at: e.at, did: e.did, ...moved });
      all.set(name, { ...course, base: base ?? f });
    }
  }
  return [...all.values()].map(({ head, points }) => ({
    ...{ key: head.key, label: head.label, place: head.place, where: head.where, unit: head.unit },
    ...(head.item === undefined ? {} : { item: head.item }),
    points,
  }));
}
