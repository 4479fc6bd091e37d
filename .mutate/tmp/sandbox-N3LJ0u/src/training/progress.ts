/** What a person has practised, as short lines that the store keeps by job: telling it twice changes nothing. Pure. */
// @ts-nocheck

import type { Debrief } from './debrief.js';

interface Attempt {
  readonly rotor: string;
  readonly job: string;
  /** ISO instant of the job's last entry. */
  readonly at: string;
  readonly finished: boolean;
  readonly caught: number;
  readonly late: number;
  readonly fell: number;
  readonly right: number;
  readonly close: number;
  readonly wrong: number;
}
export interface RotorProgress {
  readonly rotor: string;
  readonly attempts: readonly Attempt[];
  /** Finished at least once with every trap caught. */
  readonly mastered: boolean;
}

const MARK = 'practice ';

/** Name and value under which the store keeps it; none for a job that was on no practice rotor. */
export function attemptOf(jobId: string, d: Debrief): { readonly name: string; readonly value: string } | undefined {
  if (d.rotor === undefined || d.title === undefined) return undefined;
  const ends = (e: string): number => d.traps.filter((t) => t.end === e).length;
  const verdicts = (v: string): number => d.predictions.filter((p) => p.verdict === v).length;
  const attempt: Omit<Attempt, 'job'> = {
    rotor: d.rotor,
    at: d.lastEntry,
    finished: d.finished,
    caught: ends('caught'),
    late: ends('caught-late'),
    fell: ends('fell'),
    right: verdicts('right'),
    close: verdicts('close'),
    wrong: verdicts('wrong'),
  };
  return { name: `${MARK}${jobId}`, value: JSON.stringify(attempt) };
}

/** Reads back what the store kept; lines of other kinds and damaged ones are passed over. */
export function progressOf(kept: Readonly<Record<string, string | number | boolean>>): RotorProgress[] {
  const attempts = Object.entries(kept).flatMap(([name, value]) => {
    const read = name.startsWith(MARK) ? readAttempt(name.slice(MARK.length), value) : undefined;
    return read ? [read] : [];
  });
  const rotors = [...new Set(attempts.map((a) => a.rotor))].sort();
  return rotors.map((rotor) => {
    const own = attempts.filter((a) => a.rotor === rotor).sort((a, b) => (a.at < b.at ? -1 : 1));
    return { rotor, attempts: own, mastered: own.some((a) => a.finished && a.fell === 0 && a.caught + a.late > 0) };
  });
}

function readAttempt(job: string, value: unknown): Attempt | undefined {
  try {
    const a = JSON.parse(String(value)) as Partial<Attempt> | null;
    if (typeof a?.rotor !== 'string' || typeof a.at !== 'string') return undefined;
    const n = (x: unknown): number => (typeof x === 'number' && Number.isFinite(x) ? x : 0);
    return {
      rotor: a.rotor,
      job,
      at: a.at,
      finished: a.finished === true,
      caught: n(a.caught),
      late: n(a.late),
      fell: n(a.fell),
      right: n(a.right),
      close: n(a.close),
      wrong: n(a.wrong),
    };
  } catch {
    return undefined;
  }
}
