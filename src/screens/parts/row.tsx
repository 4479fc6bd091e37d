/** One line of spans. Colour only adds to what the words say. */
import { Text, type TextProps } from 'ink';
import type { Line, Tone } from '../look/line.js';

const styles: Readonly<
  Record<Tone, { readonly bold?: boolean; readonly inverse?: boolean; readonly color?: string; readonly dim?: boolean }>
> = {
  plain: {},
  strong: { bold: true },
  quiet: { dim: true },
  alert: { bold: true, color: 'yellow' },
  good: { color: 'green' },
  invert: { inverse: true, bold: true },
};

export function styleOf(tone: Tone | undefined, colors: boolean): TextProps {
  const s = styles[tone ?? 'plain'];
  return { bold: s.bold, inverse: s.inverse, dimColor: colors && s.dim, color: colors ? s.color : undefined };
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
