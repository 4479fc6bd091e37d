/** Blocks that several pages use. */
import { sentencesOf } from '../../procedure/sentences.js';
import type { Block, Line, Span, Tone } from '../look/line.js';
import { wrap, wrapText } from '../look/wrap.js';

export const paragraph = (
  text: string,
  options: { rank?: number; tone?: Tone; gap?: boolean; indent?: number } = {},
): Block => ({
  rank: options.rank ?? 1,
  gap: options.gap,
  lines: (width) => wrapText(text, width, options.tone, options.indent ?? 0),
});

/** Words of an instruction, folded beside its bar. */
export const instructionLines = (text: string, width: number, tone?: Tone): Line[] =>
  wrapText(text, Math.min(width - 3, 92), tone);

/** The thing to do now: heavy, with a bar along it that reaches beyond the words where there is room. */
export function largest(text: string, bar: string, rank = 1): Block {
  const words = (width: number): Line[] =>
    instructionLines(text, width, 'strong').map((line): Line => [{ text: `${bar}  `, tone: 'strong' }, ...line]);
  const end: Line = [{ text: bar, tone: 'strong' }];
  return { rank, gap: true, lines: (width) => [end, ...words(width), end], small: words, roomy: true };
}

/**
 * As many sentences of an instruction as stand in so many lines, one at the least, and a sign that there are more.
 * @param last those at its end, which are left to be done
 */
export const sentencesUpTo =
  (text: string, bar: string, more: string, last: boolean) =>
  (width: number, most: number): Line[] => {
    const all = sentencesOf(text).map((s) => s.text);
    const lines = (n: number): readonly Line[] => {
      const some = last ? [more, ...all.slice(-n)] : [...all.slice(0, n), more];
      return largest((n < all.length ? some : all).join(' '), bar).small?.(width) ?? [];
    };
    let n = 1;
    while (n < all.length && lines(n + 1).length <= most) n += 1;
    return [...lines(n)];
  };

/** `Label  value`, the value strong. */
export const pair = (
  label: string,
  value: string,
  options: { rank?: number; gap?: boolean; indent?: number } = {},
): Block => ({
  rank: options.rank ?? 2,
  gap: options.gap,
  lines: (width) =>
    wrap(
      [
        { text: `${' '.repeat(options.indent ?? 0)}${label}  `, tone: 'quiet' },
        { text: value, tone: 'strong' },
      ],
      width,
      (options.indent ?? 0) + 2,
    ),
});

export const spans = (
  line: readonly Span[],
  options: { rank?: number; gap?: boolean; indent?: number; mustSee?: boolean } = {},
): Block => ({
  rank: options.rank ?? 1,
  gap: options.gap,
  mustSee: options.mustSee,
  lines: (width) => wrap(line, width, options.indent ?? 0),
});

/** `Press 9 …`; `first` names a key that is pressed before. */
export const pressLines = (press: NonNullable<Block['press']>, width: number, first?: string): Line[] =>
  wrap(
    [
      { text: `Press ${first ? `${first}, then ` : ''}` },
      { text: ` ${press.key} `, tone: 'invert' },
      { text: ` ${press.does}`, tone: 'strong' },
    ],
    width,
    2,
  );

export const heading = (text: string): Block => ({
  rank: 1,
  gap: true,
  lines: (width) => wrapText(text, width, 'strong'),
});

export function firstSentence(text: string): string {
  const m = /^.*?[.!?](?=\s|$)/s.exec(text.trim());
  return m ? m[0] : text.trim();
}
