/** What the keys do that work wherever no text is typed, and which of them are named at the foot. */
import type { State } from '../../engine/state/state.js';
import type { StepView } from '../../engine/steps/board.js';
import type { Key } from '../../keys/key.js';
import { type Desk, isBrisk, topOf } from '../desk.js';
import type { Hint } from '../look/line.js';
import type { Page } from '../page.js';
import { glancePage } from '../pages/glance.js';
import { keysPage } from '../pages/keys-page.js';
import { menuPage } from '../pages/menu.js';
import { figuresBehind, numbersPage } from '../pages/numbers.js';
import { picturePage } from '../pages/picture-page.js';
import { settlePage } from '../pages/settle.js';
import { wholeJobPage } from '../pages/whole-job.js';
import { whyPage } from '../pages/why.js';
import { placeWords } from '../words/entry-words.js';
import { type Command, commandKeys, commandOf, commands } from './command-keys.js';
import type { Undoing } from './undoing.js';

interface Here {
  readonly desk: Desk;
  /** The step that is on; none in a pause. */
  readonly view: StepView | undefined;
  readonly undoing: Undoing;
}

interface Doing {
  /** A page to be laid on top, a sentence to be said, or false where the key is none of its own here. */
  readonly run: (here: Here, key: Key) => Page | string | boolean | Promise<boolean>;
  /** False where it would do nothing; true when left out. */
  readonly offered?: (here: Here) => boolean;
}

const hasFigures = ({ desk, view }: Here): boolean => view !== undefined && figuresBehind(desk, view).length > 0;

/** By state, since it is asked with each frame. */
const undoable = new WeakMap<State, boolean>();
function canUndo(desk: Desk): boolean {
  const { state } = desk;
  const known = undoable.get(state) ?? desk.propose({ do: 'undo' }).ok;
  undoable.set(state, known);
  return known;
}

const doings: Readonly<Record<Command, Doing>> = {
  undo: {
    run: ({ undoing }, key) => undoing.undo(key),
    // A stop that nobody may overrule is not lifted by taking it back.
    offered: ({ desk }) => !desk.job.readOnly && canUndo(desk),
  },
  redo: { run: ({ undoing }) => undoing.redo() },
  why: {
    run: ({ desk, view }) => (view ? whyPage(desk, view) : false),
    offered: ({ view }) => view !== undefined,
  },
  drawing: {
    run: ({ desk, view }) => {
      if (!view) return false;
      return view.step.draw ? picturePage(desk, view) : 'This step has no drawing.';
    },
    offered: ({ view }) => view?.step.draw !== undefined,
  },
  number: {
    run: (here) =>
      here.view && hasFigures(here)
        ? numbersPage(here.desk, here.view)
        : 'There is no figure on this step to look behind.',
    offered: hasFigures,
  },
  settle: { run: ({ desk }) => (desk.state.remedies.length ? settlePage(desk) : false) },
  'other-position': {
    run: ({ desk }, key) => otherPosition(desk, key.name === 'tab' ? 1 : -1),
    offered: ({ desk }) => desk.positions.length > 1,
  },
  'whole-job': { run: ({ desk }) => wholeJobPage(desk) },
  menu: { run: ({ desk, view }) => menuPage(desk, view, glancePage) },
  keys: { run: ({ desk }) => keysPage(desk) },
  glance: { run: ({ desk }) => glancePage(desk) },
};

/** False where the key has no work here. */
export function doCommand(here: Here, key: Key): boolean | Promise<boolean> {
  const command = commandOf(key);
  if (command === undefined) return false;
  const done = doings[command].run(here, key);
  const { stack } = here.desk;
  if (typeof done === 'string') stack.say(done);
  else if (typeof done === 'object' && 'view' in done) stack.push(done);
  else return done;
  return true;
}

/** Who knows the job knows some of these: they work all the same, and stand behind the question mark. */
export function commandHints(here: Here): Hint[] {
  const brisk = isBrisk(here.desk);
  return commands.flatMap((command) => {
    const { foot } = commandKeys[command];
    if (!foot || (foot.learning && brisk) || !(doings[command].offered?.(here) ?? true)) return [];
    const does = foot.does.replace('{position}', here.desk.positionName);
    return [{ key: foot.key, does, rank: foot.rank, always: command !== 'keys' }];
  });
}

function otherPosition(desk: Desk, by: number): string | boolean {
  const all = desk.positions;
  if (all.length < 2) return `This job has one ${desk.positionName} only.`;
  const i = all.indexOf(topOf(desk.place));
  desk.place = all[(i + by + all.length) % all.length] ?? desk.place;
  desk.leaveStep();
  const stage = desk.stage();
  const where = placeWords(desk.state, desk.place);
  if (stage.kind === 'step' && stage.view.place === 'job')
    desk.stack.say(`${where}: this step is for the whole job; it comes first.`, 'good');
  return true;
}
