/** The class that practised last, from the jobs of a data folder. */
import type { Library } from '../library/library.js';
import type { JobHead, Store } from '../store/open-store.js';
import type { ClassJob, PracticeClass } from '../training/class-lines.js';
import { debriefOfJob, noteProgress } from './debrief-of-job.js';
import { rotorById } from './practice-rotors.js';

/** What was worked on within so long before the last key is one class; ms. */
const LESSON = 12 * 60 * 60_000;

/** By the computer's clock: entries are ahead of it where time was let pass. */
function lastKey({ summary, changed }: JobHead, now: number): number {
  const at = Date.parse(typeof summary.touched === 'string' ? summary.touched : changed);
  return Number.isNaN(at) ? 0 : Math.min(at, now);
}

/** Jobs of one rotor that were made one right after the other are one class; ms. */
const TOGETHER = 2 * 60_000;

/** What nobody has opened for so long was set up by mistake, or for somebody who did not come; ms. */
const UNOPENED = 60 * 60_000;

interface Made extends ClassJob {
  readonly setUp: number;
  readonly last: number;
}

const two = (n: number): string => String(n).padStart(2, '0');
const clock = (ms: number): string => `${two(new Date(ms).getHours())}:${two(new Date(ms).getMinutes())}`;
const who = (of: readonly Made[]): string => of.map((j) => j.debrief.apprentice).join(', ');

/** Jobs in the order in which they were made, those together that were made for one class. */
function sets(jobs: readonly Made[]): Made[][] {
  const found: Made[][] = [];
  for (const job of [...jobs].sort((a, b) => a.setUp - b.setUp)) {
    const own = found.find((s) => {
      const last = s.at(-1);
      return last && last.debrief.rotor === job.debrief.rotor && job.setUp - last.setUp <= TOGETHER;
    });
    if (own) own.push(job);
    else found.push([job]);
  }
  return found;
}

/** The class that was set up last, with whoever has typed since then in another job or is still at work on one. */
function lastClass(all: readonly Made[]): Pick<PracticeClass, 'jobs' | 'head' | 'older'> {
  const made = sets(all);
  const own = made.findLast((s) => s.length > 1);
  const [first] = own ?? [];
  if (!own || !first) return { jobs: all, older: [] };
  const { title = first.debrief.job, mentor } = first.debrief;
  const isNow = (j: Made): boolean =>
    own.includes(j) || j.setUp >= first.setUp || (j.debrief.begun && (!j.debrief.finished || j.last > first.setUp));
  return {
    head: `Class of ${clock(first.setUp)}, ${title}${mentor ? `, mentor ${mentor}` : ''}: ${who(own)}.`,
    jobs: all.filter(isNow),
    older: made.flatMap((s) => {
      const rest = s.filter((j) => !isNow(j));
      const idle = rest.filter((j) => !j.debrief.begun).length;
      const done = rest.length - idle;
      const told = [done ? `${done} finished` : '', idle ? `${idle} not begun` : ''].filter(Boolean).join(', ');
      return rest[0] ? [`Older, ${rest[0].debrief.title ?? rest[0].debrief.job}: ${told}.`] : [];
    }),
  };
}

function placed({ summary, changed }: JobHead, now: number): Pick<ClassJob, 'next' | 'waits'> {
  const { next, after, waits } = summary;
  const until = typeof summary.until === 'string' ? Date.parse(summary.until) : Number.NaN;
  const waiting = until > Math.max(now, Date.parse(changed) || 0);
  return {
    next: String((!waiting && after) || next || 'not begun'),
    // A step that can be done meanwhile is no wait.
    ...(waiting && !next && typeof waits === 'string' ? { waits } : {}),
  };
}

const nobody = 'Nobody has practised here yet; start with rotorside practice.';

/** A sentence when there is none, or the jobs can't be read. */
export async function classIn(
  store: Store,
  library: Library,
  folder: string,
  now: number,
): Promise<(PracticeClass & { readonly troubles: readonly string[] }) | string> {
  const listed = store.list();
  if (!listed.ok) return listed.trouble.sentence;
  const all = listed.value.filter((j) => j.practice !== undefined && !j.fault && rotorById(library, j.practice));
  const last = Math.max(...all.map((j) => lastKey(j, now)));
  const own = all.filter((j) => last - lastKey(j, now) <= LESSON);
  if (!own.length) return nobody;
  const troubles: string[] = [];
  const jobs: Made[] = [];
  for (const head of own) {
    // Each takes as long as a frame or more: between them a page is drawn, and Esc leaves it.
    await new Promise((go) => setTimeout(go));
    const debrief = await debriefOfJob(store, library, folder, head);
    if (typeof debrief === 'string') {
      troubles.push(debrief);
      continue;
    }
    const trouble = await noteProgress(store, head.id, debrief);
    if (trouble) troubles.push(trouble);
    const at = lastKey(head, now);
    const setUp = Math.min(Date.parse(debrief.setUp) || 0, now);
    const since = clock(debrief.begun ? at : setUp);
    jobs.push({ debrief, ...placed(head, now), still: (now - at) / 60_000, since, setUp, last: at });
  }
  const met = jobs.filter((j) => j.debrief.begun || now - j.setUp <= UNOPENED);
  if (!met.length && !troubles.length) return nobody;
  return {
    day: new Date(last).toISOString().slice(0, 10),
    ...lastClass(met),
    over: now - last > LESSON,
    left: all.length - own.length,
    troubles,
  };
}
