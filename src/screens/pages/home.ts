/** The first screen: jobs that are there, a new one, practice. */

import { isChar } from '../../keys/key.js';
import { dueLine, dueList, marksOf, today } from '../../life/due.js';
import type { App, ListedJob } from '../app-contract.js';
import { glyphs } from '../look/glyphs.js';
import type { Item } from '../look/line.js';
import type { Page, Stack } from '../page.js';
import { largest, paragraph } from '../words/blocks.js';
import { left, timeOfDay } from '../words/times.js';
import { PickPage } from './pick-page.js';

/** What lies behind the first screen is loaded when somebody goes there: the first frame needs none of it. */
const behind = () => import('../behind-home.js');

/** In practice time may have been let pass: entries lie ahead of the clock by which somebody looks who is stuck. */
function lastKey(job: ListedJob, now: number): number {
  const { touched } = job.summary;
  const at = Date.parse(job.practice && typeof touched === 'string' ? touched : job.changed);
  return job.practice ? Math.min(at, now) : at;
}

function noteOf(app: App, job: ListedJob, to: 'minute' | 'second'): string {
  const now = app.now();
  const when = job.changed ? timeOfDay(lastKey(job, now), now, app.terminal.zone, to) : '';
  if (job.fault) return to === 'second' && when ? `${job.fault} ${when}` : job.fault;
  const s = job.summary;
  const until = typeof s.until === 'string' ? Date.parse(s.until) : Number.NaN;
  const wait = Number.isNaN(until)
    ? ''
    : until > now
      ? `waits: ${s.waits}, ${left(until - now)} left, until ${timeOfDay(until, now, app.terminal.zone)}`
      : `finished waiting: ${s.waits}`;
  const next = until <= now && s.after ? s.after : s.next;
  const at =
    s.finished === true ? 'finished' : typeof next === 'string' ? next : job.practice ? 'nothing typed yet' : '';
  return [at, wait, when].filter(Boolean).join('; ');
}

/** Jobs on the first screen, so that each choice there has a digit. */
const LATEST = 5;

/** Jobs of one name are told apart by when they were last worked on: to the second where the minute is the same. */
function jobItems(app: App, jobs: readonly ListedJob[]): readonly Item[] {
  const item = (j: ListedJob, to: 'minute' | 'second') => ({
    value: `job:${j.id}`,
    label: j.practice
      ? `${j.name} [practice${typeof j.summary.by === 'string' && j.summary.by ? `, ${j.summary.by}` : ''}]`
      : j.name,
    note: noteOf(app, j, to),
  });
  const items = jobs.map((j) => item(j, 'minute'));
  const words = (i: Item): string => `${i.label}\n${i.note}`;
  const count = new Map<string, number>();
  for (const i of items) count.set(words(i), (count.get(words(i)) ?? 0) + 1);
  return items.map((i, n) => ((count.get(words(i)) ?? 0) > 1 ? item(jobs[n]!, 'second') : i));
}

/** Every job, the last changed first. */
function allJobsPage(app: App, stack: Stack, jobs: readonly ListedJob[]): Page {
  const items = jobItems(app, jobs);
  return new PickPage(
    {
      name: 'all-jobs',
      head: 'All jobs',
      above: () => [],
      items: () => items,
      picked: async (value) => {
        await (await behind()).openJob(app, stack, value.slice('job:'.length));
        return true;
      },
    },
    stack,
  );
}

const troubled = (sentence: string | undefined) =>
  sentence === undefined ? [] : [paragraph(sentence, { tone: 'strong', gap: true })];

/** Above this many jobs they are counted behind the first frame. */
const FEW = 200;
/** Milliseconds until then: whoever answers the first frame at once is not kept waiting. */
const BEHIND = 400;

/** What is due, in a few words beside its line: it never moves the lines. */
function dueNote(app: App, stack: Stack, count: () => number) {
  const usual = 'their lives, when to look again';
  let words: string | undefined;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const read = (): string => {
    const listed = app.jobs.list();
    return (listed.ok && dueLine(dueList(marksOf(listed.value), today(app.now())))) || usual;
  };
  return {
    words(): string {
      if (words === undefined && count() <= FEW) words = read();
      if (words === undefined && !timer) {
        timer = setTimeout(() => {
          words = read();
          stack.changed();
        }, BEHIND);
        timer.unref();
      }
      return words ?? usual;
    },
    again(): void {
      if (timer) clearTimeout(timer);
      timer = undefined;
      words = undefined;
    },
  };
}

export function homePage(app: App, stack: Stack): Page {
  let seen: { readonly jobs: readonly ListedJob[]; readonly count: number; readonly trouble?: string } | undefined;
  const list = () => {
    if (!seen) {
      const found = app.jobs.latest();
      seen = found.ok ? found.value : { jobs: [], count: 0, trouble: found.trouble.sentence };
    }
    return seen;
  };
  const due = dueNote(app, stack, () => list().count);
  const page = new PickPage(
    {
      name: 'home',
      head: 'rotorside',
      back: false,
      again() {
        seen = undefined;
        due.again();
      },
      above: (room) => [
        ...(list().count === 0
          ? [
              largest('No job yet. Start one, or practise first on an invented rotor.', glyphs(room.ascii).bar),
              paragraph('A guide for regreasing sealed high-speed hybrid bearings in place.', {
                rank: 4,
                tone: 'quiet',
              }),
            ]
          : [largest('Go on with a job, or start another.', glyphs(room.ascii).bar, 2)]),
        ...troubled(list().trouble),
      ],
      items: () => [
        ...jobItems(app, list().jobs.slice(0, LATEST)),
        { value: 'new', label: 'Start a job' },
        { value: 'practice', label: 'Practise on an invented rotor' },
        ...(list().count > 0 ? [{ value: 'due', label: 'Rotors: what is due', note: due.words() }] : []),
        ...(list().count > LATEST ? [{ value: 'all', label: `All ${list().count} jobs` }] : []),
        { value: 'quit', label: 'Close' },
      ],
      hints: [
        { key: '?', does: 'keys', rank: 2 },
        { key: 'q', does: 'close', rank: 1 },
      ],
      press(key) {
        if (isChar(key, 'q')) {
          stack.quit(0);
          return true;
        }
        if (isChar(key, '?')) {
          return behind().then(({ keysPage }) => {
            stack.push(keysPage({ stack }));
            return true;
          });
        }
        return undefined;
      },
      picked: async (value) => {
        if (value === 'quit') {
          stack.quit(0);
          return true;
        }
        if (value === 'all') {
          const all = app.jobs.list();
          if (all.ok) stack.push(allJobsPage(app, stack, all.value));
          else stack.say(all.trouble.sentence);
          return true;
        }
        const { duePage, openJob, practicePage, startPage } = await behind();
        if (value === 'due') stack.push(duePage(app, stack));
        else if (value === 'new' || value === 'practice') {
          const can = app.jobs.canSave?.();
          if (can && !can.ok) stack.say(can.trouble.sentence);
          else stack.push(value === 'new' ? startPage(app, stack) : practicePage(app, stack));
        } else await openJob(app, stack, value.slice('job:'.length));
        return true;
      },
    },
    stack,
  );
  return page;
}
