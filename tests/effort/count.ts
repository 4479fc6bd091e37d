/**
 * What a job at the screens costs a person. Keys are counted by kind, screens by what they ask, words as they come up.
 *
 * Seconds by the keystroke-level model of Card, Moran and Newell (1980), values from memory: 0.28 s a key for an
 * average typist, 1.35 s of mental preparation before each screen that asks for something, and reading at 250 words a
 * minute. Only words not seen before, three in a row, are read; in gloves a key takes 0.5 s or more.
 */
export const model = { key: 0.28, prepare: 1.35, wordsASecond: 250 / 60 };

/** Digits of a figure, a pick, Enter, what confirms a danger or signs, and all that is typed in words. */
type KeyKind = 'figures' | 'picks' | 'enter' | 'nine' | 'letters';

export interface Effort {
  readonly steps: number;
  readonly screens: number;
  readonly keys: Readonly<Record<KeyKind, number>>;
  readonly keystrokes: number;
  readonly wordsShown: number;
  readonly wordsNew: number;
  readonly seconds: number;
}

export interface Lump {
  screens: number;
  words: number;
  /** Words not read before. */
  fresh: number;
  presses: number;
  keys: string;
}

export const secondsOf = (presses: number, screens: number, fresh: number): number =>
  Math.round(presses * model.key + screens * model.prepare + fresh / model.wordsASecond);

const noLump = (): Lump => ({ screens: 0, words: 0, fresh: 0, presses: 0, keys: '' });

const word = /[\p{L}\p{N}][\p{L}\p{N}.,'’/°%±-]*/gu;
const wordsIn = (line: string): number => line.match(word)?.length ?? 0;

const figuresIn = (line: string): number => line.match(/\d[\d.,:]*/g)?.length ?? 0;
/** Where on the screen a line stands, by its marks: for a table of what is shown where. */
export type Spot =
  | 'head'
  | 'foot'
  | 'what to do'
  | 'dangers'
  | 'hold, stop, mind'
  | 'done'
  | 'recorded'
  | 'waits'
  | 'press'
  | 'options'
  | 'still to come'
  | 'label and value'
  | 'labels';

function spotOf(line: string, before: Spot): Spot {
  if (/^ *┃/.test(line)) return 'what to do';
  if (/^ *(▲ )?(DANGER|WARNING|CAUTION|NOTICE):/.test(line)) return 'dangers';
  if (/^ *▲/.test(line)) return 'hold, stop, mind';
  if (/^ *✓/.test(line)) return 'done';
  if (/^ *Recorded /.test(line)) return 'recorded';
  if (/^ *◷/.test(line)) return 'waits';
  if (/^ *Press /.test(line)) return 'press';
  if (/^ *▸? *\d {2}\S/.test(line)) return 'options';
  if (/^ {3,}\S/.test(line))
    return before === 'labels' || before === 'press' || before === 'what to do' ? 'still to come' : before;
  return /\S {2,}\S/.test(line.trim()) ? 'label and value' : 'labels';
}

/** Each line of a frame with where it stands. */
function spots(frame: string): readonly (readonly [string, Spot])[] {
  const lines = frame.split('\n');
  const rule = lines.findLastIndex((l) => /^ *───/.test(l));
  let spot: Spot = 'head';
  return lines.map((line, i) => {
    if (i > 1 && line.trim() !== '') spot = i >= rule && rule > 1 ? 'foot' : spotOf(line, spot);
    return [line, spot] as const;
  });
}

const unmarked = (line: string): string => line.replace(/^[^\p{L}\p{N}]+/u, '').trim();
const sameWords = (line: string): string => line.replace(/\d[\d.,:]*/g, '#');

export class Counter {
  /** Every screen as it came up. */
  readonly frames: string[] = [];
  private readonly keys: Record<KeyKind, number> = { figures: 0, picks: 0, enter: 0, nine: 0, letters: 0 };
  private readonly seen = new Set<string>();
  private readonly steps = new Map<string, Lump>();
  private at = noLump();
  /** Words shown, by where they stand. */
  readonly spots = new Map<Spot, number>();
  private screens = 0;
  private shown = 0;
  private fresh = 0;

  /** A key, by name or as one character; `as` tells a pick from a digit, and what confirms a danger or signs. */
  key(key: string, as?: 'pick' | 'safety'): void {
    const safety = as === 'safety';
    if (safety) this.keys.nine += 1;
    else if (key === 'enter') this.keys.enter += 1;
    else if (as === 'pick') this.keys.picks += 1;
    else if (/^[0-9.,]$/.test(key)) this.keys.figures += 1;
    else this.keys.letters += 1;
    this.at.presses += 1;
    this.at.keys += safety ? '!' : key === 'enter' ? '.' : [...key].length > 1 ? `<${key}>` : key;
  }

  /** What follows belongs to this step at this place. */
  step(name: string): void {
    this.at = this.steps.get(name) ?? noLump();
    this.steps.set(name, this.at);
  }

  /** What each step took, in order; in `keys` a dot is Enter and ! confirms a danger. */
  lumps(): readonly (readonly [string, Lump])[] {
    return [...this.steps];
  }

  /**
   * A screen that asks for something, as it stands when it comes up. Of one that goes on with what stood there before,
   * only the lines that were not there count.
   */
  screen(frame: string, goesOn = false): void {
    const before = new Set(goesOn ? this.frames.at(-1)?.split('\n').map(unmarked) : []);
    const alike = new Set([...before].map(sameWords));
    this.frames.push(frame);
    if (!goesOn) {
      this.screens += 1;
      this.at.screens += 1;
    }
    for (const [raw, spot] of spots(frame)) {
      // What it is marked with is no word.
      const line = unmarked(raw);
      // Of a line in which only figures are others than before, the figures are read.
      const label = line.replace(/ {2,}.*$/, '');
      const words = before.has(line)
        ? 0
        : alike.has(sameWords(line))
          ? figuresIn(line)
          : // Of a line behind which an answer was put, the answer.
            wordsIn(before.has(label) ? line.slice(label.length) : line);
      this.shown += words;
      this.spots.set(spot, (this.spots.get(spot) ?? 0) + words);
      this.at.words += words;
    }
    const fresh = this.read(frame);
    this.fresh += fresh;
    this.at.fresh += fresh;
  }

  /** Words that were not read before in the same company: one counts as known within three in a row that were seen. */
  private read(frame: string): number {
    const exact = frame.match(word) ?? [];
    const norm = exact.map(sameWords);
    const known = (list: readonly string[]): boolean[] =>
      list.map((_, i) => this.seen.has(list.slice(i, i + 3).join(' ')));
    const [byWords, byFigures] = [known(norm), known(exact)];
    const within = (flags: readonly boolean[], i: number): boolean =>
      [i - 2, i - 1, i].some((at) => flags[at] === true);
    const fresh = exact.filter((w, i) => !within(byWords, i) || (/\d/.test(w) && !within(byFigures, i))).length;
    for (const list of [norm, exact]) for (const i of list.keys()) this.seen.add(list.slice(i, i + 3).join(' '));
    return fresh;
  }

  effort(): Effort {
    const keystrokes = Object.values(this.keys).reduce((a, b) => a + b, 0);
    return {
      steps: this.steps.size,
      screens: this.screens,
      keys: { ...this.keys },
      keystrokes,
      wordsShown: this.shown,
      wordsNew: this.fresh,
      seconds: secondsOf(keystrokes, this.screens, this.fresh),
    };
  }
}
