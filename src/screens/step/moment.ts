/** One thing that a step wants now: its part of the screen and its keys. Made anew at each advance; holds nothing. */
import type { StepView } from '../../engine/steps/board.js';
import type { Key } from '../../keys/key.js';
import { type Desk, isBrisk } from '../desk.js';
import { glyphs } from '../look/glyphs.js';
import type { Block, Hint, Line, Room } from '../look/line.js';
import { wrap } from '../look/wrap.js';
import type { Asks } from '../page.js';
import { firstSentence, pressLines } from '../words/blocks.js';

export interface Moment {
  /** Name of what is typed here. */
  readonly where: string;
  /** What is asked here; `id` tells apart what is asked under one `where`. Left out: nothing is typed or confirmed. */
  asks?(): Asks;
  /** Something here has to be read whole before it is acknowledged. */
  readonly readWhole?: boolean;
  blocks(room: Room): readonly Block[];
  /** The field alone, for a row of a table. */
  line?(room: Room, width: number): Line;
  hints(): readonly Hint[];
  /** Undefined when the key is none of its own. */
  press(key: Key): boolean | Promise<boolean> | undefined;
}

/** True while every letter is text. */
export const takesText = (moment: Moment): boolean => moment.asks?.().field === 'text';

export interface MomentOf {
  readonly desk: Desk;
  readonly view: StepView;
}

export const momentId = (view: StepView, what: string): string => `${view.step.id}@${view.place}:${what}`;

/** A stop is answered once more: what its step asks is done again, with its dangers. */
export const answersAgain = ({ desk, view }: MomentOf): boolean =>
  view.wants === 'gate' && desk.again?.where === momentId(view, `gate:${view.gates[0]?.gate.id}`);

export const isSafety = (desk: Desk, key: Key): boolean => key.name === 'char' && key.char === desk.safetyKey;

/** Names the right key, or says what is `better`, where another one was pressed that looks like an answer. */
export function wrongKey(desk: Desk, key: Key, what: string, better?: string): true | undefined {
  const like = key.name === 'enter' || (key.name === 'char' && /^[\d+ ]$/.test(key.char));
  if (!like) return undefined;
  const pressed = key.name === 'enter' ? 'Enter' : key.char === ' ' ? 'Space' : key.char;
  desk.stack.say(better ?? `${what} with ${desk.safetyKey}, not with ${pressed}. Press ${desk.safetyKey}.`);
  return true;
}

/** An instruction to press one key; `brief`: for who knows that what stands out so is a key. */
export const pressBlock = (key: string, does: string, brief = false): Block => ({
  rank: 1,
  gap: true,
  lines: (width) => {
    const [first = [], ...more] = pressLines({ key, does }, width);
    return [brief ? first.slice(1) : first, ...more];
  },
  press: { key, does },
});

/** The same for the key that confirms a danger. */
export const safetyBlock = (desk: Desk, does: string): Block => pressBlock(desk.safetyKey, does, isBrisk(desk));

export function alertBlock(text: string, room: Room, rank = 1): Block {
  return { rank, gap: true, lines: (width) => alertLines(text, width, room) };
}

/** The first sentence of a stop stays; of the rest, what leaves room for the ways on. */
export const stopBlock = (why: string, room: Room): Block => ({
  ...alertBlock(`STOP  ${why}`, room),
  least: (width) => alertLines(`STOP  ${firstSentence(why)}`, width, room),
});

const alertLines = (text: string, width: number, room: Room): Line[] =>
  wrap(
    [
      { text: `${glyphs(room.ascii).warn} `, tone: 'alert' },
      { text, tone: 'strong' },
    ],
    width,
    2,
  );
