/** What has to be looked at, and when: the latest finished job of each rotor decides. Pure. */
import { DAY } from '../units/kinds.js';
import { type LifeMark, rotorKey } from './life-mark.js';

export interface Due extends LifeMark {
  /** Number of the job. */
  readonly job: string;
  readonly when: 'overdue' | 'this week' | 'this month' | 'later' | 'by hours';
  /** Days from today; below 0 when it is over. */
  readonly days?: number;
}

interface Head {
  readonly id: string;
  readonly practice?: string;
  readonly changed: string;
  readonly summary: Readonly<Record<string, string | number | boolean>>;
}

/** Said where no mark is found: practice is no rotor's life. */
export const practiceNote = (jobs: readonly { readonly practice?: string | undefined }[]): string =>
  jobs.some((j) => j.practice !== undefined) ? ' Practice jobs are not counted here.' : '';

/** The marks that the list of jobs holds, without any job being opened. Practice is no rotor's life. */
export function marksOf(heads: readonly Head[]): readonly (LifeMark & { readonly job: string })[] {
  return heads.flatMap((h) => {
    const { rotor, machine, did, hours, due } = h.summary;
    if (h.practice !== undefined || typeof rotor !== 'string' || rotor === '') return [];
    return [
      {
        job: h.id,
        rotor,
        machine: typeof machine === 'string' ? machine : '',
        did: typeof did === 'string' ? did : '',
        at: h.changed,
        ...(typeof hours === 'number' ? { hours } : {}),
        ...(typeof due === 'string' ? { due } : {}),
      },
    ];
  });
}

const order: readonly Due['when'][] = ['overdue', 'this week', 'this month', 'later', 'by hours'];

function whenOf(days: number | undefined): Due['when'] {
  if (days === undefined) return 'by hours';
  if (days < 0) return 'overdue';
  if (days <= 7) return 'this week';
  return days <= 31 ? 'this month' : 'later';
}

/**
 * @param marks of finished jobs, practice left out
 * @param today as `2026-11-25`
 * @returns one line a rotor that has a next look, what is most overdue first
 */
export function dueList(marks: readonly (LifeMark & { readonly job: string })[], today: string): readonly Due[] {
  const latest = new Map<string, LifeMark & { readonly job: string }>();
  for (const m of marks) {
    const known = latest.get(rotorKey(m.rotor));
    if (!known || known.at <= m.at) latest.set(rotorKey(m.rotor), m);
  }
  return [...latest.values()]
    .filter((m) => m.hours !== undefined)
    .map((m): Due => {
      const days = m.due === undefined ? undefined : Math.round((Date.parse(m.due) - Date.parse(today)) / DAY);
      return { ...m, when: whenOf(days), ...(days === undefined ? {} : { days }) };
    })
    .sort(
      (a, b) =>
        order.indexOf(a.when) - order.indexOf(b.when) ||
        (a.days ?? 0) - (b.days ?? 0) ||
        a.rotor.localeCompare(b.rotor, 'en'),
    );
}

/** A rotor that was here before. */
export interface KnownRotor {
  readonly rotor: string;
  readonly machine: string;
  /** Its next look; undefined where it has none. */
  readonly due?: Due;
}

/** Every rotor once: what is due first, then those without a next look, the latest of these first. */
export function knownRotors(
  marks: readonly (LifeMark & { readonly job: string })[],
  day: string,
): readonly KnownRotor[] {
  const due = dueList(marks, day);
  const seen = new Set(due.map((d) => rotorKey(d.rotor)));
  const others = [...marks]
    .sort((a, b) => (a.at < b.at ? 1 : -1))
    .filter((m) => {
      const isNew = !seen.has(rotorKey(m.rotor));
      seen.add(rotorKey(m.rotor));
      return isNew;
    });
  return [
    ...due.map((d) => ({ rotor: d.rotor, machine: d.machine, due: d })),
    ...others.map(({ rotor, machine }) => ({ rotor, machine })),
  ];
}

/** `Rotor 0317 (Line 4 fan): by 14 Mar 2027, after 500 h` */
export function dueWords(d: Due): string {
  const name = d.machine ? `${d.rotor} (${d.machine})` : d.rotor;
  const hours = d.hours === undefined ? '' : `${d.hours} h of running`;
  if (d.due === undefined)
    return `${name}: after ${hours} since ${d.at.slice(0, 10)}; nobody said how long it runs a day`;
  const late = d.days !== undefined && d.days < 0 ? `, ${-d.days} ${d.days === -1 ? 'day' : 'days'} late` : '';
  return `${name}: by ${d.due}${late} (${hours} since ${d.at.slice(0, 10)})`;
}

/** `12 days late, by 2026-05-03`: for a list. */
export function dueShort(d: Due): string {
  if (d.due === undefined || d.days === undefined) return `after ${d.hours} h since ${d.at.slice(0, 10)}`;
  const days = `${Math.abs(d.days)} ${Math.abs(d.days) === 1 ? 'day' : 'days'}`;
  const when = d.days < 0 ? `${days} late` : d.days === 0 ? 'today' : `in ${days}`;
  return `${when}, by ${d.due}`;
}

/** One line for the first screen; undefined when nothing is near. */
export function dueLine(list: readonly Due[]): string | undefined {
  const count = (when: Due['when']): number => list.filter((d) => d.when === when).length;
  const parts = (['overdue', 'this week', 'this month'] as const).flatMap((w) =>
    count(w) ? [`${count(w)} ${w}`] : [],
  );
  return parts.length ? parts.join(', ') : undefined;
}

export const dueHeadings: Readonly<Record<Due['when'], string>> = {
  overdue: 'Overdue',
  'this week': 'Within 7 days',
  'this month': 'Within 31 days',
  later: 'Later',
  'by hours': 'By the hour meter',
};

const two = (n: number): string => String(n).padStart(2, '0');

/** The day in the computer's own zone, as `2026-11-25`. */
export function today(ms: number): string {
  const d = new Date(ms);
  return `${d.getFullYear()}-${two(d.getMonth() + 1)}-${two(d.getDate())}`;
}
