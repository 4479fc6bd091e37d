/** Draws a view within the terminal by ink. */
import { Box, Text } from 'ink';
import type { Fitted } from '../look/fit.js';
import type { Room, View } from '../look/line.js';
import { shorten } from '../look/wrap.js';
import { ChoiceList } from './choice-list.js';
import { bareLines, layFrame, type Message, margin } from './frame-layout.js';
import { LineRow, numbered } from './row.js';

export function Frame(props: { view: View; room: Room; message: Message | undefined }) {
  return props.view.bare ? <Bare {...props} /> : <Framed {...props} />;
}

function Bare({ view, room }: { view: View; room: Room }) {
  return (
    <Box flexDirection="column" width={room.cols} height={Math.max(1, room.rows - 1)} overflowY="hidden">
      {numbered(bareLines(view, room)).map(({ id, of }) => (
        <LineRow key={id} line={of} colors={room.color} />
      ))}
    </Box>
  );
}

function Framed({ view, room, message }: { view: View; room: Room; message: Message | undefined }) {
  const {
    head,
    headLine,
    headRight,
    fitted,
    width,
    side,
    inner,
    sideLines,
    said,
    foot,
    glyphs,
    letters,
    cut,
    lowerRule,
    lowerTone,
  } = layFrame(view, room, message);
  const colors = room.color;
  if (room.reader)
    return (
      <Box flexDirection="column">
        <Text>{shorten(head, 300)}</Text>
        <Fits fitted={fitted.filter((f) => !f.block.eyeOnly)} colors={colors} pointer={glyphs.pointer} reader />
        {message ? <Text>{letters(message.text)}</Text> : null}
        {cut ? <Text>More than fits here: Page Down.</Text> : null}
        <Text>{`Keys: ${view.foot.map((h) => `${letters(h.key)} ${letters(h.does)}`).join(', ')}`}</Text>
      </Box>
    );
  return (
    <Box flexDirection="column" width={room.cols} height={Math.max(3, room.rows - 1)} paddingX={margin}>
      <Box justifyContent="space-between" flexShrink={0} height={1}>
        <LineRow line={headLine} colors={colors} />
        {headRight ? <Text dimColor={colors}>{headRight}</Text> : null}
      </Box>
      <Box flexShrink={0} height={1}>
        <Text dimColor={colors} wrap="truncate">
          {glyphs.rule.repeat(inner)}
        </Text>
      </Box>
      <Box flexGrow={1} flexDirection="row" overflowY="hidden">
        <Box flexDirection="column" width={width} flexShrink={0}>
          <Fits fitted={fitted} colors={colors} pointer={glyphs.pointer} />
        </Box>
        {side ? (
          <Box flexDirection="column" marginLeft={3} width={side} flexShrink={0}>
            {numbered(sideLines).map(({ id, of }) => (
              <LineRow key={id} line={of} colors={colors} />
            ))}
          </Box>
        ) : null}
      </Box>
      {numbered(said).map(({ id, of }) => (
        <LineRow key={id} line={of} colors={colors} />
      ))}
      <Box flexShrink={0} height={1}>
        <Text dimColor={colors && lowerTone === 'quiet'} wrap="truncate">
          {lowerRule}
        </Text>
      </Box>
      {numbered(foot).map(({ id, of }) => (
        <LineRow key={id} line={of} colors={colors} />
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
        numbered(f.lines).map(({ id: n, of }) => <LineRow key={n} line={of} colors={colors} />)
      )}
    </Box>
  ));
}
