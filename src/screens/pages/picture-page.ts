/** The drawing of a step, as large as the terminal allows. */
import type { StepView } from '../../engine/steps/board.js';
import type { Desk } from '../desk.js';
import { type Line, plain } from '../look/line.js';
import type { Page } from '../page.js';
import { bodyHeight } from '../parts/frame-layout.js';
import { pictureLines } from '../step/picture.js';
import { placeWords } from '../words/entry-words.js';
import { ReadingPage } from './reading-page.js';

export function picturePage(desk: Desk, view: StepView): Page {
  return new ReadingPage(
    {
      name: 'picture',
      head: `${placeWords(desk.state, view.place)} · ${view.step.title}`,
      blocks: (room) => [
        {
          rank: 1,
          lines: (width): readonly Line[] =>
            pictureLines(desk, view, Math.min(width, 100), bodyHeight(room, 1)) ?? [
              plain('There is no room for the drawing here; make the window larger.'),
            ],
        },
      ],
    },
    desk.stack,
  );
}
