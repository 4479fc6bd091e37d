/** Every key and what it does. */
// @ts-nocheck

import type { Desk } from '../desk.js';
import type { Block, Line } from '../look/line.js';
import { wrap } from '../look/wrap.js';
import type { Page } from '../page.js';
import { heading } from '../words/blocks.js';
import { ReadingPage } from './reading-page.js';

const groups: readonly (readonly [string, readonly (readonly [string, string])[]])[] = [
  [
    'Answering',
    [
      ['1-9', 'pick that line at once'],
      ['↑ ↓', 'move in a list; pick the unit of a measured value'],
      ['Enter', 'record what was typed or picked; one more on a counter'],
      ['9', 'confirm a danger, a hold point or a correction: always this key'],
      ['0 and +', 'record a count or a series; an unusual value all the same'],
      ['Backspace', 'take off the last character or the last one of a series'],
    ],
  ],
  [
    'Any time (in a text press Esc first)',
    [
      ['u or *', 'undo: once more takes back what it names; y or / brings it back'],
      ['w', 'why this step, and what goes wrong without it'],
      ['d and n', 'the drawing; where this number comes from'],
      ['r', 'put right what was done under an old figure'],
      ['Tab', 'the other bearing'],
      ['o', 'the whole job: how far, what is to come, read ahead'],
      ['m', 'menu: notes, correct a reading, what if, events, sheet, pace, leave'],
      ['?', 'this page'],
      ['Esc', 'one step back, always'],
      ['Ctrl-C', 'close at once; all that was recorded is safe'],
    ],
  ],
];

export function keysPage(desk: Pick<Desk, 'stack'>): Page {
  const row = (key: string, does: string): Block => ({
    rank: 1,
    lines: (width): Line[] => wrap([{ text: `  ${key.padEnd(11)}`, tone: 'strong' }, { text: does }], width, 13),
  });
  return new ReadingPage(
    {
      name: 'keys',
      head: 'All keys',
      blocks: () => groups.flatMap(([title, rows]) => [heading(title), ...rows.map(([k, d]) => row(k, d))]),
    },
    desk.stack,
  );
}
