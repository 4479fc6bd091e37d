/** One line of spans. */
// @ts-nocheck

import { Text, type TextProps } from 'ink';
import type { Line, Tone } from '../look/line.js';
import { styleFor } from '../look/tone-styles.js';

export function styleOf(tone: Tone | undefined, colors: boolean): TextProps {
  const { bold, inverse, color, dim } = styleFor(tone, colors);
  return { bold, inverse, dimColor: dim, color };
}

/** Lines and spans have no identity but their place. */
export const numbered = <T,>(list: readonly T[]): readonly { readonly id: string; readonly of: T }[] =>
  list.map((of, i) => ({ id: String(i), of }));

export function Row({ line, colors }: { line: Line; colors: boolean }) {
  if (line.length === 0 || line.every((s) => s.text === '')) return <Text> </Text>;
  return (
    <Text wrap="truncate">
      {numbered(line).map(({ id, of: s }) => (
        <Text key={id} {...styleOf(s.tone, colors)}>
          {s.text}
        </Text>
      ))}
    </Text>
  );
}
