/**
 * The keys of the page of a step that work wherever no text is typed: the one table of them. The page of keys, the foot
 * and the menu are made of it; what each does stands in ./commands.ts, where the compiler asks for it.
 */
import type { Key, KeyName } from '../../keys/key.js';

interface CommandKey {
  /** Letters and signs: text while one is typed. */
  readonly chars?: readonly string[];
  readonly names?: readonly KeyName[];
  /** Its line on the page of keys; left out where the line of another tells it too. `{position}`: what a bearing is called. */
  readonly told?: readonly [key: string, does: string];
  /** At the foot, where it does something now; `learning`: in that pace only. `{position}` as above. */
  readonly foot?: { readonly key: string; readonly does: string; readonly rank: number; readonly learning?: true };
  /** Its line in the menu. */
  readonly menu?: { readonly label: string; readonly note?: string };
}

/** In the order of the page of keys and of the foot. */
const table = {
  undo: {
    chars: ['u', '*'],
    told: ['u or *', 'undo: once more takes back what it names; y or / brings it back'],
    foot: { key: 'u', does: 'undo', rank: 1 },
  },
  redo: { chars: ['y', '/'] },
  why: {
    chars: ['w'],
    told: ['w', 'why this step, and what goes wrong without it'],
    foot: { key: 'w', does: 'why', rank: 3, learning: true },
  },
  drawing: {
    chars: ['d'],
    told: ['d and n', 'the drawing; where this number comes from'],
    foot: { key: 'd', does: 'show me', rank: 3, learning: true },
  },
  number: { chars: ['n'], foot: { key: 'n', does: 'this number', rank: 3, learning: true } },
  settle: { chars: ['r'], told: ['r', 'put right what was done under an old figure'] },
  'other-position': {
    names: ['tab', 'back-tab'],
    told: ['Tab', 'the other {position}'],
    foot: { key: 'Tab', does: 'other {position}', rank: 1 },
  },
  'whole-job': {
    chars: ['o'],
    told: ['o', 'the whole job: how far, what is to come, read ahead'],
    menu: { label: 'The whole job', note: 'how far, what is to come, read ahead' },
  },
  menu: {
    chars: ['m'],
    told: ['m', 'menu: notes, correct a reading, what if, events, sheet, pace, leave'],
    foot: { key: 'm', does: 'menu', rank: 3, learning: true },
  },
  keys: { chars: ['?'], told: ['?', 'this page'], foot: { key: '?', does: 'keys', rank: 1 } },
  glance: { names: ['esc'], told: ['Esc', 'one step back, always'], menu: { label: 'Where everything stands' } },
} as const satisfies Readonly<Record<string, CommandKey>>;

export type Command = keyof typeof table;
export const commandKeys: Readonly<Record<Command, CommandKey>> = table;
export const commands = Object.keys(table) as readonly Command[];

const signs = new Map(commands.flatMap((c) => (commandKeys[c].chars ?? []).map((char) => [char, c])));
const named = new Map(commands.flatMap((c) => (commandKeys[c].names ?? []).map((name) => [name, c])));

/** What the key is for where no text is typed; undefined for one that has no work of its own. */
export const commandOf = (key: Key): Command | undefined =>
  key.name === 'char' ? signs.get(key.char.toLowerCase()) : named.get(key.name);

/** What to say where one of them, alone, would become the answer to a text; undefined where it is none. */
export function loneKey(text: string): string | undefined {
  const typed = text.trim().toLowerCase();
  if (!signs.has(typed)) return undefined;
  return `“${text.trim()}” is a key of the guide, and here it is only a letter. For the key press Esc, then ${typed}.`;
}
