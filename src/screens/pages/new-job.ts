/** A new job: its name, who works, and whether somebody learns. */
import { initialsSentence } from '../../engine/propose.js';
import type { Question } from '../../procedure/schema.js';
import type { App, Offered } from '../app-contract.js';
import type { Page, Stack } from '../page.js';
import { paragraph } from '../words/blocks.js';
import { ask, type FormField, FormPage, type FormValues } from './form.js';
import { layOut } from './open-job.js';

const initials = /^\p{L}[\p{L}\p{N}.-]{0,7}$/u;
export const initialsCheck = (text: string): string | undefined =>
  initials.test(text.trim()) ? undefined : initialsSentence;

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

function fields(app: App, offered: readonly Offered[]): FormField[] {
  const pick: FormField[] =
    offered.length > 1
      ? [
          {
            question: {
              kind: 'choice',
              key: 'procedure',
              label: 'Which procedure?',
              options: offered.map((o) => ({ value: o.id, label: o.title, note: o.version })),
            },
          },
        ]
      : [];
  const followed = (v: FormValues): Offered | undefined =>
    offered.find((o) => o.follows !== undefined && (offered.length === 1 || o.id === v.procedure));
  const listed = app.jobs.list();
  const earlier: FormField[] = offered
    .filter((o) => o.follows !== undefined)
    .map((o) => {
      const jobs = (listed.ok ? listed.value : []).filter((j) => j.procedure === o.follows && !j.practice);
      return {
        when: (v) => followed(v)?.id === o.id,
        question: {
          kind: 'choice',
          key: `earlier_${o.id.replaceAll('-', '_')}`,
          label: 'Which job does it follow?',
          options: [
            { value: 'none', label: 'None of those here' },
            ...jobs.slice(0, 40).map((j) => ({ value: j.id, label: j.name, note: j.changed.slice(0, 10) })),
          ],
        },
      };
    });
  const other = (text: string, v: FormValues): string | undefined =>
    initialsCheck(text) ??
    (text.trim().toUpperCase() === (v.apprentice ?? v.by ?? '').trim().toUpperCase()
      ? 'The mentor is another person than the one who does the work.'
      : undefined);
  return [
    ...pick,
    ...earlier,
    {
      question: ask('name', 'Name of the job', { help: 'Machine and rotor, as your shop calls them.', longest: 120 }),
      check: (t) => (t.trim() ? undefined : 'Type a name first, such as the machine and its rotor.'),
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

export function newJobPage(app: App, stack: Stack): Page {
  // Those that begin a history come before those that follow one.
  const offered = [...app.procedures()].sort((a, b) => Number(Boolean(a.follows)) - Number(Boolean(b.follows)));
  return new FormPage(
    {
      name: 'new-job',
      head: 'New job',
      title: 'New job',
      intro: offered.length === 0 ? [paragraph(app.noProcedure ?? 'There is no procedure to work by.')] : [],
      fields: fields(app, offered),
      done: async (v) => {
        const procedure = offered.find((o) => o.id === v.procedure) ?? offered[0];
        if (!procedure) return stack.say(app.noProcedure ?? 'There is no procedure to work by.');
        const name = (v.name ?? '').trim();
        // The one at the keyboard is whose initials go beside what is recorded.
        const by = (v.apprentice ?? v.by ?? '').trim();
        const follows = v[`earlier_${procedure.id.replaceAll('-', '_')}`];
        const opened = await app.jobs.create(name, {
          kind: 'job',
          name,
          by,
          procedure: procedure.id,
          version: procedure.version,
          hash: procedure.hash,
          ...(follows && follows !== 'none' ? { earlier: follows } : {}),
          ...(v.apprentice ? { apprentice: v.apprentice.trim() } : {}),
          ...(v.mentor ? { mentor: v.mentor.trim() } : {}),
        });
        if (!opened.ok) return stack.say(opened.trouble.sentence);
        app.initials.set((v.by ?? '').trim());
        await layOut(app, stack, opened.value, false);
      },
    },
    stack,
  );
}
