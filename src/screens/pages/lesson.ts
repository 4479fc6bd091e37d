/** A lesson that is told as soon as its harm is done. */
import type { ShownDebriefLine } from '../app-contract.js';
import type { Stack } from '../page.js';
import { heading, paragraph } from '../words/blocks.js';
import { debriefBlock } from '../words/debrief-blocks.js';
import { ReadingPage } from './reading-page.js';

export const lessonPage = (stack: Stack, lines: readonly ShownDebriefLine[]): ReadingPage =>
  new ReadingPage(
    {
      name: 'lesson',
      head: 'Stop here',
      blocks: (room) => [
        heading('On a real rotor harm would be done now'),
        ...lines.map((l) => debriefBlock(l, room)),
        paragraph('Talk about it with your mentor. Then go on as if it had held: there may be more.'),
      ],
      hints: [{ key: 'Enter', does: 'go on', rank: 1 }],
      press(key) {
        if (key.name !== 'enter') return false;
        stack.pop();
        return true;
      },
    },
    stack,
  );
