/** How each tone looks on a terminal. Colour only adds to what the words say. */
// @ts-nocheck

import type { Tone } from './line.js';

export interface Style {
  readonly bold?: boolean;
  readonly inverse?: boolean;
  readonly color?: 'yellow' | 'green';
  readonly dim?: boolean;
}

const styles: Readonly<Record<Tone, Style>> = {
  plain: {},
  strong: { bold: true },
  quiet: { dim: true },
  alert: { bold: true, color: 'yellow' },
  good: { color: 'green' },
  invert: { inverse: true, bold: true },
};

/** Where no colours are wanted nothing is dimmed either. */
export function styleFor(tone: Tone | undefined, colors: boolean): Style {
  const style = styles[tone ?? 'plain'];
  return colors ? style : { bold: style.bold, inverse: style.inverse };
}
