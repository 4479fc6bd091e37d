/** Rotors that were here before: what is due of them, their lives, and a new job on one of them. */
import { dueLine, dueShort, type KnownRotor, knownRotors, marksOf, today } from '../../life/due.js';
import { rotorKey } from '../../life/life-mark.js';
import type { App } from '../app-contract.js';
import type { Item } from '../look/line.js';
import type { Page, Stack } from '../page.js';
import { paragraph } from '../words/blocks.js';
import { newJobPage } from './new-job.js';
import { PickPage } from './pick-page.js';
import { rotorPage } from './rotor-page.js';

/** A sentence where the jobs can't be read. */
function rotorsOf(app: App): readonly KnownRotor[] | string {
  const listed = app.jobs.list();
  return listed.ok ? knownRotors(marksOf(listed.value), today(app.now())) : listed.trouble.sentence;
}

const itemOf = (r: KnownRotor): Item => ({
  value: rotorKey(r.rotor),
  label: `${r.rotor}${r.machine ? ` (${r.machine})` : ''}`,
  note: r.due ? dueShort(r.due) : 'no next look',
});

/** What has to be looked at, and when; each line leads to the life of that rotor. */
export function duePage(app: App, stack: Stack): Page {
  const rotors = rotorsOf(app);
  const list = typeof rotors === 'string' ? [] : rotors;
  const due = list.flatMap((r) => (r.due ? [r.due] : []));
  const none = 'No rotor has a next look yet. A finished job gives it one.';
  return new PickPage(
    {
      name: 'due',
      head: 'Rotors: what is due',
      filter: list.length > 9,
      numbers: list.length > 9,
      above: () => [
        typeof rotors === 'string'
          ? paragraph(rotors, { tone: 'strong' })
          : paragraph(
              due.length ? `${dueLine(due) ?? 'Nothing is due within 31 days'}. Pick a rotor to see its life.` : none,
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
  const rotors = rotorsOf(app);
  if (typeof rotors === 'string' || rotors.length === 0) return newJobPage(app, stack);
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
        const known = value === NEW ? undefined : rotors.find((r) => rotorKey(r.rotor) === value);
        stack.push(newJobPage(app, stack, known));
        return true;
      },
    },
    stack,
  );
}
