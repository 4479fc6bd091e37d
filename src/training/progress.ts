/** What a person has practised, as short lines that the store keeps by job: telling it twice changes nothing. Pure. */

import { type Card, createEmptyCard, fsrs, type Grade, Rating } from 'ts-fsrs';
import { FILLED_BY } from '../engine/journal/initials.js';
import { DAY } from '../units/kinds.js';
import type { Debrief } from './debrief.js';

type Met = 'caught' | 'late' | 'fell' | 'careless';

/** One trap that was met; careless: it did not stand there, and whoever went about it so could not know that. */
interface MetTrap {
  readonly skill: string;
  /** As it is called where it is told of. */
  readonly title?: string;
  readonly trap: string;
  readonly end: Met;
}
interface Signed {
  readonly initials: string;
  /** Seconds after the entry before it. */
  readonly seconds: number;
}
export interface Attempt {
  readonly rotor: string;
  readonly job: string;
  /** ISO instant of the job's last entry. */
  readonly at: string;
  readonly finished: boolean;
  /** It was begun later than at its first phase. */
  readonly begunLate?: true;
  /** Harm was told as soon as it was done. */
  readonly atOnce?: true;
  readonly caught: number;
  readonly late: number;
  readonly fell: number;
  /** Careless ways of which nothing came, and times gone on against advice. */
  readonly careless: number;
  /** Readings that were typed otherwise than the rotor shows them. */
  readonly misread: number;
  /** Readings that were typed; 0 for what was done before they were counted. */
  readonly readings: number;
  /** Marks for care, of so many. */
  readonly marks: number;
  readonly of: number;
  /** Steps that others did in it, what was filled in before a late start left out. */
  readonly helped: number;
  readonly right: number;
  readonly close: number;
  readonly wrong: number;
  readonly traps: readonly MetTrap[];
  /** Kinds of slip in predictions. */
  readonly slips: readonly string[];
  readonly signed: readonly Signed[];
  /** Minutes at the keys, what was let pass left out; unknown for what was done before they were counted. */
  readonly minutes?: number;
}
export interface RotorProgress {
  readonly rotor: string;
  readonly attempts: readonly Attempt[];
  /** Finished with every trap seen through at first sight, nothing done carelessly, and something expected that could be judged. */
  readonly mastered: boolean;
}
export interface SkillProgress {
  readonly skill: string;
  /** Traps that were set, and those of them that were not seen through at first sight. */
  readonly met: number;
  readonly missed: number;
  /** Careless ways where no such trap was set: it was luck. */
  readonly careless: number;
  /** ISO day on which it is to be met again, in other clothes. */
  readonly due: string;
  /** Seen through twice, in different clothes, days apart, and not missed since. */
  readonly mastered: boolean;
}

const MARK = 'practice ';
/** Days between the two times that count. */
const APART = 2;

/** Name and value under which the store keeps it; none for a job that was on no practice rotor. */
export function attemptOf(
  jobId: string,
  d: Debrief,
  minutes?: number,
): { readonly name: string; readonly value: string } | undefined {
  if (d.rotor === undefined || d.title === undefined || !d.begun) return undefined;
  const own = d.traps.filter((t) => t.by === undefined && t.openUntil === undefined);
  const ends = (e: string): number => own.filter((t) => t.end === e).length;
  const verdicts = (v: string): number => d.predictions.filter((p) => p.verdict === v).length;
  const attempt: Omit<Attempt, 'job'> = {
    rotor: d.rotor,
    at: d.lastEntry,
    finished: d.finished,
    ...(d.from === undefined ? {} : { begunLate: true as const }),
    ...(d.atOnce ? { atOnce: true as const } : {}),
    caught: ends('caught'),
    late: ends('caught-late'),
    fell: ends('fell'),
    careless: d.ways.filter((w) => w.careless).length + d.overrules.filter((o) => o.careless).length,
    misread: d.misread.length,
    readings: d.care?.readings ?? 0,
    marks: d.care?.marks ?? 0,
    of: d.care?.of ?? 0,
    helped: d.helped.reduce((n, h) => n + (h.initials === FILLED_BY ? 0 : h.steps), 0),
    right: verdicts('right'),
    close: verdicts('close'),
    wrong: verdicts('wrong'),
    traps: [
      ...own.flatMap(({ skill, title, id, end }): MetTrap[] =>
        end === 'not-met' ? [] : [{ skill, title, trap: id, end: end === 'caught-late' ? 'late' : end }],
      ),
      ...d.ways.flatMap((w): MetTrap[] =>
        w.careless
          ? [{ skill: w.careless.skill, title: w.careless.title, trap: w.careless.trap, end: 'careless' }]
          : [],
      ),
    ],
    slips: d.predictions.flatMap((p) => p.slip?.slip ?? []),
    signed: d.holds.flatMap((h) => (h.how === 'witnessed' ? [{ initials: h.initials, seconds: h.seconds }] : [])),
    ...(minutes === undefined ? {} : { minutes }),
  };
  return { name: `${MARK}${jobId}`, value: JSON.stringify(attempt) };
}

type Kept = Readonly<Record<string, string | number | boolean>>;

/** Every job, oldest first; lines of other kinds and damaged ones are passed over. */
export function attemptsOf(kept: Kept): Attempt[] {
  return Object.entries(kept)
    .flatMap(([name, value]) => {
      const read = name.startsWith(MARK) ? readAttempt(name.slice(MARK.length), value) : undefined;
      return read ? [read] : [];
    })
    .sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0));
}

export function progressOf(kept: Kept): RotorProgress[] {
  const attempts = attemptsOf(kept);
  const rotors = [...new Set(attempts.map((a) => a.rotor))].sort();
  return rotors.map((rotor) => {
    const own = attempts.filter((a) => a.rotor === rotor);
    return {
      rotor,
      attempts: own,
      mastered: own.some(
        (a) =>
          a.finished && !a.begunLate && a.fell + a.late + a.careless === 0 && a.caught > 0 && a.right + a.close > 0,
      ),
    };
  });
}

const grades: Readonly<Record<Met, Grade>> = {
  caught: Rating.Good,
  late: Rating.Hard,
  fell: Rating.Again,
  careless: Rating.Again,
};

/** By skill, whatever its traps wore: met, missed, when it is due again by spaced repetition, mastered. */
export function skillsOf(kept: Kept, kinds?: ReadonlyMap<string, number>): SkillProgress[] {
  const met = attemptsOf(kept).flatMap((a) =>
    a.traps.map((t) => ({ ...t, rotor: a.rotor, at: a.at, said: a.right + a.close + a.wrong })),
  );
  // No fuzz: the same days for the same work, on every machine.
  const plan = fsrs({ enable_fuzz: false, enable_short_term: false });
  return [...new Set(met.map((m) => m.skill))].sort().map((skill) => {
    const own = met.filter((m) => m.skill === skill);
    const card = own.reduce<Card | undefined>((c, m) => {
      const at = new Date(m.at);
      return plan.next(c ?? createEmptyCard(at), at, grades[m.end]).card;
    }, undefined);
    return {
      skill,
      met: own.filter((m) => m.end !== 'careless').length,
      missed: own.filter((m) => m.end === 'late' || m.end === 'fell').length,
      careless: own.filter((m) => m.end === 'careless').length,
      due: card ? card.due.toISOString().slice(0, 10) : '',
      mastered: isMastered(own, (kinds?.get(skill) ?? 1) > 1),
    };
  });
}

/** What is due first: the earliest day, and of one day what went wrong most often; with the rotor on which it was met last. */
export function dueFirst(
  kept: Kept,
): { readonly skill: string; readonly due: string; readonly rotor: string } | undefined {
  const wrong = (s: SkillProgress): number => s.missed + s.careless;
  const [first] = skillsOf(kept).sort(
    (a, b) => a.due.localeCompare(b.due) || wrong(b) - wrong(a) || a.skill.localeCompare(b.skill),
  );
  if (!first) return undefined;
  const { skill, due } = first;
  const met = attemptsOf(kept).findLast((a) => a.traps.some((t) => t.skill === skill));
  return { skill, due, rotor: met?.rotor ?? '' };
}

/** @param several there is more than one trap of this skill, so that it is to be met in another one */
function isMastered(
  met: readonly (MetTrap & { rotor: string; at: string; said: number })[],
  several: boolean,
): boolean {
  const since = met.slice(met.findLastIndex((m) => m.end !== 'caught') + 1).filter((m) => m.said > 0);
  return since.some((a) =>
    since.some(
      (b) =>
        b.rotor !== a.rotor &&
        (!several || b.trap !== a.trap) &&
        Math.abs(Date.parse(b.at) - Date.parse(a.at)) >= APART * DAY,
    ),
  );
}

/** Skills to be met again by now, each with the trap in which it was met last. */
export function dueSkills(kept: Kept, now: Date): ReadonlyMap<string, string> {
  const today = now.toISOString().slice(0, 10);
  const met = attemptsOf(kept).flatMap((a) => a.traps);
  return new Map(
    skillsOf(kept).flatMap((s) =>
      s.due <= today || s.missed === s.met
        ? [[s.skill, met.findLast((t) => t.skill === s.skill)?.trap ?? ''] as const]
        : [],
    ),
  );
}

function readAttempt(job: string, value: unknown): Attempt | undefined {
  try {
    const a = JSON.parse(String(value)) as Partial<Attempt> | null;
    if (typeof a?.rotor !== 'string' || typeof a.at !== 'string' || Number.isNaN(Date.parse(a.at))) return undefined;
    const n = (x: unknown): number => (typeof x === 'number' && Number.isFinite(x) ? x : 0);
    const list = <T>(x: unknown, fits: (item: T) => boolean): T[] => (Array.isArray(x) ? x.filter(fits) : []);
    return {
      rotor: a.rotor,
      job,
      at: a.at,
      finished: a.finished === true,
      ...(a.begunLate === true ? { begunLate: true as const } : {}),
      ...(a.atOnce === true ? { atOnce: true as const } : {}),
      caught: n(a.caught),
      late: n(a.late),
      fell: n(a.fell),
      careless: n(a.careless),
      misread: n(a.misread),
      readings: n(a.readings),
      marks: n(a.marks),
      of: n(a.of),
      helped: n(a.helped),
      right: n(a.right),
      close: n(a.close),
      wrong: n(a.wrong),
      traps: list<MetTrap>(a.traps, (t) => typeof t?.skill === 'string' && t.end in grades),
      slips: list<string>(a.slips, (s) => typeof s === 'string'),
      signed: list<Signed>(a.signed, (s) => typeof s?.initials === 'string' && Number.isFinite(s.seconds)),
      ...(typeof a.minutes === 'number' ? { minutes: a.minutes } : {}),
    };
  } catch {
    return undefined;
  }
}
