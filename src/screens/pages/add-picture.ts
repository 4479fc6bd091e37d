/** A picture from the telephone: dropped on the window or named, looked at, and kept with this step. */
import type { StepView } from '../../engine/steps/board.js';
import { fillIn } from '../../engine/values/texts.js';
import { safeText } from '../../text/safe-text.js';
import type { Desk } from '../desk.js';
import type { Page } from '../page.js';
import { paragraph } from '../words/blocks.js';
import { placeWords } from '../words/entry-words.js';
import { ask, FormPage } from './form.js';

const longestCaption = 120;

/** With `dropped`, the path that the terminal typed, all that is asked is whether it belongs here and what it shows. */
export function addPicturePage(desk: Desk, view: StepView, dropped?: string): Page {
  const { state, app, stack } = desk;
  const title = fillIn(state.values, view.step.title, view.place);
  const where = placeWords(state, view.place);
  const shown = view.step.picture ?? (dropped === undefined ? undefined : title.slice(0, longestCaption));
  const caption = { question: ask('shows', 'What it shows', { longest: longestCaption }) };
  const captioned = shown === undefined ? caption : { ...caption, start: shown };
  const belongs = `Does it belong to “${title}”, ${where}?`;
  const form = { name: 'add-picture', head: `Picture · ${where}`, title: 'A picture for the job sheet' };

  const keep = async (path: string, shows: string): Promise<void> => {
    const kept = (await app.pictures?.keep(desk.job.id, path)) ?? 'Pictures can’t be kept here.';
    if (typeof kept === 'string') {
      stack.say(kept);
      return;
    }
    const { file, sha256, bytes, name, notShown } = kept;
    const at = { step: view.step.id, place: view.place };
    if ((await desk.act({ do: 'picture', ...at, file, sha256, bytes, name, shows })) !== 'done') return;
    stack.popTo('step');
    stack.say(notShown ? 'Kept. This computer can’t make it small, so the sheet names it only.' : 'Kept.', 'good');
  };

  if (dropped !== undefined)
    return new FormPage(
      {
        ...form,
        intro: [
          paragraph(safeText(dropped, { max: 200 }), { rank: 3, tone: 'quiet' }),
          paragraph(`${belongs} Enter keeps it there; Esc leaves it out.`),
        ],
        fields: [captioned],
        done: ({ shows = '' }) => keep(dropped, shows),
      },
      stack,
    );
  return new FormPage(
    {
      ...form,
      fields: [
        {
          question: ask('path', 'Drop the picture on this window, or type its path', {
            help: 'JPEG, PNG or WebP. It is copied; your own stays as it is.',
            longest: 1000,
          }),
        },
        captioned,
      ],
      confirm: () => ({
        key: 'Enter',
        does: 'keep it',
        blocks: [paragraph(`${belongs} Enter keeps it there; Esc goes back.`)],
      }),
      done: ({ path = '', shows = '' }) => keep(path, shows),
    },
    stack,
  );
}
