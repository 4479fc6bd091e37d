/** Words for the sheet, and words for whoever comes next. */
import type { Desk } from '../desk.js';
import type { Page } from '../page.js';
import { loneKey } from '../step/command-keys.js';
import { heading, paragraph } from '../words/blocks.js';
import { placeWords } from '../words/entry-words.js';
import { timeOfDay } from '../words/times.js';
import { ask, FormPage } from './form.js';
import { ReadingPage } from './reading-page.js';

const lone = (text: string): string | undefined =>
  loneKey(text) && `“${text.trim()}” alone says nothing: type it in words.`;

export function notePage(desk: Desk, place: string): Page {
  return new FormPage(
    {
      name: `note@${place}`,
      kept: desk,
      head: `Note · ${placeWords(desk.state, place)}`,
      title: 'A note for the job sheet',
      fields: [{ question: ask('text', 'Note', { longest: 2000 }), check: lone }],
      done: async (v) => {
        if ((await desk.act({ do: 'note', place, text: v.text ?? '' })) !== 'done') return;
        desk.dropInput(`note@${place}:text`);
        desk.stack.popTo('step');
      },
    },
    desk.stack,
  );
}

/** All that was noted, the latest first, with where, who and when. */
export function readNotesPage(desk: Desk): Page {
  return new ReadingPage(
    {
      name: 'notes',
      head: 'Notes and handovers',
      blocks: () =>
        [...desk.state.ledger.notes].reverse().flatMap((n) => {
          const where = n.kind === 'note' ? placeWords(desk.state, n.place) : 'Handover';
          const when = timeOfDay(Date.parse(n.at), desk.state.now, desk.app.terminal.zone);
          return [heading(`${where} · ${n.by}, ${when}`), paragraph(n.text, { indent: 2 })];
        }),
    },
    desk.stack,
  );
}

export function handoverPage(desk: Desk): Page {
  const before = desk.state.ledger.handover;
  return new FormPage(
    {
      name: 'handover',
      kept: desk,
      head: 'Handover',
      title: 'Message for the next person',
      intro: [
        paragraph('It stands on the first screen when this job is opened again.', { rank: 3, tone: 'quiet' }),
        ...(before ? [paragraph(`Last message, from ${before.by}: ${before.text}`, { rank: 3 })] : []),
      ],
      fields: [{ question: ask('text', 'What must they know?', { longest: 2000 }), check: lone }],
      done: async (v) => {
        if ((await desk.act({ do: 'handover', text: v.text ?? '' })) !== 'done') return;
        desk.dropInput('handover:text');
        desk.stack.popTo('step');
      },
    },
    desk.stack,
  );
}
