/** Who stands behind the initials, for whom the work is done, and which shop does it: for the first page of the sheet. */
import { sameInitials } from '../../engine/journal/initials.js';
import { namesOf } from '../../engine/state/state.js';
import type { Desk } from '../desk.js';
import type { Page } from '../page.js';
import { ask, FormPage } from './form.js';
import { PickPage } from './pick-page.js';

/** Everybody who worked or signed, and who was named. */
function initialsOf({ state }: Desk): readonly string[] {
  const { job } = state.ledger;
  const all = state.entries.flatMap((e) => ('initials' in e ? [e.by, e.initials] : [e.by]));
  const named = [job?.apprentice, job?.mentor].filter((i) => i !== undefined);
  return [...all, ...named].filter((x, i, list) => list.findIndex((y) => sameInitials(x, y)) === i);
}

function namePage(desk: Desk, of: string, question: string, before: string | undefined): Page {
  return new FormPage(
    {
      name: 'name',
      head: 'Names for the sheet',
      title: question,
      fields: [{ question: ask('name', question, { longest: 80 }), ...(before ? { start: before } : {}) }],
      done: async ({ name = '' }) => {
        if ((await desk.act({ do: 'name', of, name })) === 'done') desk.stack.pop();
      },
    },
    desk.stack,
  );
}

export function namesPage(desk: Desk): Page {
  const names = () => namesOf(desk.state);
  return new PickPage(
    {
      name: 'names',
      head: 'Names for the sheet',
      items: () => [
        ...initialsOf(desk).map((i) => ({ value: i, label: i, note: names().get(i) ?? 'no name yet' })),
        { value: 'customer', label: 'Done for', note: names().get('customer') ?? 'whose machine it is' },
        { value: 'issuer', label: 'Done by the shop', note: names().get('issuer') ?? 'name and address' },
      ],
      picked: (value) => {
        const question =
          value === 'customer' ? 'Done for' : value === 'issuer' ? 'Shop, name and address' : `Name of ${value}`;
        desk.stack.push(namePage(desk, value, question, names().get(value)));
        return true;
      },
    },
    desk.stack,
  );
}
