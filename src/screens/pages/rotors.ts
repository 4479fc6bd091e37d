/** Rotors that were here before: what is due of them, their lives, and a new job on one of them. */
import { dueLine, dueShort, type KnownRotor, knownRotors, marksOf, practiceNote, today } from '../../life/due.js';
import { rotorKey } from '../../life/life-mark.js';
import type { App } from '../app-contract.js';
import type { Item } from '../look/line.js';
import type { Page, Stack } from '../page.js';
import { paragraph } from '../words/blocks.js';
import { newJobPage } from './new-job.js';
import { PickPage } from './pick-page.js';
import { rotorPage } from './rotor-page.js';

/** The rotors, and what is said where there are none; a sentence where the jobs can't be read. */
function rotorsOf(app: App): { readonly list: readonly KnownRotor[]; readonly none: string } | string {
  const listed = app.jobs.list();
  if (!listed.ok) return listed.trouble.sentence;
  const none = `No rotor has a next look yet. A finished job gives it one.${practiceNote(listed.value)}`;
  return { list: knownRotors(marksOf(listed.value), today(app.now())), none };
}

const itemOf = (r: KnownRotor): Item => ({
  value: rotorKey(r.rotor),
  label: `${r.rotor}${r.machine ? ` (${r.machine})` : ''}`,
  note: r.due ? dueShort(r.due) : 'no next look',
});

/** What has to be looked at, and when; each line leads to the life of that rotor. */
export function duePage(app: App, stack: Stack): Page {
  const rotors = rotorsOf(app);
  const { list, none } = typeof rotors === 'string' ? { list: [], none: rotors } : rotors;
  const due = list.flatMap((r) => (r.due ? [r.due] : []));
  return new PickPage(
    {
      name: 'due',
      head: 'Rotors: what is due',
      filter: list.length > 9,
      numbers: list.length > 9,
      above: () => [
        paragraph(
          due.length ? `${dueLine(due) ?? 'Nothing is due within 31 days'}. Pick a rotor to see its life.` : none,
          typeof rotors === 'string' ? { tone: 'strong' } : {},
        ),
      ],
      items: () => list.map(itemOf),
      picked: (value) => {
        const hit = list.find((r) => rotorKey(r.rotor) === value);
        if (hit) stack.push(rotorPage(app, stack, hit.rotor, () => newJobPage(app, stack, hit)));
        return true;
      },
    },
    stack,
  );
}

const NEW = 'new rotor';

/** On which rotor, where some were here before; else the new job at once. */
export function startPage(app: App, stack: Stack): Page {
  const known = rotorsOf(app);
  const rotors = typeof known === 'string' ? [] : known.list;
  if (rotors.length === 0) return newJobPage(app, stack);
  return new PickPage(
    {
      name: 'which-rotor',
      head: 'New job',
      title: 'Which rotor?',
      bare: true,
      filter: rotors.length > 8,
      numbers: rotors.length > 8,
      items: () => [{ value: NEW, label: 'One that was not here before' }, ...rotors.map(itemOf)],
      picked: (value) => {
        const picked = value === NEW ? undefined : rotors.find((r) => rotorKey(r.rotor) === value);
        stack.push(newJobPage(app, stack, picked));
        return true;
      },
    },
    stack,
  );
}
