/** One thing that a step wants now: its part of the screen and its keys. Made anew for each frame; holds nothing. */
// @ts-nocheck

import type { StepView } from '../../engine/board.js';
import type { Desk } from '../desk.js';
import type { Key } from '../keys.js';
import { glyphs } from '../look/glyphs.js';
import type { Block, Hint, Room } from '../look/line.js';
import { wrap } from '../look/wrap.js';

export interface Moment {
  /** Name of what is typed here. */
  readonly where: string;
  blocks(room: Room): readonly Block[];
  hints(): readonly Hint[];
  /** Undefined when the key is none of its own. */
  press(key: Key): boolean | Promise<boolean> | undefined;
  /** True while letters are text. */
  typing(): boolean;
  /** True while a text field is open, also where a letter is a command until a digit stands in it. */
  field?(): boolean;
  /** True while a danger is confirmed. */
  careful?(): boolean;
  /** True while Enter takes what stands in the field and another key has to confirm it. */
  enterOnlyCloses?(): boolean;
}

export interface MomentOf {
  readonly desk: Desk;
  readonly view: StepView;
}

export const whereOf = (view: StepView, what: string): string => `${view.step.id}@${view.place}:${what}`;

export const isSafety = (desk: Desk, key: Key): boolean => key.name === 'char' && key.char === desk.safetyKey;

/** Names the right key where another one was pressed that looks like an answer. */
export function wrongKey(desk: Desk, key: Key, what: string): true | undefined {
  const like = key.name === 'enter' || (key.name === 'char' && /^[\d+ ]$/.test(key.char));
  if (!like) return undefined;
  const pressed = key.name === 'enter' ? 'Enter' : key.char === ' ' ? 'Space' : key.char;
  desk.stack.say(`${what} with ${desk.safetyKey}, not with ${pressed}. Press ${desk.safetyKey}.`);
  return true;
}

/** An instruction to press one key. */
export const pressBlock = (key: string, does: string): Block => ({
  rank: 1,
  gap: true,
  lines: (width) =>
    wrap([{ text: 'Press ' }, { text: ` ${key} `, tone: 'invert' }, { text: ` ${does}`, tone: 'strong' }], width, 2),
});

/** The same for the key that confirms a danger. */
export const safetyBlock = (desk: Desk, does: string): Block => pressBlock(desk.safetyKey, does);

export function alertBlock(text: string, room: Room, rank = 1): Block {
  return {
    rank,
    gap: true,
    lines: (width) =>
      wrap(
        [
          { text: `${glyphs(room.ascii).warn} `, tone: 'alert' },
          { text, tone: 'strong' },
        ],
        width,
        2,
      ),
  };
}
