/** What pages are made of: lines of spans, gathered in blocks with a rank. Data only. */

/** How a span is meant; never the only carrier of a meaning. */
export type Tone = 'plain' | 'strong' | 'quiet' | 'alert' | 'good' | 'invert';

export interface Span {
  readonly text: string;
  readonly tone?: Tone;
}
export type Line = readonly Span[];

/** One thing that can be picked. */
export interface Item {
  readonly value: string;
  readonly label: string;
  readonly note?: string;
  /** The key that picks it, shown before it. */
  readonly digit?: string;
  /** Other words by which it is found in a list that is searched. */
  readonly words?: readonly string[];
  /** Set in lists in which several can be on. */
  readonly on?: boolean;
}
export interface Choices {
  /** Changes with the question, so that no highlight is carried over. */
  readonly id: string;
  readonly items: readonly Item[];
  /** Highlighted item; -1 for none. */
  readonly index: number;
}

/** A part of a page. The frame decides how much of it there is room for. */
export interface Block {
  /** 1 stays to the last, 0 longer than that; the largest number goes first. */
  readonly rank: number;
  /** It is acknowledged only where all of it stands on the screen. */
  readonly mustSee?: boolean;
  /** A blank line before it when there is room. */
  readonly gap?: boolean;
  /** Laid out for a width; leave out for choices. */
  readonly lines?: (width: number) => readonly Line[];
  /** A shorter way to say it when there is little room. */
  readonly small?: (width: number) => readonly Line[];
  /** A longer way, taken where lines are left over when all else stands there. */
  readonly longer?: (width: number) => readonly Line[];
  /** The long way is only for plenty of room: it goes before anything else does. */
  readonly roomy?: boolean;
  /** What keeps somebody safe or is vouched for: so much of it takes the place of whatever has a rank of 2 or more. */
  readonly least?: (width: number) => readonly Line[];
  /** As many of its sentences as stand in so many lines, one at the least: the first, or the last where these are still to be done. */
  readonly upTo?: (width: number, lines: number) => readonly Line[];
  /** It was read a moment ago, on the page before: it is said `upTo` a few lines before choices or a danger lack room. */
  readonly known?: boolean;
  /** Where one is, or what was recorded: it is known or stands on another page, so it goes first for what has to be seen. */
  readonly elsewhere?: boolean;
  /** Figures that one can ask for by a key: they go for the lines of a short list, which can only be picked where it is seen. */
  readonly yields?: boolean;
  readonly choices?: Choices;
  /** All choices in one line, where there are not lines enough for one each. */
  readonly beside?: (width: number) => readonly Line[];
  /** Said before it by a screen reader. */
  readonly label?: string;
  /** Only for the eye: left out by a screen reader. */
  readonly eyeOnly?: boolean;
  /** The key that the lines ask for, and what it does. */
  readonly press?: { readonly key: string; readonly does: string };
}

export interface Hint {
  readonly key: string;
  readonly does: string;
  /** As for blocks; 2 when left out. */
  readonly rank?: number;
  /** What stands above shows that it is pressed: who knows the job is not told again. */
  readonly told?: boolean;
  /** Named on each page: who knows the job reads it at the start of a sitting only. */
  readonly always?: boolean;
}

/** A whole page, before it is fitted to a terminal. */
export interface View {
  /** Where one is. */
  readonly head: string;
  /** The part of it that has to be seen first: which bearing it is. */
  readonly headMark?: string;
  readonly headRight?: string;
  readonly body: readonly Block[];
  /** Beside the body where the terminal is wide. */
  readonly side?: (width: number, height: number) => readonly Line[] | undefined;
  readonly foot: readonly Hint[];
  /** Only the body, from edge to edge: no head, no foot. */
  readonly bare?: boolean;
  /** First line shown of a long page; the frame keeps it in range. */
  readonly scroll?: number;
}

/** How much room there is and what the terminal can show. */
export interface Room {
  readonly cols: number;
  readonly rows: number;
  readonly ascii: boolean;
  readonly color: boolean;
  readonly reader: boolean;
}

export const plain = (text: string): Line => [{ text }];
export const strong = (text: string): Line => [{ text, tone: 'strong' }];
export const quiet = (text: string): Line => [{ text, tone: 'quiet' }];
