/** Everything that is not the next step. */

import type { Pace } from '../../engine/journal/entry.js';
import type { StepView } from '../../engine/steps/board.js';
import type { Desk } from '../desk.js';
import type { Page } from '../page.js';
import { addPicturePage } from './add-picture.js';
import { correctPage } from './correct.js';
import { debriefPage } from './debrief.js';
import { eventPage } from './event.js';
import { namesPage } from './names.js';
import { handoverPage, notePage, readNotesPage } from './notes.js';
import { openStepsPage } from './open-steps.js';
import { PickPage } from './pick-page.js';
import { rotorPage, sheetPage, sourcesPage } from './sheet-preview.js';
import { whatIfPage } from './what-if.js';
import { wholeJobPage } from './whole-job.js';

/** Left out where the job can only be looked at. */
const records = ['note', 'picture', 'names', 'handover', 'correct', 'event', 'pace'];

const otherPace = ({ state }: Desk): Pace => (state.ledger.pace === 'brisk' ? 'learning' : 'brisk');
const paceNote = (desk: Desk): string =>
  otherPace(desk) === 'brisk' ? 'turn to brisk, for whoever knows the job' : 'turn to learning, one thing at a time';

/** Anybody can turn it at any time; the journal says when. */
async function turnPace(desk: Desk): Promise<boolean> {
  const pace = otherPace(desk);
  if ((await desk.act({ do: 'pace', pace })) === 'done')
    desk.stack.say(
      pace === 'brisk'
        ? 'Brisk pace: the same gates and signatures, fewer keys.'
        : 'Learning pace: one thing at a time.',
      'good',
    );
  return true;
}

/** The rotor that this job is on, once its number is known; none in practice. */
function rotorOf({ state }: Desk): string | undefined {
  const key = state.model.procedure.life?.rotor;
  const v = key === undefined || state.ledger.job?.practice ? undefined : state.values.get(key, 'job');
  return v?.known && typeof v.value === 'string' && v.value.trim() ? v.value.trim() : undefined;
}

/** Turns the bell on or off; turned on it sounds once, so that one knows whether this terminal has one. */
async function turnBell({ app: { bell }, stack }: Desk): Promise<boolean> {
  if (!bell) return false;
  const on = !bell.on();
  const trouble = await bell.turn(on);
  if (trouble) {
    stack.say(trouble);
    return true;
  }
  if (on) bell.ring();
  stack.say(on ? 'The bell sounds when a wait is over, as it did just now.' : 'The bell stays silent.', 'good');
  return true;
}

/** `glance` makes the page of where everything stands, which leads here as well. */
export function menuPage(desk: Desk, view: StepView | undefined, glance: (desk: Desk) => Page): Page {
  const { stack } = desk;
  const { bell } = desk.app;
  const rotor = rotorOf(desk);
  const place = view?.place ?? desk.place;
  const go: Record<string, () => Page> = {
    note: () => notePage(desk, place),
    notes: () => readNotesPage(desk),
    handover: () => handoverPage(desk),
    correct: () => correctPage(desk),
    'what-if': () => whatIfPage(desk),
    event: () => eventPage(desk, place),
    sheet: () => sheetPage(desk),
    steps: () => openStepsPage(desk),
    'whole-job': () => wholeJobPage(desk),
    glance: () => glance(desk),
    sources: () => sourcesPage(desk),
    debrief: () => debriefPage(desk),
    names: () => namesPage(desk),
    ...(rotor ? { rotor: () => rotorPage(desk.app, stack, rotor) } : {}),
    ...(view ? { picture: () => addPicturePage(desk, view) } : {}),
  };
  return new PickPage(
    {
      name: 'menu',
      head: `Menu · ${desk.state.ledger.job?.name ?? ''}`,
      items: () =>
        [
          { value: 'note', label: 'Note', note: 'goes on the job sheet' },
          { value: 'handover', label: 'Handover', note: 'message for the next person' },
          { value: 'correct', label: 'Correct an earlier reading', note: 'shows first what it changes' },
          { value: 'what-if', label: 'What if', note: 'try a value; nothing is recorded' },
          { value: 'event', label: 'Something unforeseen happened' },
          { value: 'sheet', label: 'Job sheet', note: 'as it stands now' },
          { value: 'steps', label: 'Another step that is open now' },
          { value: 'whole-job', label: 'The whole job', note: 'how far, what is to come, read ahead' },
          { value: 'glance', label: 'Where everything stands' },
          ...(rotor && desk.app.rotorPages
            ? [{ value: 'rotor', label: 'The life of this rotor', note: 'jobs and looks over the years' }]
            : []),
          ...(desk.state.ledger.job?.practice && desk.app.debrief
            ? [{ value: 'debrief', label: 'Stop here and talk', note: 'what this practice showed so far' }]
            : []),
          { value: 'pace', label: `Pace: ${desk.state.ledger.pace}`, note: paceNote(desk) },
          { value: 'leave', label: 'Leave this job', note: 'all is saved' },
          ...(view && desk.app.pictures
            ? [
                {
                  value: 'picture',
                  label: 'Picture',
                  note: view.step.picture ? `such as ${view.step.picture}` : 'from the telephone, for the job sheet',
                },
              ]
            : []),
          { value: 'names', label: 'Names for the sheet', note: 'behind the initials, the customer, the shop' },
          { value: 'sources', label: 'Where the figures come from', note: 'published, usual, or without a source' },
          ...(desk.state.ledger.notes.length
            ? [{ value: 'notes', label: 'Read the notes', note: `${desk.state.ledger.notes.length} so far` }]
            : []),
          ...(bell ? [{ value: 'bell', label: `Bell when a wait is over: ${bell.on() ? 'on' : 'off'}` }] : []),
        ].filter((i) => !desk.job.readOnly || !records.includes(i.value)),
      picked: (value) => {
        if (value === 'leave') stack.popTo('home');
        else if (value === 'pace') return turnPace(desk);
        else if (value === 'bell') return turnBell(desk);
        else {
          const page = go[value]?.();
          if (page) stack.push(page);
        }
        return true;
      },
    },
    stack,
  );
}
