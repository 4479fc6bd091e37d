/** A new job: its name, who works, and whether somebody learns. */
import type { Draft, Pace } from '../../engine/journal/entry.js';
import { sameInitials } from '../../engine/journal/initials.js';
import { type KnownRotor, marksOf } from '../../life/due.js';
import { rotorKey } from '../../life/life-mark.js';
import { type Taken, takeOverDrafts } from '../../life/take-over.js';
import type { Question } from '../../procedure/schema.js';
import type { App, ListedJob, Offered } from '../app-contract.js';
import type { Page, Stack } from '../page.js';
import { paragraph } from '../words/blocks.js';
import { initialsCheck, initialsOf } from '../words/initials.js';
import { timeOfDay } from '../words/times.js';
import { ask, type FormField, FormPage, type FormValues } from './form.js';
import { beforeYouBegin, layOut } from './open-job.js';
import { takeOverPage } from './take-over.js';

const who: Question = {
  kind: 'choice',
  key: 'who',
  label: 'Who works on it?',
  options: [
    { value: 'alone', label: 'I do', note: 'I check myself at hold points' },
    { value: 'mentored', label: 'I do, and a mentor signs the hold points' },
    { value: 'apprentice', label: 'An apprentice does, and I or another mentor sign' },
  ],
};

/** Finished jobs that a procedure can follow; practice is never followed by a look at a real machine. */
function followable(jobs: readonly ListedJob[], offered: Offered): readonly ListedJob[] {
  if (offered.follows === undefined) return [];
  const of = [offered.follows, ...(offered.followsOwn ? [offered.id] : [])];
  return jobs.filter(
    (j) => of.includes(j.procedure) && j.practice === undefined && !j.fault && j.summary.finished === true,
  );
}

const isOpen = (j: ListedJob): boolean => j.practice === undefined && j.summary.finished !== true;

/** Jobs of one rotor, the latest first; all of them where no rotor is known. */
function jobsOf(jobs: readonly ListedJob[], rotor: KnownRotor | undefined): readonly ListedJob[] {
  if (!rotor) return jobs;
  const own = new Set(marksOf(jobs).flatMap((m) => (rotorKey(m.rotor) === rotorKey(rotor.rotor) ? [m.job] : [])));
  return jobs.filter((j) => own.has(j.id)).sort((a, b) => (a.changed < b.changed ? 1 : -1));
}

const followKey = (o: Offered): string => `earlier_${o.id.replaceAll('-', '_')}`;

function fields(app: App, offered: readonly Offered[], rotor: KnownRotor | undefined): FormField[] {
  const listed = app.jobs.list();
  const all = listed.ok ? listed.value : [];
  const jobs = jobsOf(all, rotor);
  const titleOf = (id: string | undefined): string => offered.find((o) => o.id === id)?.title ?? id ?? '';
  const lacks = (o: Offered): boolean => o.follows !== undefined && followable(jobs, o).length === 0;
  const noteOf = (o: Offered): string =>
    [o.version, ...(o.shop ? ['the shop’s own'] : []), ...(lacks(o) ? ['no finished job to follow yet'] : [])].join(
      ', ',
    );
  const pick: FormField = {
    question: {
      kind: 'choice',
      key: 'procedure',
      label: 'Which procedure?',
      options: offered.map((o) => ({ value: o.id, label: o.title, note: noteOf(o) })),
    },
    check: (id) => {
      const o = offered.find((x) => x.id === id);
      if (!o || !lacks(o)) return undefined;
      return `“${o.title}” reads a finished job of “${titleOf(o.follows)}”, and there is none here. Finish that job first, or import it.`;
    },
  };
  const earlier = offered
    .filter((o) => o.follows !== undefined)
    .map(
      (o): FormField => ({
        when: (v) => offered.length === 1 || v.procedure === o.id,
        question: {
          kind: 'choice',
          key: followKey(o),
          label: 'Which finished job does it follow?',
          options: followable(jobs, o)
            .slice(0, 40)
            .map((j) => ({
              value: j.id,
              label: j.name,
              note: `finished ${timeOfDay(Date.parse(j.changed), app.now(), app.terminal.zone)}`,
            })),
        },
      }),
    );
  const other = (text: string, v: FormValues): string | undefined =>
    initialsCheck(text) ??
    (sameInitials(text, v.apprentice ?? v.by ?? '')
      ? 'The mentor is another person than the one who does the work.'
      : undefined);
  return [
    ...(offered.length > 1 || offered.some(lacks) ? [pick] : []),
    ...earlier,
    {
      question: ask('name', 'Name of the job', { help: 'Machine and rotor, as your shop calls them.', longest: 120 }),
      ...(rotor ? { start: [rotor.machine, `rotor ${rotor.rotor}`].filter(Boolean).join(', ').slice(0, 120) } : {}),
      check: (t) => {
        if (!t.trim()) return 'Type a name first, such as the machine and its rotor.';
        const same = all.find((j) => isOpen(j) && j.name.trim().toLowerCase() === t.trim().toLowerCase());
        if (!same) return undefined;
        const when = timeOfDay(Date.parse(same.changed), app.now(), app.terminal.zone);
        const by = typeof same.summary.by === 'string' && same.summary.by ? ` by ${same.summary.by}` : '';
        return `A job “${same.name}” is open, last worked on ${when}${by}. Go on with it from the first screen, or type another name, such as “${same.name} 2”.`;
      },
    },
    { question: ask('by', 'Your initials', { longest: 8 }), start: app.initials.get(), check: initialsCheck },
    { question: who },
    {
      question: ask('apprentice', 'Initials of the apprentice', { longest: 8 }),
      when: (v) => v.who === 'apprentice',
      check: initialsCheck,
    },
    {
      question: ask('mentor', 'Initials of the mentor', { longest: 8 }),
      when: (v) => v.who === 'apprentice' || v.who === 'mentored',
      check: other,
    },
  ];
}

type First = Extract<Draft, { kind: 'job' }>;

/** Makes the job, records pace and what was taken over, and lays it open. */
async function begin(
  app: App,
  stack: Stack,
  first: First,
  pace: Pace,
  taken: readonly Taken[],
  rotor?: string,
): Promise<void> {
  const opened = await app.jobs.create(first.name, first, rotor);
  if (!opened.ok) return stack.say(opened.trouble.sentence);
  const drafts: readonly Draft[] = [
    ...takeOverDrafts(taken, first.by),
    ...(pace === 'brisk' ? [{ kind: 'pace' as const, pace, by: first.by }] : []),
  ];
  const recorded = drafts.length ? await opened.value.append(drafts) : undefined;
  await layOut(app, stack, opened.value, false);
  if (recorded && !recorded.ok) stack.say(recorded.trouble.sentence);
}

/** @param rotor one that was here before, where that is known */
export function newJobPage(app: App, stack: Stack, rotor?: KnownRotor): Page {
  // Those that begin a history come before those that follow one.
  const offered = [...app.procedures()].sort((a, b) => Number(Boolean(a.follows)) - Number(Boolean(b.follows)));
  return new FormPage(
    {
      name: 'new-job',
      head: 'New job',
      title: rotor ? `New job on rotor ${rotor.rotor}` : undefined,
      intro: offered.length === 0 ? [paragraph(app.noProcedure ?? 'There is no procedure to work by.')] : [],
      fields: fields(app, offered, rotor),
      done: async (v) => {
        const procedure = offered.find((o) => o.id === v.procedure) ?? offered[0];
        if (!procedure) return stack.say(app.noProcedure ?? 'There is no procedure to work by.');
        const name = (v.name ?? '').trim();
        // The one at the keyboard is whose initials go beside what is recorded.
        const by = initialsOf(v.apprentice ?? v.by);
        const follows = v[followKey(procedure)];
        const first: First = {
          kind: 'job',
          name,
          by,
          procedure: procedure.id,
          version: procedure.version,
          hash: procedure.hash,
          ...(follows ? { earlier: follows } : {}),
          ...(v.apprentice ? { apprentice: initialsOf(v.apprentice) } : {}),
          ...(v.mentor ? { mentor: initialsOf(v.mentor) } : {}),
        };
        app.initials.set(initialsOf(v.by));
        const start = (kept: readonly Taken[]): Promise<void> =>
          beforeYouBegin(stack, procedure, (pace) => begin(app, stack, first, pace, kept, rotor?.rotor));
        const taken = rotor ? await app.takenOver?.(rotor.rotor, procedure.id) : undefined;
        if (typeof taken === 'string') stack.say(taken);
        else if (taken?.length) return stack.push(takeOverPage(app, stack, taken, start));
        await start([]);
      },
    },
    stack,
  );
}
