/** The life of a rotor as pages of lines for a terminal. */
import type { LifeEvent } from '../engine/journal/entry.js';
import { safeText } from '../text/safe-text.js';
import { lifeBlocks } from './life-section.js';
import { blockLines, type ScreenPage } from './to-screen.js';
import { clock } from './when.js';

export type { ScreenPage } from './to-screen.js';

export function lifePages(rotor: string, events: readonly LifeEvent[]): readonly ScreenPage[] {
  const { show } = clock();
  const machine = events.findLast((e) => e.machine)?.machine ?? '';
  const head = safeText(`Rotor ${rotor}${machine ? `, ${machine}` : ''}`, { max: 200 });
  const none = [{ is: 'words' as const, text: 'No finished job yet.' }];
  const blocks = events.length ? lifeBlocks(events, show) : none;
  return [
    {
      title: '',
      lines: (width, ascii) => [
        [{ text: head, tone: 'strong' }],
        [],
        ...blocks.flatMap((b) => blockLines(b, width, ascii)),
      ],
    },
  ];
}
