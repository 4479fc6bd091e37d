/**
 * What a job at the screens costs a person. Keys are counted by kind, screens by what they ask, words as they come up.
 *
 * Seconds by the keystroke-level model of Card, Moran and Newell (1980), values from memory: 0.28 s a key for an
 * average typist, 1.35 s of mental preparation before each screen that asks for something, and reading at 250 words a
 * minute. Only words not seen before are read; in gloves a key takes 0.5 s or more.
 */
// @ts-nocheck

export const model = { key: 0.28, prepare: 1.35, wordsASecond: 250 / 60 };

export interface Effort {
  readonly steps: number;
  readonly screens: number;
  readonly keys: { readonly digits: number; readonly enter: number; readonly nine: number; readonly letters: number };
  readonly keystrokes: number;
  readonly wordsShown: number;
  readonly wordsNew: number;
  readonly seconds: number;
}

const wordsIn = (line: string): number => line.match(/[\p{L}\p{N}][\p{L}\p{N}.,'’/°%±-]*/gu)?.length ?? 0;

export class Counter {
  private readonly keys = { digits: 0, enter: 0, nine: 0, letters: 0 };
  private readonly lines = new Set<string>();
  private readonly steps = new Set<string>();
  private screens = 0;
  private shown = 0;
  private fresh = 0;

  /** A key, by name or as one character; `safety` where it confirms a danger or a signature. */
  key(key: string, safety: boolean): void {
    if (safety) this.keys.nine += 1;
    else if (key === 'enter') this.keys.enter += 1;
    else if (/^[0-9.,]$/.test(key)) this.keys.digits += 1;
    else this.keys.letters += 1;
  }

  step(name: string): void {
    this.steps.add(name);
  }

  /** A screen that asks for something, as it stands when it comes up. */
  screen(frame: string): void {
    this.screens += 1;
    for (const raw of frame.split('\n')) {
      const line = raw.trim();
      const words = wordsIn(line);
      this.shown += words;
      if (this.lines.has(line)) continue;
      this.lines.add(line);
      this.fresh += words;
    }
  }

  effort(): Effort {
    const { digits, enter, nine, letters } = this.keys;
    const keystrokes = digits + enter + nine + letters;
    return {
      steps: this.steps.size,
      screens: this.screens,
      keys: { ...this.keys },
      keystrokes,
      wordsShown: this.shown,
      wordsNew: this.fresh,
      seconds: Math.round(keystrokes * model.key + this.screens * model.prepare + this.fresh / model.wordsASecond),
    };
  }
}
