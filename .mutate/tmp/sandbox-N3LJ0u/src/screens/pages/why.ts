/** Why this step: the reason, what goes wrong without it, how to tell that it is right. */
// @ts-nocheck


import type { StepView } from '../../engine/board.js';
import { fillIn } from '../../engine/texts.js';
import { sayOf } from '../../procedure/caution.js';
import type { Desk } from '../desk.js';
import type { Page } from '../page.js';
import { heading, paragraph } from '../words/blocks.js';
import { placeWords } from '../words/entry-words.js';
import { ReadingPage } from './reading-page.js';

export function whyPage(desk: Desk, view: StepView): Page {
  const { step, place } = view;
  const text = (t: string) => paragraph(fillIn(desk.state.values, t, place));
  const part = (title: string, t: string | undefined) => (t ? [heading(title), text(t)] : []);
  return new ReadingPage(
    {
      name: 'why',
      head: `${placeWords(desk.state, place)} · ${step.title}`,
      blocks: () => [
        ...part('Why', step.why),
        ...part('If you skip this', step.otherwise),
        ...part('It is right when', step.tell),
        ...part('A picture helps (m, Picture)', desk.app.pictures && step.picture),
        ...(view.cautions.length ? [heading('Caution'), ...view.cautions.map(sayOf).map(text)] : []),
        ...(view.question?.help
          ? [
              heading(`How to read off: ${fillIn(desk.state.values, view.question.label, place)}`),
              text(view.question.help),
            ]
          : []),
        ...(step.gates ?? []).flatMap((g) => [
          heading(
            g.overrule === 'never' ? 'It stops here, whoever asks' : 'It stops here, unless somebody answers for it',
          ),
          text(g.say),
        ]),
        ...view.overruled.map((o) => paragraph(`Gone on all the same: ${o.reason} (${o.initials})`, { gap: true })),
      ],
    },
    desk.stack,
  );
}
