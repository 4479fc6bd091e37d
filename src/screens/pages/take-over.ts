/** What a new job on a known rotor takes over from earlier ones: looked at on one page, confirmed by one key. */
import type { Taken } from '../../life/take-over.js';
import type { App } from '../app-contract.js';
import type { Item } from '../look/line.js';
import type { Page, Stack } from '../page.js';
import { paragraph } from '../words/blocks.js';
import { timeOfDay } from '../words/times.js';
import { PickPage } from './pick-page.js';

const ALL = 'all';

/** `Fan 3, 2026-03-04`. */
const sourceWords = (app: App, { from }: Taken): string =>
  `${from.name}, ${timeOfDay(Date.parse(from.at), app.now(), app.terminal.zone)}`;

/** Step by step what one place takes over: what is picked is asked anew. */
function placePage(app: App, stack: Stack, where: string, own: readonly Taken[], anew: Set<Taken>): Page {
  return new PickPage(
    {
      name: 'take-over-place',
      head: 'Known from earlier jobs',
      title: where,
      above: () => [paragraph('Pick what is not so. It is asked anew in its step.')],
      items: () =>
        own.map((t, i) => ({
          value: String(i),
          label: `${t.title}: ${t.says.join('; ')}`,
          note: `from ${sourceWords(app, t)}`,
          on: !anew.has(t),
        })),
      picked: (value) => {
        const t = own[Number(value)];
        if (t && !anew.delete(t)) anew.add(t);
        return true;
      },
      hints: [{ key: '[x]', does: 'taken over', rank: 3 }],
    },
    stack,
  );
}

/** @param begin starts the job with what was confirmed */
export function takeOverPage(
  app: App,
  stack: Stack,
  taken: readonly Taken[],
  begin: (kept: readonly Taken[]) => Promise<void>,
): Page {
  const anew = new Set<Taken>();
  const places = [...new Set(taken.map((t) => t.where))];
  const at = (where: string): readonly Taken[] => taken.filter((t) => t.where === where);
  const nameOf = (where: string): string => where || 'Whole job';
  const sources = [...new Set(taken.map((t) => sourceWords(app, t)))];
  const placeItem = (where: string): Item => {
    const own = at(where);
    const off = own.filter((t) => anew.has(t)).length;
    const from = sources.length > 1 ? [...new Set(own.map((t) => sourceWords(app, t)))].join('; ') : '';
    const note = [from && `from ${from}`, off && `${off} asked anew`].filter(Boolean).join(', ');
    return {
      value: where || 'job',
      label: `${nameOf(where)}: ${own.flatMap((t) => t.says).join('; ')}`,
      ...(note ? { note } : {}),
    };
  };
  return new PickPage(
    {
      name: 'take-over',
      head: 'Known from earlier jobs',
      bare: true,
      above: () => [
        paragraph(`From ${sources.join('; ')}. Hold it against the rotor. Pick a line where something is not so.`),
      ],
      items: () => [
        { value: ALL, label: anew.size ? 'The rest is so. Begin' : 'All of it is so. Begin' },
        ...places.map(placeItem),
      ],
      picked: async (value) => {
        if (value === ALL) {
          await begin(taken.filter((t) => !anew.has(t)));
          return true;
        }
        const where = value === 'job' ? '' : value;
        stack.push(placePage(app, stack, nameOf(where), at(where), anew));
        return true;
      },
    },
    stack,
  );
}
