/** The page that one works on: the step that is next here, its moment, and the keys that always work. */
import type { State } from '../../engine/state/state.js';
import type { StepView } from '../../engine/steps/board.js';
import type { Key } from '../../keys/key.js';
import type { KeyMode } from '../../keys/key-taker.js';
import { type Desk, isBrisk, topOf } from '../desk.js';
import type { Hint, Room, View } from '../look/line.js';
import type { Asks, Page } from '../page.js';
import { addPicturePage } from '../pages/add-picture.js';
import { phasesBeside } from '../pages/whole-job.js';
import { lastRecorded, placeWords } from '../words/entry-words.js';
import { arrivedBlock, howFar } from '../words/how-far.js';
import { left } from '../words/times.js';
import { answeredBlocks } from './answered.js';
import { commandOf } from './command-keys.js';
import { commandHints, doCommand } from './commands.js';
import { curveBlock } from './log-rows.js';
import { isSafety, type Moment } from './moment.js';
import { momentFor } from './moment-for.js';
import { doneOnPage, laterOnPage } from './one-page.js';
import { pauseMoment } from './pause.js';
import { pictureLines } from './picture.js';
import { ReadWhole } from './read-whole.js';
import { bottomBlocks, recordedBlock, remedyBlocks, titleInHead, topBlocks } from './step-blocks.js';
import { Undoing } from './undoing.js';

/** What stands on the page, worked out once after each key and tick. */
interface Now {
  readonly moment: Moment;
  readonly view: StepView | undefined;
  /** Tells apart what is asked in one moment. */
  readonly id: string;
  readonly mode: KeyMode;
  /** What of it has to be read before anything else. */
  read: View | undefined;
}

/** Where nothing is drawn and no figures want the width, a large window shows the whole job beside the step. */
const phasesFit = (room: Room, view: StepView): boolean =>
  room.cols >= 104 && room.rows >= 34 && !room.reader && !view.step.show?.length;

/** Entries of a sitting after which a key that stands on each page is no news any more. */
const NEW_FOR = 12;

/** True until something is recorded in the phase of the step that is on. */
function beginsPhase({ state, model }: Desk, view: StepView | undefined): boolean {
  const last = lastRecorded(state);
  return !last || !('step' in last) || model.steps.get(last.step)?.phase !== view?.step.phase;
}

export class StepPage implements Page {
  readonly name = 'step';
  /** Set by Esc in a text: letters are commands until Enter. */
  private commands = false;
  private waits: readonly StepView[] = [];
  private readonly whole = new ReadWhole();
  /** What stands here. */
  private now: Now;
  /** The bearing that was on last, and the number of entries at which another one came on. */
  private at: string | undefined;
  private arrived: number | undefined;
  private readonly undoing: Undoing;
  /** The last key confirmed a danger. */
  private confirmed = false;
  /** The sitting in which that stands here, and the state that the clock was looked at with. */
  private sitting: number;
  private seen: State;

  constructor(private readonly desk: Desk) {
    this.seen = desk.state;
    this.sitting = desk.state.sitting;
    this.undoing = new Undoing(desk);
    this.now = this.standing();
  }

  private standing(): Now {
    const { desk } = this;
    const stage = desk.stage();
    const view = stage.kind === 'step' ? stage.view : undefined;
    const moment = stage.kind === 'step' ? momentFor({ desk, view: stage.view }) : pauseMoment(desk, stage);
    const { id = '', field = 'none', confirm = 'none' } = moment.asks?.() ?? {};
    return { moment, view, id, mode: { field, confirm }, read: undefined };
  }

  /** Another bearing than before is told until something is recorded there. */
  private announce({ view }: Now): void {
    const here = view ? topOf(view.place) : 'job';
    const { length } = this.desk.job.entries;
    if (here === 'job') {
      this.arrived = undefined;
      return;
    }
    if (this.at !== undefined && this.at !== here) this.arrived = length;
    else if (this.arrived !== length) this.arrived = undefined;
    this.at = here;
  }

  advance(room: Room): Asks {
    const before = this.now.moment.where;
    const now = this.standing();
    this.now = now;
    this.announce(now);
    const { moment, id, mode } = now;
    this.welcome(before !== moment.where);
    if (before !== moment.where) this.commands = false;
    now.read = this.whole.advance(moment.readWhole ? this.plain(room) : undefined, moment.where, room);
    return {
      id: [moment.where, id, this.undoing.id, this.whole.page].join(':'),
      field: this.commands ? 'none' : mode.field,
      confirm: mode.confirm === 'other-key' && this.commands ? 'none' : mode.confirm,
    };
  }

  /** Where time alone began a new sitting and so changed what stands here, that is said. */
  private welcome(changed: boolean): void {
    const { stack, state } = this.desk;
    const comes = state.sitting !== this.sitting && state.sitting > state.entries.length;
    this.sitting = state.sitting;
    if (!comes || !changed) return;
    const pause = state.now - Date.parse(state.entries.at(-1)?.at ?? '');
    const since = pause > 0 ? `Nothing was recorded for ${left(pause)}` : 'How long nothing was recorded is not known';
    stack.say(`${since}: this comes first, then what stood here.`);
  }

  leave(): Promise<void> {
    return this.desk.job.close();
  }

  /** True when the passing of time is to be drawn; says what has finished waiting. */
  time(): boolean {
    const { desk } = this;
    void desk.lookAtClock();
    if (desk.job.readOnly) desk.job.reread?.();
    const other = desk.state !== this.seen;
    this.seen = desk.state;
    const now = desk.state.waiting;
    const gone = this.waits.filter((w) => !now.some((n) => n.step.id === w.step.id && n.place === w.place));
    this.waits = now;
    // One that was cut short, or whose step was taken back, has not come to its end.
    const over = gone.filter((w) => {
      const view = desk.state.view(w.step.id, w.place);
      return view?.status === 'done' && view.wait !== undefined && view.wait.until <= desk.app.now();
    });
    if (over.length) {
      const names = over.map((w) => `${w.wait?.label ?? w.step.title} (${placeWords(desk.state, w.place)})`);
      desk.stack.say(`Finished waiting: ${names.join('; ')}.`, 'good');
      if (desk.app.bell?.on()) desk.app.bell.ring();
    }
    return other || now.length > 0 || gone.length > 0;
  }

  practice(): boolean {
    const first = this.desk.job.entries[0];
    return first?.kind === 'job' && first.practice !== undefined;
  }

  shop(): boolean {
    return this.desk.model.shop;
  }

  view(room: Room): View {
    return this.now.read ?? this.plain(room);
  }

  /** Everything that stands here, whether or not it fits the window. */
  private plain(room: Room): View {
    const { desk } = this;
    const { moment, view } = this.now;
    const job = desk.state.ledger.job;
    const readOnlyWords = desk.job.readOnly ? ['to look at only'] : [];
    const brisk = isBrisk(desk);
    const begins = beginsPhase(desk, view);
    const far = howFar(desk.state, { brief: brisk && !begins });
    const headRight = [...readOnlyWords, ...(room.cols >= 100 && job ? [job.name] : []), far].join(' · ');
    const readOnly = desk.job.readOnly
      ? [{ rank: 1, lines: () => [[{ text: desk.job.whyReadOnly ?? 'This job can only be looked at here.' }]] }]
      : [];
    if (!view)
      return {
        head: placeWords(desk.state, desk.place),
        headRight,
        body: [...readOnly, ...moment.blocks(room), ...remedyBlocks(desk, room), ...recordedBlock(desk, room)],
        foot: this.foot(moment, view),
      };
    const phase = desk.model.procedure.phases.find((p) => p.id === view.step.phase)?.title ?? '';
    // Who knows the job is told the step; the phase and the time as it begins.
    const { title } = view.step;
    const known = begins ? `${phase} · ${title}` : title;
    const where = brisk ? known : titleInHead(desk, view, room) ? title : phase;
    const of = { desk, view };
    const place = placeWords(desk.state, view.place);
    // No bearing in the head: it is for the whole job.
    const marked = !brisk || begins || view.place !== 'job';
    return {
      head: marked ? `${place} · ${where}` : where,
      headMark: marked ? place : undefined,
      headRight,
      body: [
        ...readOnly,
        ...(this.arrived === undefined ? [] : [arrivedBlock(desk, topOf(view.place))]),
        ...doneOnPage(of, room),
        ...topBlocks(of, room),
        ...(isBrisk(desk) && view.wants === 'question'
          ? answeredBlocks(of).map((b, i) => ({ ...b, rank: 4, gap: i === 0 }))
          : []),
        ...moment.blocks(room),
        ...laterOnPage(of, room),
        ...bottomBlocks(of, room),
        ...curveBlock(of, room),
      ],
      side:
        view.step.draw && desk.app.drawing
          ? (w, h) => pictureLines(desk, view, w, h)
          : phasesFit(room, view)
            ? (w) => phasesBeside(desk, view, w)
            : undefined,
      foot: this.foot(moment, view),
    };
  }

  private foot(moment: Moment, view: StepView | undefined): Hint[] {
    const hints = this.allHints(moment, view);
    if (!isBrisk(this.desk) || this.commands) return hints;
    const { entries, sitting } = this.desk.state;
    // What stands there on each page is read in the first minutes of a sitting.
    const settled = (entries.at(-1)?.seq ?? 0) - sitting > NEW_FOR;
    return hints.filter((h) => !h.told && !(settled && h.always));
  }

  private allHints(moment: Moment, view: StepView | undefined): Hint[] {
    const { desk } = this;
    if (this.now.mode.field === 'text' && !this.commands)
      return [
        ...moment.hints(),
        ...(desk.positions.length > 1
          ? [{ key: 'Tab', does: `other ${desk.positionName}`, rank: 1, always: true }]
          : []),
        { key: 'Esc', does: isBrisk(desk) ? 'then ? keys' : 'then m menu, w why, u undo, ? keys', rank: 2 },
      ];
    return [
      ...(this.commands ? [{ key: 'Enter', does: 'type on', rank: 1 }] : moment.hints()),
      ...commandHints(this.here(view)),
    ];
  }

  dropped(path: string): boolean {
    const { desk } = this;
    const { view } = this.now;
    if (desk.job.readOnly) desk.stack.say('This job can only be looked at here: no picture is kept.');
    else if (view) desk.stack.push(addPicturePage(desk, view, path));
    else
      desk.stack.say(`No step is open here: press Tab for another ${desk.positionName}, then drop the picture again.`);
    return true;
  }

  private here(view: StepView | undefined) {
    return { desk: this.desk, view, undoing: this.undoing };
  }

  /** The key that confirmed a danger, pressed once more, picks no line of the list behind it. */
  private oneTooMany(key: Key): boolean {
    const { field, confirm } = this.now.mode;
    const before = this.confirmed;
    this.confirmed = isSafety(this.desk, key) && confirm === 'danger';
    if (!before || !isSafety(this.desk, key) || confirm === 'danger' || field !== 'none') return false;
    const { safetyKey } = this.desk;
    const hints = this.now.moment.hints();
    const here = hints.filter((h) => h.rank === 1);
    const takes = here.length === 0 || hints.some((h) => h.key.includes(safetyKey));
    const say = here.map((h) => `${h.key} ${h.does}`).join(', ');
    this.desk.stack.say(
      takes
        ? `This ${safetyKey} came too soon. If you mean ${safetyKey}, press it again.`
        : `${safetyKey} confirms a danger. Here: ${say}.`,
    );
    return true;
  }

  press(key: Key): boolean | Promise<boolean> {
    const { moment, view, mode } = this.now;
    const again = this.undoing.press(key);
    if (again) return again;
    if (this.oneTooMany(key)) return true;
    const read = this.whole.press(key, this.desk);
    if (read !== undefined) return read;
    if (this.commands) {
      if (key.name === 'enter') {
        this.commands = false;
        return true;
      }
    } else {
      const taking = mode.field === 'text';
      if (taking || key.name !== 'char' || commandOf(key) === undefined) {
        const taken = moment.press(key);
        if (taken !== undefined) return taken;
      }
      if (taking && key.name === 'esc') {
        this.commands = true;
        return true;
      }
      if (taking && key.name === 'char') return false;
    }
    const taken = doCommand(this.here(view), key);
    // Back from wherever the command led, the text is open again; who looked up the keys still wants one of them.
    if (taken !== false && commandOf(key) !== 'keys') this.commands = false;
    return taken;
  }
}
