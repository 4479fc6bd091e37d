/** Everything that is not the next step. */

import type { Pace } from '../../engine/journal/entry.js';
import type { StepView } from '../../engine/steps/board.js';
import type { App } from '../app-contract.js';
import type { Desk } from '../desk.js';
import type { Item } from '../look/line.js';
import type { Page } from '../page.js';
import { type Command, commandKeys } from '../step/command-keys.js';
import { addPicturePage } from './add-picture.js';
import { correctPage } from './correct.js';
import { debriefPage } from './debrief.js';
import { eventPage } from './event.js';
import { beganLate, knownPage } from './known.js';
import { namesPage } from './names.js';
import { handoverPage, notePage, readNotesPage } from './notes.js';
import { openStepsPage } from './open-steps.js';
import { PickPage } from './pick-page.js';
import { rotorPage } from './rotor-page.js';
import { sheetPage } from './sheet-page.js';
import { sourcesPage } from './sources-page.js';
import { whatIfPage } from './what-if.js';
import { wholeJobPage } from './whole-job.js';

interface MenuLine extends Item {
  /** A page to be laid on top, or something done. */
  readonly go: () => Page | boolean | Promise<boolean>;
  /** Left out where the job can only be looked at. */
  readonly records?: true;
}

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
async function turnBell({ stack }: Desk, bell: NonNullable<App['bell']>): Promise<boolean> {
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

/** A line that has a key as well. */
const keyLine = (command: Command, go: MenuLine['go']): MenuLine[] => {
  const { menu } = commandKeys[command];
  return menu ? [{ value: command, ...menu, go }] : [];
};

/** `glance` makes the page of where everything stands, which leads here as well. */
export function menuPage(desk: Desk, view: StepView | undefined, glance: (desk: Desk) => Page): Page {
  const { app, stack } = desk;
  const { bell } = app;
  const rotor = rotorOf(desk);
  const place = view?.place ?? desk.place;
  const lines = (): readonly MenuLine[] => {
    const { ledger } = desk.state;
    const all: readonly MenuLine[] = [
      { value: 'note', label: 'Note', note: 'goes on the job sheet', records: true, go: () => notePage(desk, place) },
      {
        value: 'handover',
        label: 'Handover',
        note: 'message for the next person',
        records: true,
        go: () => handoverPage(desk),
      },
      {
        value: 'correct',
        label: 'Correct an earlier reading',
        note: 'shows first what it changes',
        records: true,
        go: () => correctPage(desk),
      },
      { value: 'what-if', label: 'What if', note: 'try a value; nothing is recorded', go: () => whatIfPage(desk) },
      { value: 'event', label: 'Something unforeseen happened', records: true, go: () => eventPage(desk, place) },
      { value: 'sheet', label: 'Job sheet', note: 'as it stands now', go: () => sheetPage(desk) },
      { value: 'steps', label: 'Another step that is open now', go: () => openStepsPage(desk) },
      ...keyLine('whole-job', () => wholeJobPage(desk)),
      ...keyLine('glance', () => glance(desk)),
      ...(rotor
        ? [
            {
              value: 'rotor',
              label: 'The life of this rotor',
              note: 'jobs and looks over the years',
              go: () => rotorPage(app, stack, rotor),
            },
          ]
        : []),
      ...(ledger.job?.practice && app.debrief
        ? [
            {
              value: 'debrief',
              label: 'Stop here and talk',
              note: 'what this practice showed so far',
              go: () => debriefPage(desk),
            },
          ]
        : []),
      ...(beganLate(desk)
        ? [
            {
              value: 'known',
              label: 'What is known of this rotor',
              note: 'found before you began',
              go: () => knownPage(desk),
            },
          ]
        : []),
      {
        value: 'pace',
        label: `Pace: ${ledger.pace}`,
        note: paceNote(desk),
        records: true,
        go: () => turnPace(desk),
      },
      {
        value: 'leave',
        label: 'Leave this job',
        note: 'all is saved',
        go: () => {
          stack.popTo('home');
          return true;
        },
      },
      ...(view && app.pictures
        ? [
            {
              value: 'picture',
              label: 'Picture',
              note: view.step.picture ? `such as ${view.step.picture}` : 'from the telephone, for the job sheet',
              records: true as const,
              go: () => addPicturePage(desk, view),
            },
          ]
        : []),
      {
        value: 'names',
        label: 'Names for the sheet',
        note: 'behind the initials, the customer, the shop',
        records: true,
        go: () => namesPage(desk),
      },
      {
        value: 'sources',
        label: 'Where the figures come from',
        note: 'published, usual, or without a source',
        go: () => sourcesPage(desk),
      },
      ...(ledger.notes.length
        ? [
            {
              value: 'notes',
              label: 'Read the notes',
              note: `${ledger.notes.length} so far`,
              go: () => readNotesPage(desk),
            },
          ]
        : []),
      ...(bell
        ? [
            {
              value: 'bell',
              label: `Bell when a wait is over: ${bell.on() ? 'on' : 'off'}`,
              go: () => turnBell(desk, bell),
            },
          ]
        : []),
    ];
    return all.filter((line) => !(line.records && desk.job.readOnly));
  };
  return new PickPage(
    {
      name: 'menu',
      head: `Menu · ${desk.state.ledger.job?.name ?? ''}`,
      items: lines,
      picked: (value) => {
        const done = lines()
          .find((line) => line.value === value)
          ?.go();
        if (typeof done !== 'object' || !('view' in done)) return done ?? true;
        stack.push(done);
        return true;
      },
    },
    stack,
  );
}
