/** The first screen: jobs that are there, a new one, practice. */
import type { App, ListedJob } from '../app-contract.js';
import { isChar } from '../keys.js';
import { glyphs } from '../look/glyphs.js';
import type { Page, Stack } from '../page.js';
import { largest, paragraph } from '../words/blocks.js';
import { left, timeOfDay } from '../words/times.js';
import { PickPage } from './pick-page.js';

/** What lies behind the first screen is loaded when somebody goes there: the first frame needs none of it. */
const behind = () => import('../behind-home.js');

function noteOf(app: App, job: ListedJob): string {
  if (job.fault) return job.fault;
  const now = app.now();
  const s = job.summary;
  const until = typeof s.until === 'string' ? Date.parse(s.until) : Number.NaN;
  const wait = Number.isNaN(until)
    ? ''
    : until > now
      ? `waits: ${s.waits}, ${left(until - now)} left, until ${timeOfDay(until, now, app.terminal.zone)}`
      : `finished waiting: ${s.waits}`;
  const next = until <= now && s.after ? s.after : s.next;
  const at = s.finished === true ? 'finished' : typeof next === 'string' ? next : '';
  const when = job.changed ? timeOfDay(Date.parse(job.changed), now, app.terminal.zone) : '';
  return [at, wait, when].filter(Boolean).join('; ');
}

/** Jobs on the first screen, so that each choice there has a digit. */
const LATEST = 5;

const jobItem = (app: App, j: ListedJob) => ({
  value: `job:${j.id}`,
  label: j.practice ? `${j.name} [practice]` : j.name,
  note: noteOf(app, j),
});

/** Every job, the last changed first. */
function allJobsPage(app: App, stack: Stack, jobs: readonly ListedJob[]): Page {
  const items = jobs.map((j) => jobItem(app, j));
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

export function homePage(app: App, stack: Stack): Page {
  let seen: { readonly jobs: readonly ListedJob[]; readonly count: number; readonly trouble?: string } | undefined;
  const list = () => {
    if (!seen) {
      const found = app.jobs.latest();
      seen = found.ok ? found.value : { jobs: [], count: 0, trouble: found.trouble.sentence };
    }
    return seen;
  };
  const page = new PickPage(
    {
      name: 'home',
      head: 'rotorside',
      back: false,
      again() {
        seen = undefined;
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
        ...list()
          .jobs.slice(0, LATEST)
          .map((j) => jobItem(app, j)),
        { value: 'new', label: 'Start a job' },
        { value: 'practice', label: 'Practise on an invented rotor' },
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
        const { newJobPage, openJob, practicePage } = await behind();
        if (value === 'new') stack.push(newJobPage(app, stack));
        else if (value === 'practice') stack.push(practicePage(app, stack));
        else await openJob(app, stack, value.slice('job:'.length));
        return true;
      },
    },
    stack,
  );
  return page;
}
