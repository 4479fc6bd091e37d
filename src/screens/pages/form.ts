/** A few questions in a row, one at a time, and what comes of them: for everything that is no step of a procedure. */

import type { Tables } from '../../calc/types.js';
import type { Key } from '../../keys/key.js';
import { optionsOf, ownUnitOf, pickedWords, quantityOf } from '../../procedure/questions/index.js';
import type { Question } from '../../procedure/schema.js';
import { type AskContext, emptyInput, type Input } from '../ask/asker.js';
import { askerFor, isTyped } from '../ask/index.js';
import { display, isBareSize } from '../ask/quantity.js';
import type { Block, Hint, Room, View } from '../look/line.js';
import type { Asks, Page, Stack } from '../page.js';
import { heading, pair, paragraph } from '../words/blocks.js';
import { Scroll } from './scroll.js';

export type FormValues = Readonly<Record<string, string>>;

export interface FormField {
  readonly question: Question;
  readonly when?: (values: FormValues) => boolean;
  /** What stands there at first, typed or picked: Enter takes it, any other key that is text takes its place. */
  readonly start?: string;
  /** A sentence when it can't be taken. */
  readonly check?: (text: string, values: FormValues) => string | undefined;
  /** Said above it. */
  readonly intro?: (values: FormValues) => readonly Block[];
}

export interface FormOptions {
  readonly name: string;
  readonly head: string;
  /** Left out where it says no more than the head. */
  readonly title?: string | undefined;
  readonly intro?: readonly Block[];
  readonly fields: readonly FormField[];
  readonly tables?: Tables;
  /** A last look before it is taken; its key differs from Enter. */
  readonly confirm?: (values: FormValues) => {
    readonly key: string;
    readonly does: string;
    readonly blocks: readonly Block[];
  };
  /** Keeps what is half typed when the page is left or the window closed: nobody types it twice. */
  readonly kept?: {
    holds(where: string): boolean;
    inputFor(where: string, restore: (kept: string) => Input): Input;
    setInput(where: string, input: Input, keep: string | undefined): void;
  };
  /** Takes it; the page is left by whoever does. */
  readonly done: (values: FormValues, key: Key) => void | Promise<void>;
}

/** The last look before it is taken. */
interface Looked {
  readonly typed: string;
  readonly last: ReturnType<NonNullable<FormOptions['confirm']>> | undefined;
  readonly blocks: readonly Block[];
  readonly hints: readonly Hint[];
}

export class FormPage implements Page {
  readonly name: string;
  private readonly inputs = new Map<string, Input>();
  private readonly texts = new Map<string, string>();
  private at = 0;
  private scroll = new Scroll();
  private looked: Looked | undefined;

  constructor(
    private readonly options: FormOptions,
    private readonly stack: Stack,
  ) {
    this.name = options.name;
  }

  private get values(): FormValues {
    return Object.fromEntries(
      this.fields.slice(0, this.at).map((f) => [f.question.key, this.texts.get(f.question.key) ?? '']),
    );
  }
  /** Fields that apply as answered so far. */
  private get fields(): readonly FormField[] {
    const values = Object.fromEntries(this.texts);
    return this.options.fields.filter((f) => f.when?.(values) ?? true);
  }
  private get field(): FormField | undefined {
    return this.fields[this.at];
  }
  private context(field: FormField): AskContext {
    return {
      question: field.question,
      options: optionsOf(field.question, this.options.tables ?? {}),
      target: undefined,
      ascii: this.stack.room.ascii,
    };
  }
  private inputOf(field: FormField): Input {
    const { kept: shelf } = this.options;
    const where = this.whereOf(field);
    if (shelf?.holds(where))
      return shelf.inputFor(where, (text) => askerFor(field.question).restore(text, this.context(field)));
    const kept = this.inputs.get(field.question.key);
    if (kept || field.start === undefined) return kept ?? emptyInput;
    const options = optionsOf(field.question, this.options.tables ?? {});
    if (options.length) return { ...emptyInput, index: options.findIndex((o) => o.value === field.start) };
    return { ...emptyInput, text: field.start, at: [...field.start].length };
  }

  private whereOf({ question }: FormField): string {
    return `${this.options.name}:${question.key}`;
  }

  advance(): Asks {
    const f = this.field;
    const id = String(this.at);
    if (!f) return { id };
    const letters = askerFor(f.question).takesLetters(this.inputOf(f));
    return { id, field: letters ? 'text' : isTyped(f.question) ? 'digits' : 'none' };
  }

  view(room: Room): View {
    const f = this.field;
    const given = this.fields.slice(0, this.at).map((x) => pair(x.question.label, this.told(x) || '-', { rank: 3 }));
    const head = { head: this.options.head, headRight: '' };
    const top = [...this.titled(), ...(this.options.intro ?? []), ...given];
    if (!f) {
      const { blocks, hints: own } = this.lastLook();
      const { scroll, headRight, hints } = this.scroll.view(blocks, own, room);
      return { ...head, headRight, body: blocks, scroll, foot: [...own, ...hints] };
    }
    const context = { ...this.context(f), ascii: room.ascii };
    const asker = askerFor(f.question);
    return {
      ...head,
      body: [
        ...top,
        ...(f.intro?.(this.values) ?? []),
        heading(f.question.label),
        ...(f.question.help ? [paragraph(f.question.help, { rank: 4, tone: 'quiet' })] : []),
        ...asker.blocks(this.inputOf(f), context),
      ],
      foot: [...asker.hints(this.inputOf(f), context), { key: 'Esc', does: 'back', rank: 1 }],
    };
  }

  private titled(): readonly Block[] {
    return this.options.title === undefined ? [] : [heading(this.options.title)];
  }

  /** Worked out once for what was typed: it may compare a whole job with another. */
  private lastLook(): Looked {
    const typed = JSON.stringify([this.at, this.values]);
    if (this.looked?.typed === typed) return this.looked;
    const last = this.options.confirm?.(this.values);
    const blocks = [...this.titled(), ...(last?.blocks ?? [])];
    const hints = [
      { key: last?.key ?? 'Enter', does: last?.does ?? 'go on', rank: 1 },
      { key: 'Esc', does: 'back', rank: 1 },
    ];
    this.looked = { typed, last, blocks, hints };
    return this.looked;
  }

  private told(f: FormField): string {
    const text = this.texts.get(f.question.key) ?? '';
    const q = f.question;
    const [kind, unit] = [quantityOf(q), ownUnitOf(q)];
    // As it stood behind the field.
    if (text && kind && unit && isBareSize(text, kind)) return `${text} ${display(unit, kind)}`;
    return pickedWords(q, text, this.options.tables ?? {});
  }

  press(key: Key): boolean | Promise<boolean> {
    if (key.name === 'esc') {
      if (this.at === 0) {
        const { kept, fields } = this.options;
        this.stack.pop();
        if (fields.some((x) => kept?.holds(this.whereOf(x)) && this.inputOf(x).text.trim()))
          this.stack.say('What you typed is kept: it stands there when you come back.', 'good');
      } else this.at -= 1;
      return true;
    }
    const f = this.field;
    if (!f) {
      const { last, blocks, hints } = this.lastLook();
      const wanted = last?.key ?? 'Enter';
      if (wanted === 'Enter' ? key.name === 'enter' : key.name === 'char' && key.char === wanted)
        return this.finish(key);
      if (this.scroll.press(key, blocks, hints, this.stack.room)) return true;
      const like = key.name === 'enter' || (key.name === 'char' && /^[\d+]$/.test(key.char));
      if (like && last) this.stack.say(`Press ${wanted} to ${last.does}, or Esc to go back.`);
      return like;
    }
    const offered = f.start !== undefined && !this.inputs.has(f.question.key) && key.name === 'char';
    const pressed = askerFor(f.question).press(offered ? emptyInput : this.inputOf(f), key, this.context(f));
    if (!pressed) return false;
    this.inputs.set(f.question.key, pressed.input);
    this.options.kept?.setInput(this.whereOf(f), pressed.input, askerFor(f.question).keep(pressed.input));
    if ('say' in pressed) {
      this.stack.say(pressed.say);
      return true;
    }
    if (!('submit' in pressed)) return true;
    const wrong = f.check?.(pressed.submit, this.values);
    if (wrong) {
      this.stack.say(wrong);
      return true;
    }
    this.texts.set(f.question.key, pressed.submit);
    this.at += 1;
    this.scroll = new Scroll();
    return this.field || this.options.confirm ? true : this.finish(key);
  }

  private async finish(key: Key): Promise<boolean> {
    const back = this.at;
    await this.options.done(this.values, key);
    // Still here: it was refused, and the last field is open again.
    if (!this.options.confirm && this.at === back) this.at = Math.max(0, this.fields.length - 1);
    return true;
  }
}

/** A line of text for a form. */
export const ask = (
  key: string,
  label: string,
  options: { help?: string; longest?: number; optional?: boolean } = {},
): Question => ({
  kind: 'text',
  key,
  label,
  ...options,
});
