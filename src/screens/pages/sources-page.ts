/** What the figures of this job stand on. */
import type { Desk } from '../desk.js';
import type { Page } from '../page.js';
import { TurnedPages } from './turned-pages.js';

export const sourcesPage = ({ app, state, stack }: Desk): Page =>
  new TurnedPages('sources', ['Where the figures come from'], app.sourcesTold(state), stack);
