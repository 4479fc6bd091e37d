/** Draws a view within the terminal: head, body, foot, never as tall as the terminal itself. */
import { Box, Text } from 'ink';
import { safeText } from '../../text/safe-text.js';
import { type Fitted, fitBlocks } from '../look/fit.js';
import { glyphs } from '../look/glyphs.js';
import type { Block, Hint, Line, Room, View } from '../look/line.js';
import { toAscii } from '../look/plain-letters.js';
import { lineWidth, shorten, widthOf, wrap } from '../look/wrap.js';
import { ChoiceList } from './choice-list.js';
import { numbered, Row } from './row.js';

/** From this width on a drawing or a curve stands beside. */
const wideFrom = 104;
const margin = 1;

export interface Message {
  readonly text: string;
  readonly tone: 'alert' | 'good';
}

/** Columns of the body and of what stands beside it. */
export function columns(room: Room, beside: boolean): { body: number; side: number } {
  const inner = Math.max(8, room.cols - 2 * margin);
  if (!beside || room.cols < wideFrom) return { body: inner, side: 0 };
  const side = Math.min(52, Math.floor(inner * 0.42));
  return { body: inner - side - 3, side };
}

/** Lines between head and foot. */
export const bodyHeight = (room: Room, footLines: number): number => Math.max(1, room.rows - 1 - 2 - 1 - footLines);

/** A job's name may come from anywhere: nothing in a text is obeyed by the terminal. */
const lettersFor = (room: Room) => (text: string) => {
  // Signs for the eye would be read out by name.
  if (room.reader) return lettersOf(room, text.replace(/[┃▲✓◷○▏]\s*/g, '').replace(/↑ ?↓/g, 'Up or Down'));
  return lettersOf(room, text);
};

const lettersOf = (room: Room, text: string): string => {
  if (/^[\x20-\x7e]*$/.test(text)) return text;
  const safe = safeText(text, { lines: true, max: 20_000 });
  return room.ascii ? toAscii(safe) : safe;
};

function tidyBlock(block: Block, letters: (t: string) => string): Block {
  const { lines, small, choices } = block;
  const spelt = (list: readonly Line[]): Line[] =>
    list.map((line) => line.map((s) => ({ ...s, text: letters(s.text) })));
  /** Spelt in plain letters a line may grow: then all are folded anew to less width. */
  const tidyLines = (make: (width: number) => readonly Line[], width: number): Line[] => {
    let room = width;
    for (let i = 0; i < 3; i++) {
      const list = spelt(make(room));
      const over = Math.max(0, ...list.map((l) => lineWidth(l) - width));
      if (over === 0) return list;
      room = Math.max(8, room - over);
    }
    return spelt(make(room)).flatMap((line) => wrap(line, width));
  };
  return {
    ...block,
    lines: lines && ((width) => tidyLines(lines, width)),
    small: small && ((width) => tidyLines(small, width)),
    choices: choices && {
      ...choices,
      items: choices.items.map((i) => ({ ...i, label: letters(i.label), note: i.note && letters(i.note) })),
    },
  };
}

/** Key hints in at most `most` lines, the least important left out first. */
function footLines(hints: readonly Hint[], width: number, most: number, apart: string): Line[] {
  let left = [...hints];
  for (;;) {
    const rows: Line[] = [];
    let row: { text: string; tone?: 'strong' | 'quiet' }[] = [];
    for (const h of left) {
      const piece = [
        { text: h.key, tone: 'strong' as const },
        { text: ` ${h.does}`, tone: 'quiet' as const },
      ];
      const gap = row.length ? apart : '';
      if (row.length && lineWidth(row) + widthOf(gap) + lineWidth(piece) > width) {
        rows.push(row);
        row = piece;
      } else row.push(...(gap ? [{ text: gap, tone: 'quiet' as const }] : []), ...piece);
    }
    if (row.length) rows.push(row);
    if (rows.length <= most) return rows;
    const worst = Math.max(...left.map((h) => h.rank ?? 2));
    const drop = left.findLastIndex((h) => (h.rank ?? 2) === worst);
    left = left.filter((_, i) => i !== drop);
  }
}

function scrolled(blocks: readonly Block[], width: number, height: number, at: number): Fitted[] {
  const lines = blocks.flatMap((b, i) => [...(b.gap && i > 0 ? [[]] : []), ...(b.lines?.(width) ?? [])]);
  const from = Math.max(0, Math.min(at, lines.length - height));
  return [{ block: { rank: 1 }, gap: false, lines: lines.slice(from, from + height) }];
}

export function Frame({ view, room, message }: { view: View; room: Room; message: Message | undefined }) {
  const letters = lettersFor(room);
  const g = glyphs(room.ascii);
  const beside = view.side !== undefined;
  const { body: width, side } = columns(room, beside);
  const inner = Math.max(8, room.cols - 2 * margin);
  const foot = footLines(
    view.foot.map((h) => ({ ...h, key: letters(h.key), does: letters(h.does) })),
    inner,
    room.rows >= 22 ? 2 : 1,
    ' '.repeat(3),
  );
  const said: Line[] = message
    ? wrap(
        [
          { text: `${message.tone === 'alert' ? g.warn : g.done} `, tone: message.tone },
          { text: letters(message.text), tone: 'strong' },
        ],
        inner,
        2,
      ).slice(0, Math.max(1, Math.min(5, room.rows - 8)))
    : [];
  const height = Math.max(1, bodyHeight(room, foot.length) - said.length - (said.length && room.rows > 20 ? 1 : 0));
  const blocks = view.body.map((b) => tidyBlock(b, letters));
  const fitted =
    view.scroll === undefined ? fitBlocks(blocks, width, height) : scrolled(blocks, width, height, view.scroll);
  const sideLines = side
    ? (view.side?.(side, height) ?? []).slice(0, height).map((l) => l.map((s) => ({ ...s, text: letters(s.text) })))
    : [];
  const right = view.headRight ? letters(view.headRight) : '';
  const head = letters(view.head);
  const rightRoom = Math.max(0, inner - widthOf(head) - 3);
  const headRight = rightRoom >= 6 ? shorten(right, rightRoom, g.more) : '';
  const colors = room.color;
  if (room.reader)
    return (
      <Box flexDirection="column">
        <Text>{shorten(head, 300)}</Text>
        <Fits fitted={fitted.filter((f) => !f.block.eyeOnly)} colors={colors} pointer={g.pointer} reader />
        {message ? <Text>{letters(message.text)}</Text> : null}
        <Text>{`Keys: ${view.foot.map((h) => `${letters(h.key)} ${letters(h.does)}`).join(', ')}`}</Text>
      </Box>
    );
  return (
    <Box flexDirection="column" width={room.cols} height={Math.max(3, room.rows - 1)} paddingX={margin}>
      <Box justifyContent="space-between" flexShrink={0} height={1}>
        <Text bold wrap="truncate">
          {shorten(head, inner, g.more)}
        </Text>
        {headRight ? <Text dimColor={colors}>{headRight}</Text> : null}
      </Box>
      <Box flexShrink={0} height={1}>
        <Text dimColor={colors} wrap="truncate">
          {g.rule.repeat(inner)}
        </Text>
      </Box>
      <Box flexGrow={1} flexDirection="row" overflow="hidden">
        <Box flexDirection="column" width={width} flexShrink={0}>
          <Fits fitted={fitted} colors={colors} pointer={g.pointer} />
        </Box>
        {side ? (
          <Box flexDirection="column" marginLeft={3} width={side} flexShrink={0}>
            {numbered(sideLines).map(({ id, of }) => (
              <Row key={id} line={of} colors={colors} />
            ))}
          </Box>
        ) : null}
      </Box>
      {numbered(said).map(({ id, of }) => (
        <Row key={id} line={of} colors={colors} />
      ))}
      <Box flexShrink={0} height={1}>
        <Text dimColor={colors} wrap="truncate">
          {g.rule.repeat(inner)}
        </Text>
      </Box>
      {numbered(foot).map(({ id, of }) => (
        <Row key={id} line={of} colors={colors} />
      ))}
    </Box>
  );
}

function Fits(props: { fitted: readonly Fitted[]; colors: boolean; pointer: string; reader?: boolean }) {
  const { fitted, colors, pointer, reader } = props;
  return numbered(fitted).map(({ id, of: f }) => (
    <Box key={id} flexDirection="column" flexShrink={0} marginTop={f.gap && !reader ? 1 : 0}>
      {reader && f.block.label ? <Text>{f.block.label}</Text> : null}
      {'choices' in f ? (
        <ChoiceList list={f} colors={colors} pointer={pointer} />
      ) : (
        numbered(f.lines).map(({ id: n, of }) => <Row key={n} line={of} colors={colors} />)
      )}
    </Box>
  ));
}
