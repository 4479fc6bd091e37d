/** Practice on an invented rotor: a job like any other, marked as practice. */
import { sameInitials } from '../../engine/journal/initials.js';
import type { Question } from '../../procedure/questions/index.js';
import type { App, LaidOut, PracticeHead } from '../app-contract.js';
import type { Page, Stack } from '../page.js';
import { pair, paragraph } from '../words/blocks.js';
import { initialsCheck, initialsOf } from '../words/initials.js';
import { classPage } from './debrief.js';
import { ask, type FormField, FormPage, type FormValues } from './form.js';
import { beforeYouBegin, layOut } from './open-job.js';
import { PickPage } from './pick-page.js';

function mentorCheck(text: string, v: FormValues): string | undefined {
  if (text.trim() === '') return undefined;
  return (
    initialsCheck(text) ??
    (sameInitials(text, v.by ?? '') ? 'The mentor is another person than the one who practises.' : undefined)
  );
}

const lessons: Extract<Question, { kind: 'choice' }> = {
  kind: 'choice',
  key: 'lessons',
  label: 'Lessons, says your mentor',
  options: [
    { value: 'at-end', label: 'At the end', note: 'what was done wrong shows later, as on the bench' },
    { value: 'at-once', label: 'As soon as harm is done' },
  ],
};
const START = 'start';
const beginAt = (phases: NonNullable<PracticeHead['phases']>): Question => ({
  kind: 'choice',
  key: 'from',
  label: 'Where do you begin?',
  options: [{ value: START, label: 'At the start' }, ...phases.map((p) => ({ value: p.id, label: `At “${p.title}”` }))],
});

const ANY = 'any';
const CLASS = 'class';

/** @param given as at `beginPage`, for the rotor that is picked */
export function practicePage(app: App, stack: Stack, given: LaidOut = {}): Page {
  const rotors = app.practices();
  const jobs = app.classTold ? app.jobs.list() : undefined;
  const practised = jobs?.ok === true && jobs.value.some((j) => j.practice !== undefined);
  const only = rotors.length === 1 ? rotors[0] : undefined;
  if (only && !app.drawPractice) return beginPage(app, stack, only, given);
  return new PickPage(
    {
      name: 'practice',
      head: 'Practice',
      bare: true,
      title: rotors.length ? 'Which invented rotor?' : 'There is no practice rotor here.',
      items: () => [
        ...rotors.map((r) => ({ value: r.id, label: r.title })),
        ...(app.drawPractice && rotors.length
          ? [{ value: ANY, label: 'Another one, drawn by chance', note: 'never the same twice' }]
          : []),
        ...(practised
          ? [{ value: CLASS, label: 'The class', note: 'who is stuck, what all expected and misread' }]
          : []),
      ],
      picked: async (id) => {
        if (id === CLASS) {
          stack.push(classPage(app, stack));
          return true;
        }
        const rotor =
          id === ANY ? await app.drawPractice?.(undefined, app.initials.get()) : rotors.find((r) => r.id === id);
        if (rotor) stack.push(beginPage(app, stack, rotor, given));
        return true;
      },
    },
    stack,
  );
}

/** @param given what was set beforehand, and held against what it may be */
export function beginPage(app: App, stack: Stack, rotor: PracticeHead, given: LaidOut = {}): Page {
  const phases = rotor.phases ?? [];
  const intro = [
    ...(rotor.story ? [paragraph(rotor.story, { rank: 1 })] : []),
    paragraph(
      'This rotor is invented. The guide tells what it shows; you type it as on the bench. Say what you expect before the guide does.',
      { rank: 2 },
    ),
  ];
  const set = [
    ['Your initials', given.by],
    ['Initials of your mentor', given.mentor],
    [lessons.label, lessons.options.find((o) => o.value === given.lessons)?.label],
    ['Begins at', phases.find((p) => p.id === given.from)?.title],
  ].flatMap(([name, text]) => (name && text ? [pair(name, text, { rank: 3 })] : []));
  const fields: FormField[] = [
    // Marks go by them: who practised last is not offered.
    { question: ask('by', 'Your initials', { longest: 8 }), check: initialsCheck },
    {
      question: ask('mentor', 'Initials of your mentor', {
        help: 'Who signs at hold points. Alone? Leave it empty, then you check yourself.',
        longest: 8,
        optional: true,
      }),
      check: (text, v) => mentorCheck(text, { ...given, ...v }),
    },
    { question: lessons, when: (v) => (v.mentor ?? given.mentor ?? '').trim() !== '' },
    ...(phases.length ? [{ question: beginAt(phases), start: START }] : []),
  ];
  const asked = fields.filter((f) => given[f.question.key] === undefined);
  return new FormPage(
    {
      name: 'begin-practice',
      head: 'Practice',
      title: rotor.title,
      intro: [...intro, ...set],
      fields: asked,
      ...(asked.length ? {} : { confirm: () => ({ key: 'Enter', does: 'begin', blocks: [...intro, ...set] }) }),
      done: async (typed) => {
        const v: FormValues = { ...given, ...typed };
        const procedure = app.procedures().find((o) => o.id === rotor.procedure);
        if (!procedure) return stack.say('The procedure of this practice rotor is not here.');
        const by = initialsOf(v.by);
        const from = phases.find((p) => p.id === v.from)?.id;
        await beforeYouBegin(stack, procedure, async (pace) => {
          if (from !== undefined) {
            // It takes some seconds, and what is asked behind it nobody has seen.
            stack.forgetAhead();
            stack.say('One moment: what comes before is filled in.', 'good');
            stack.changed();
          }
          const opened = await app.jobs.create(rotor.title, {
            kind: 'job',
            name: rotor.title,
            by,
            procedure: procedure.id,
            version: procedure.version,
            hash: procedure.hash,
            practice: rotor.id,
            apprentice: by,
            ...(v.mentor?.trim() ? { mentor: initialsOf(v.mentor) } : {}),
            ...(v.lessons === 'at-once' ? { lessons: 'at-once' as const } : {}),
            ...(from === undefined ? {} : { from }),
          });
          if (!opened.ok) return stack.say(opened.trouble.sentence);
          app.initials.set(by);
          if (opened.notice) stack.say(opened.notice);
          if (pace === 'brisk') await opened.value.append([{ kind: 'pace', pace, by }]);
          await layOut(app, stack, opened.value, false);
        });
      },
    },
    stack,
  );
}
