/** Why this step: the reason, what goes wrong without it, how to tell that it is right. */

import type { StepView } from '../../engine/steps/board.js';
import { fillIn, keysNamedIn, labelAt } from '../../engine/values/texts.js';
import { sayOf } from '../../procedure/caution.js';
import type { Gate } from '../../procedure/schema.js';
import { type Desk, isBrisk } from '../desk.js';
import type { Page } from '../page.js';
import { heading, paragraph } from '../words/blocks.js';
import { placeWords } from '../words/entry-words.js';
import { openBeforeGuess } from './numbers.js';
import { ReadingPage } from './reading-page.js';

export function whyPage(desk: Desk, view: StepView): Page {
  const { step, place } = view;
  // A stop may name a figure that is still to be predicted.
  const open = openBeforeGuess(desk, view);
  const { values } = desk.state;
  // Before a figure is there a sentence tells it by its name.
  const called = (name: string) => `“${labelAt(values, name, place)}”`;
  const unknown = (name: string) =>
    values.model.keys.has(name) && !values.get(name, place).known ? called(name) : undefined;
  const text = (t: string) => paragraph(fillIn(values, t, place, unknown));
  const part = (title: string, t: string | undefined) => (t ? [heading(title), text(t)] : []);
  const stands = (g: Gate) => view.gates.some((v) => v.gate.id === g.id);
  const headOf = (g: Gate) =>
    `It ${stands(g) ? 'stops' : 'would stop'} here, ${g.overrule === 'never' ? 'whoever asks' : 'unless somebody answers for it'}`;
  const stops = (step.gates ?? []).filter((g) => keysNamedIn(g.say).every(open));
  const heads = [...new Set(stops.map(headOf))];
  return new ReadingPage(
    {
      name: 'why',
      head: `${placeWords(desk.state, place)} · ${step.title}`,
      blocks: () => [
        ...(isBrisk(desk) ? part('What to do', step.do) : []),
        ...part('Why', step.why),
        ...part('If you skip this', step.otherwise),
        ...part('It is right when', step.tell),
        ...part('A picture helps (m, Picture)', desk.app.pictures && step.picture),
        ...(view.cautions.length ? [heading('Caution'), ...view.cautions.map(sayOf).map(text)] : []),
        ...(view.question?.help
          ? [heading(`How to read off: ${fillIn(values, view.question.label, place)}`), text(view.question.help)]
          : []),
        ...heads.flatMap((head) => [
          heading(head),
          ...stops
            .filter((g) => headOf(g) === head)
            // Of a stop that does not stand here no figures are told: it would say what nobody measured.
            .map((g) => (stands(g) ? text(g.say) : paragraph(fillIn(values, g.say, place, called)))),
        ]),
        ...view.overruled.map((o) =>
          paragraph(`Continued anyway: ${o.reason} (${o.initials})`, {
            gap: true,
          }),
        ),
      ],
    },
    desk.stack,
  );
}
