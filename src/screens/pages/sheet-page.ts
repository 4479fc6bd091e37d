/** The job sheet as it stands. */
import type { Desk } from '../desk.js';
import type { Page } from '../page.js';
import { TurnedPages } from './turned-pages.js';

export const sheetPage = ({ app, state, stack, job }: Desk): Page =>
  new TurnedPages('sheet', ['Job sheet', state.ledger.job?.name ?? ''], app.sheetTold(state, job.id), stack);
