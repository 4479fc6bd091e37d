/** The page that one works on: the step that is next here, its moment, and the keys that always work. */
import type { StepView } from '../../engine/steps/board.js';
import { isChar, type Key } from '../../keys/key.js';
import type { KeyMode } from '../../keys/key-taker.js';
import { type Desk, type Stage, topOf } from '../desk.js';
import type { Hint, Room, View } from '../look/line.js';
import type { Asks, Page } from '../page.js';
import { addPicturePage } from '../pages/add-picture.js';
import { glancePage } from '../pages/glance.js';
import { keysPage } from '../pages/keys-page.js';
import { menuPage } from '../pages/menu.js';
import { figuresBehind, numbersPage } from '../pages/numbers.js';
import { picturePage } from '../pages/picture-page.js';
import { settlePage } from '../pages/settle.js';
import { wholeJobPage } from '../pages/whole-job.js';
import { whyPage } from '../pages/why.js';
import { entryWords, placeWords } from '../words/entry-words.js';
import { arrivedBlock, howFar } from '../words/how-far.js';
import { commandKeys } from './command-keys.js';
import { curveBlock } from './log-curve.js';
import type { Moment } from './moment.js';
import { momentFor } from './moment-for.js';
import { doneOnPage, laterOnPage } from './one-page.js';
import { isBrisk } from './pace.js';
import { pauseMoment } from './pause.js';
import { pictureLines } from './picture.js';
import { ReadWhole } from './read-whole.js';
import { answeredBlocks, bottomBlocks, recordedBlock, remedyBlocks, topBlocks } from './step-blocks.js';

type Pause = Exclude<Stage, { readonly kind: 'step' }>;

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
  /** Entry that the next undo key takes back, since it was named. */
  private undoing: number | undefined;
  /** Just taken back: the key for bringing back is no text. */
  private back = false;

  constructor(private readonly desk: Desk) {
    this.now = this.standing();
  }

  private standing(): Now {
    const { desk } = this;
    const stage = desk.stage();
    const view = stage.kind === 'step' ? stage.view : undefined;
    const moment = view ? momentFor({ desk, view }) : pauseMoment(desk, stage as Pause);
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
    if (before !== moment.where) this.commands = false;
    now.read = this.whole.advance(moment.readWhole && this.plain(room), moment.where, room);
    return {
      id: [moment.where, id, this.undoing, this.whole.page].join(':'),
      field: this.commands ? 'none' : mode.field,
      confirm: mode.confirm === 'other-key' && this.commands ? 'none' : mode.confirm,
    };
  }

  leave(): Promise<void> {
    return this.desk.job.close();
  }

  /** True when the passing of time is to be drawn; says what has finished waiting. */
  time(): boolean {
    const { desk } = this;
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
    return now.length > 0 || gone.length > 0;
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
    const headRight = [...(room.cols >= 100 && job ? [job.name] : []), howFar(desk.state), ...readOnlyWords].join(
      ' · ',
    );
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
    const of = { desk, view };
    return {
      head: `${placeWords(desk.state, view.place)} · ${phase}`,
      headMark: placeWords(desk.state, view.place),
      headRight,
      body: [
        ...readOnly,
        ...(this.arrived === undefined ? [] : [arrivedBlock(placeWords(desk.state, topOf(view.place)))]),
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
      side: view.step.draw && desk.app.drawing ? (w, h) => pictureLines(desk, view, w, h) : undefined,
      foot: this.foot(moment, view),
    };
  }

  private foot(moment: Moment, view: StepView | undefined): Hint[] {
    const { desk } = this;
    if (this.now.mode.field === 'text' && !this.commands)
      return [
        ...moment.hints(),
        { key: 'Tab', does: `other ${desk.positionName}`, rank: 2 },
        { key: 'Esc', does: isBrisk(desk) ? 'then u undo, ? keys' : 'then m menu, w why, u undo, ? keys', rank: 2 },
      ];
    return [
      ...(this.commands ? [{ key: 'Enter', does: 'type on', rank: 1 }] : moment.hints()),
      // Not offered where it would be refused: a stop that nobody may overrule is not lifted by taking it back.
      ...(desk.propose({ do: 'undo' }).ok ? [{ key: 'u', does: 'undo', rank: 1 }] : []),
      // Who knows the job knows these: they work all the same, and stand behind the question mark.
      ...(isBrisk(desk) ? [] : this.lookers(view)),
      ...(desk.positions.length > 1 ? [{ key: 'Tab', does: `other ${desk.positionName}`, rank: 2 }] : []),
      ...(isBrisk(desk) ? [] : [{ key: 'm', does: 'menu', rank: 3 }]),
      { key: '?', does: 'keys', rank: 1 },
    ];
  }

  dropped(path: string): boolean {
    const { desk } = this;
    const { view } = this.now;
    if (desk.job.readOnly) desk.stack.say('This job can only be looked at here: no picture is kept.');
    else if (view) desk.stack.push(addPicturePage(desk, view, path));
    else desk.stack.say('No step is open here: press Tab for another bearing, then drop the picture again.');
    return true;
  }

  private lookers(view: StepView | undefined): Hint[] {
    return [
      ...(view ? [{ key: 'w', does: 'why', rank: 3 }] : []),
      ...(view?.step.draw ? [{ key: 'd', does: 'show me', rank: 3 }] : []),
      ...(view && figuresBehind(this.desk, view).length ? [{ key: 'n', does: 'this number', rank: 3 }] : []),
    ];
  }

  press(key: Key): boolean | Promise<boolean> {
    const { moment, view, mode } = this.now;
    const [undoing, back] = [this.undoing, this.back];
    this.back = false;
    if (undoing !== undefined && isChar(key, 'u', '*')) return this.undo(key);
    this.undoing = undefined;
    if (back && isChar(key, '/')) return this.redo();
    const read = this.whole.press(key, this.desk);
    if (read !== undefined) return read;
    if (this.commands) {
      if (key.name === 'enter') {
        this.commands = false;
        return true;
      }
    } else {
      const taking = mode.field === 'text';
      if (taking || !this.command(key)) {
        const taken = moment.press(key);
        if (taken !== undefined) return taken;
      }
      if (taking && key.name === 'esc') {
        this.commands = true;
        return true;
      }
      if (taking && key.name === 'char') return false;
    }
    const taken = this.global(key, view);
    // Back from wherever the command led, the text is open again.
    if (taken !== false) this.commands = false;
    return taken;
  }

  /** Letters that are commands wherever no text is typed. */
  private command(key: Key): boolean {
    return isChar(key, ...commandKeys);
  }

  private global(key: Key, view: StepView | undefined): boolean | Promise<boolean> {
    const { desk } = this;
    const { stack } = desk;
    if (isChar(key, 'u', '*')) return this.undo(key);
    if (isChar(key, 'y', '/')) return this.redo();
    if (isChar(key, 'm')) stack.push(menuPage(desk, view, glancePage));
    else if (isChar(key, 'o')) stack.push(wholeJobPage(desk));
    else if (isChar(key, '?')) stack.push(keysPage(desk));
    else if (isChar(key, 'r') && desk.state.remedies.length) stack.push(settlePage(desk));
    else if (isChar(key, 'w') && view) stack.push(whyPage(desk, view));
    else if (isChar(key, 'd') && view?.step.draw) stack.push(picturePage(desk, view));
    else if (isChar(key, 'd') && view) stack.say('This step has no drawing.');
    else if (isChar(key, 'n') && view && figuresBehind(desk, view).length) stack.push(numbersPage(desk, view));
    else if (isChar(key, 'n')) stack.say('There is no figure on this step to look behind.');
    else if (key.name === 'tab' || key.name === 'back-tab') this.otherPosition(key.name === 'tab' ? 1 : -1);
    else if (key.name === 'esc') stack.push(glancePage(desk));
    else return false;
    return true;
  }

  /** What an undo would take back, or bring back, in words; a sentence when there is nothing. */
  private named(what: 'undo' | 'redo'): { readonly of: number; readonly words: string } | string {
    const { desk } = this;
    const { entries } = desk.state;
    const proposal = desk.propose({ do: what });
    if (!proposal.ok) return proposal.message;
    // What one key recorded together goes by its first entry.
    const draft = proposal.drafts.at(-1);
    let entry = entries.find((e) => draft?.kind === 'undo' && e.seq === draft.of);
    if (what === 'redo') entry = entries.find((e) => entry?.kind === 'undo' && e.seq === entry.of);
    if (!entry) return 'There is nothing left to undo.';
    const at = 'place' in entry && entry.place !== 'job' ? ` (${placeWords(desk.state, entry.place)})` : '';
    return { of: entry.seq, words: `${entryWords(desk.state, entry)}${at}` };
  }

  /** Names first what would be taken back; the second press takes it back. */
  private async undo(key: Key): Promise<boolean> {
    const { desk } = this;
    const undo = this.named('undo');
    if (typeof undo === 'string') {
      desk.stack.say(undo);
      return true;
    }
    if (this.undoing !== undo.of) {
      this.undoing = undo.of;
      desk.stack.say(`Take back “${undo.words}”? Press ${key.char} once more; any other key leaves it.`);
      return true;
    }
    this.undoing = undefined;
    if ((await desk.act({ do: 'undo' })) === 'done') {
      this.startAfresh();
      this.back = true;
      desk.stack.say(`Taken back: ${undo.words}. Press / to bring it back.`, 'good');
    }
    return true;
  }

  private async redo(): Promise<boolean> {
    const { desk } = this;
    const redo = this.named('redo');
    if (typeof redo === 'string') desk.stack.say(redo);
    else if ((await desk.act({ do: 'redo' })) === 'done') {
      this.startAfresh();
      desk.stack.say(`Brought back: ${redo.words}`, 'good');
    }
    return true;
  }

  private startAfresh(): void {
    const { desk } = this;
    desk.unusual = undefined;
    desk.ready = undefined;
    desk.again = undefined;
  }

  private otherPosition(by: number): void {
    const { desk } = this;
    const all = desk.positions;
    if (all.length < 2) {
      desk.stack.say(`This job has one ${desk.positionName} only.`);
      return;
    }
    const i = all.indexOf(topOf(desk.place));
    desk.place = all[(i + by + all.length) % all.length] ?? desk.place;
    desk.leaveStep();
    const stage = desk.stage();
    const where = placeWords(desk.state, desk.place);
    if (stage.kind === 'step' && stage.view.place === 'job')
      desk.stack.say(`${where}: this step is for the whole job; it comes first.`, 'good');
  }
}
