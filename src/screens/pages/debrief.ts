/** What a practice job showed, or all of a class: what was caught, what was missed, what was expected. */
import type { App, ShownDebriefLine } from '../app-contract.js';
import type { Desk } from '../desk.js';
import type { Page, Stack } from '../page.js';
import { debriefBlock } from '../words/debrief-blocks.js';
import { ReadingPage } from './reading-page.js';

type Told = readonly ShownDebriefLine[];

function toldPage(name: string, head: string, told: Told | Promise<Told>, stack: Stack): Page {
  let lines: Told = [{ text: 'One moment …', as: 'plain' }];
  if ('then' in told)
    told.then(
      (l) => {
        lines = l;
        stack.changed();
      },
      (error: unknown) => {
        const why = error instanceof Error ? error.message : String(error);
        lines = [{ text: `The debrief could not be made: ${why}`, as: 'plain' }];
        stack.changed();
      },
    );
  else lines = told;
  return new ReadingPage({ name, head, blocks: (room) => lines.map((l) => debriefBlock(l, room)) }, stack);
}

export function debriefPage({ app, state, job, stack }: Desk): Page {
  return toldPage('debrief', `Debrief · ${state.ledger.job?.name ?? ''}`, app.debrief?.(state, job.id) ?? [], stack);
}

export const classPage = ({ classTold }: App, stack: Stack): Page =>
  toldPage('class', 'The class', classTold?.() ?? [], stack);
