/** The life of a rotor, over all its jobs and looks. */
import { isChar } from '../../keys/key.js';
import type { App } from '../app-contract.js';
import type { Page, Stack } from '../page.js';
import { TurnedPages } from './turned-pages.js';

export const rotorPage = (app: App, stack: Stack, rotor: string, start?: () => Page): Page =>
  new TurnedPages(
    'rotor',
    [`Rotor ${rotor}`],
    app.rotorTold(rotor),
    stack,
    start && {
      hint: { key: 's', does: 'start a job on it', rank: 1 },
      press: (key) => {
        if (!isChar(key, 's')) return undefined;
        stack.push(start());
        return true;
      },
    },
  );
