/** Going on against advice: the sentence once more, a reason, initials, and a key of its own. */
import { tidyInitials } from '../../engine/journal/initials.js';
import { ownStop } from '../../engine/journal/witness.js';
import type { StepView } from '../../engine/steps/board.js';
import type { Gate } from '../../procedure/schema.js';
import type { Desk } from '../desk.js';
import type { Page } from '../page.js';
import { paragraph } from '../words/blocks.js';
import { placeWords } from '../words/entry-words.js';
import { initialsCheck } from '../words/initials.js';
import { ask, FormPage } from './form.js';

export function overrulePage(desk: Desk, view: StepView, gate: Pick<Gate, 'id' | 'overrule'>, sentence: string): Page {
  const key = desk.safetyKey;
  const mentor = desk.state.ledger.job?.mentor;
  const secondPerson = gate.overrule === 'second-person';
  return new FormPage(
    {
      name: 'overrule',
      head: `${placeWords(desk.state, view.place)} · ${view.step.title}`,
      title: 'Continue anyway',
      intro: [paragraph(sentence, { rank: 1 })],
      fields: [
        {
          question: ask('reason', 'Reason, for the job sheet', { longest: 300 }),
          check: (t) => (t.trim().length < 3 ? 'Type the reason in a word or two.' : undefined),
        },
        {
          question: ask('initials', 'Initials of who answers for it', {
            longest: 8,
            ...(mentor
              ? { help: 'Of another person than who works: the mentor.' }
              : secondPerson
                ? { help: 'Of another person than who works.' }
                : {}),
          }),
          check: (t) => initialsCheck(t) ?? ownStop(desk.state.ledger, tidyInitials(t) ?? '', desk.by, secondPerson),
        },
      ],
      confirm: (v) => ({
        key,
        does: 'go on all the same',
        blocks: [
          paragraph(sentence),
          paragraph(`Reason: ${v.reason}`, { gap: true }),
          paragraph(`Answers for it: ${v.initials}`),
          paragraph(`Press ${key} to go on all the same.`, { gap: true, tone: 'strong' }),
        ],
      }),
      done: async (v) => {
        const acted = await desk.act({
          do: 'overrule',
          step: view.step.id,
          place: view.place,
          gate: gate.id,
          reason: v.reason ?? '',
          initials: v.initials ?? '',
        });
        if (acted === 'done') desk.stack.popTo('step');
      },
    },
    desk.stack,
  );
}
