/** The few signs that the screens draw, with a plain one for each. */
export interface Glyphs {
  readonly rule: string;
  readonly bar: string;
  readonly pointer: string;
  readonly caret: string;
  readonly warn: string;
  readonly done: string;
  readonly wait: string;
  readonly open: string;
  readonly more: string;
}

const drawn: Glyphs = {
  rule: '─',
  bar: '┃',
  pointer: '▸',
  caret: '▏',
  warn: '▲',
  done: '✓',
  wait: '◷',
  open: '○',
  more: '…',
};
const typed: Glyphs = {
  rule: '-',
  bar: '|',
  pointer: '>',
  caret: '_',
  warn: '!',
  done: '+',
  wait: '~',
  open: 'o',
  more: '...',
};

export const glyphs = (ascii: boolean): Glyphs => (ascii ? typed : drawn);
