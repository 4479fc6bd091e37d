/** Writes a frame as lines of text with escape sequences, to look as ink draws it. Needs no ink. */
import type { Fitted } from '../look/fit.js';
import { type Line, quiet, type Room, type Span, type Tone, type View } from '../look/line.js';
import { styleFor } from '../look/tone-styles.js';
import { lineWidth, shorten, widthOf } from '../look/wrap.js';
import { bareLines, layFrame, type Message, margin } from './frame-layout.js';

const colorCodes = { yellow: 33, green: 32 } as const;

/** One span in its style; `styled` is false where the terminal takes no styles at all. */
function paint({ text, tone }: Span, colors: boolean, styled: boolean): string {
  const { bold, dim, inverse, color } = styleFor(tone, colors);
  const codes = [bold && 1, dim && 2, inverse && 7, color && colorCodes[color]].filter(Boolean);
  return styled && codes.length && text ? `\u001b[${codes.join(';')}m${text}\u001b[0m` : text;
}

/** What stands in the line up to `width`, as spans. */
function within(line: Line, width: number): Line {
  if (lineWidth(line) <= width) return line;
  const out: Span[] = [];
  let left = width;
  for (const span of line) {
    const w = widthOf(span.text);
    out.push(w <= left ? span : { ...span, text: shorten(span.text, left) });
    left -= w;
    if (left <= 0) break;
  }
  return out;
}

function blockLines(f: Fitted, pointer: string): Line[] {
  if (!('choices' in f)) return [...f.lines];
  const { choices, rows, from, before, after } = f;
  const digits = choices.items.some((i) => i.digit);
  return [
    ...(before ? [quiet(`    ${from} more above`)] : []),
    ...rows.flatMap(({ item, lines }, i) => {
      const picked = choices.index - from === i;
      const tone: Tone = picked ? 'invert' : 'plain';
      const strong = (text: string): Span => ({ text, tone: 'strong' });
      const lead: Span[] = [
        picked ? strong(`${pointer} `.slice(0, 2)) : { text: '  ' },
        ...(digits ? [strong((item.digit ?? ' ').padEnd(3))] : []),
        ...(item.on === undefined ? [] : [{ text: item.on ? '[x] ' : '[ ] ' }]),
      ];
      return lines.map(
        (text, n): Line => [...(n === 0 ? lead : [{ text: ' '.repeat(lineWidth(lead)) }]), { text, tone }],
      );
    }),
    ...(after ? [quiet(`    ${after}`)] : []),
  ];
}

/**
 * All lines of the frame, one fewer than the terminal has rows.
 * @param styled false for a terminal that takes no escape sequences for styles
 */
export function frameText(view: View, room: Room, message: Message | undefined, styled: boolean): string[] {
  if (view.bare) {
    const lines = bareLines(view, room).map((line) =>
      within(line, room.cols)
        .map((s) => paint(s, room.color, styled))
        .join(''),
    );
    return Array.from({ length: Math.max(1, room.rows - 1) }, (_, i) => lines[i] ?? '');
  }
  const { headLine, headRight, fitted, width, side, inner, sideLines, said, foot, glyphs, lowerRule, lowerTone } =
    layFrame(view, room, message);
  const lower: Line = [{ text: lowerRule, tone: lowerTone }];
  const rule: Line = [{ text: glyphs.rule.repeat(inner), tone: 'quiet' }];
  const apart = ' '.repeat(Math.max(0, inner - lineWidth(headLine) - widthOf(headRight)));
  const body = fitted.flatMap((f) => [...(f.gap ? [[]] : []), ...blockLines(f, glyphs.pointer)]);
  const height = Math.max(0, Math.max(3, room.rows - 1) - 3 - said.length - foot.length);
  const middle = Array.from({ length: height }, (_, i): Line => {
    const line = within(body[i] ?? [], width);
    const beside = side ? within(sideLines[i] ?? [], side) : [];
    return beside.length ? [...line, { text: ' '.repeat(width + 3 - lineWidth(line)) }, ...beside] : line;
  });
  const lines: Line[] = [
    [...headLine, ...(headRight ? [{ text: apart }, { text: headRight, tone: 'quiet' as const }] : [])],
    rule,
    ...middle,
    ...[...said, lower, ...foot].map((l) => within(l, inner)),
  ];
  return lines.slice(0, Math.max(3, room.rows - 1)).map((line) => {
    const text = line.map((s) => paint(s, room.color, styled)).join('');
    return text.trim() === '' ? '' : `${' '.repeat(margin)}${text}`.trimEnd();
  });
}
