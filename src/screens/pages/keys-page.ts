/** Every key and what it does. */
import type { Desk } from '../desk.js';
import type { Block, Line } from '../look/line.js';
import { wrap } from '../look/wrap.js';
import type { Page } from '../page.js';
import { commandKeys, commands } from '../step/command-keys.js';
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
      ['=', 'in practice: take what the rotor shows, until something needs you'],
    ],
  ],
  [
    'Any time (in a text press Esc first)',
    [
      ...commands.flatMap((c) => (commandKeys[c].told ? [commandKeys[c].told] : [])),
      ['Ctrl-C', 'close at once; all that was recorded is safe'],
    ],
  ],
  [
    'What can be typed',
    [
      ['14.5', 'or 14,5: a bare number has the unit that stands beside it'],
      ['1.45 cm', 'or any usual unit: 0.571 in, 158 F, 12 krpm, 4.5 oz, 1.5 cc'],
      ['8 +- 0.1', 'or 8±0.1: how far off it can be, when you know better than the guide'],
      ['300 Hz 2 pp', 'the speed of a drive that shows Hz, with the pole pairs of its motor'],
      ['6204-2RS C3', 'a size as it is printed on the ring'],
      ['8x6x3 m', 'the sides of a room or of a block'],
      ['1 h 30 min', 'or 1h30, 90 min, 1.5 h: a time'],
      ['nothing', 'Enter alone: a value that stands there is taken, what may be left out is left'],
      ['unknown', 'is an answer where it stands in the list: the guide is then careful, and says so'],
      ['! at a HOLD', 'not signed: what is not right yet, with initials'],
      ['letters', 'in a text every key is text; in a list of sizes or readings they look for one'],
    ],
  ],
];

/** @param desk before a job is open no position has a name of its own */
export function keysPage(desk: Pick<Desk, 'stack'> & Partial<Pick<Desk, 'positionName'>>): Page {
  const row = (key: string, does: string): Block => ({
    rank: 1,
    lines: (width): Line[] => wrap([{ text: `  ${key.padEnd(12)}`, tone: 'strong' }, { text: does }], width, 14),
  });
  return new ReadingPage(
    {
      name: 'keys',
      head: 'All keys',
      blocks: () =>
        groups.flatMap(([title, rows]) => [
          heading(title),
          ...rows.map(([k, d]) => row(k, d.replace('{position}', desk.positionName ?? 'position'))),
        ]),
    },
    desk.stack,
  );
}
