/** Taking back by two presses, the first of which names what it is; and bringing it back. */
import { isChar, type Key } from '../../keys/key.js';
import type { Desk } from '../desk.js';
import { entryWords, placeWords } from '../words/entry-words.js';
import { commandOf } from './command-keys.js';

export class Undoing {
  /** Entry that the next undo key takes back, since it was named. */
  private of: number | undefined;
  /** Just taken back: the key for bringing back is no text. */
  private back = false;

  constructor(private readonly desk: Desk) {}

  /** Tells apart what the next undo key takes back. */
  get id(): number | undefined {
    return this.of;
  }

  /**
   * Before anything else the key may mean: the second press, one that leaves it and must not answer what stands behind
   * the question, or the one that brings back what was just taken back.
   */
  press(key: Key): boolean | Promise<boolean> | undefined {
    const { of, back } = this;
    this.back = false;
    if (of !== undefined && commandOf(key) === 'undo') return this.undo(key);
    this.of = undefined;
    if (of !== undefined) {
      this.desk.stack.say('Nothing was taken back.', 'good');
      return true;
    }
    return back && isChar(key, '/') ? this.redo() : undefined;
  }

  /** What an undo would take back, or bring back, in words; a sentence when there is nothing. */
  private named(what: 'undo' | 'redo'): { readonly of: number; readonly words: string } | string {
    const { desk } = this;
    const { readOnly, whyReadOnly = 'This job can only be looked at here.' } = desk.job;
    if (readOnly) return whyReadOnly;
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
  async undo(key: Key): Promise<boolean> {
    const { desk } = this;
    const undo = this.named('undo');
    if (typeof undo === 'string') {
      desk.stack.say(undo);
      return true;
    }
    if (this.of !== undo.of) {
      this.of = undo.of;
      desk.stack.say(`Take back “${undo.words}”? Press ${key.char} once more; any other key only leaves it.`);
      return true;
    }
    this.of = undefined;
    if ((await desk.act({ do: 'undo' })) === 'done') {
      this.startAfresh();
      this.back = true;
      desk.stack.say(`Taken back: ${undo.words}. Press / to bring it back.`, 'good');
    }
    return true;
  }

  async redo(): Promise<boolean> {
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
}
