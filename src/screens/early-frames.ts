/**
 * The frames before ink is there, written as text: loading ink takes longer than all else in a start, and keys are
 * answered meanwhile. Ink's own first frame goes over them.
 */
import { widthOf } from './look/wrap.js';
import type { PageStack } from './page-stack.js';
import { frameText } from './parts/frame-text.js';
import { settingsOnly, writingBy } from './screen-output.js';

const hideCursor = '\u001b[?25l';
/** Up to the first line of `n`, and everything below erased; the scrollback is left alone. */
const eraseUp = (n: number): string => `\u001b[${n}A\r\u001b[J`;
// biome-ignore lint/complexity/useRegexLiterals: escape characters read better in a string
const styles = new RegExp('\\u001b\\[[0-9;]*m', 'g');
/** False for a terminal, or a wish, without bold and the like. */
const takesStyles = ({ TERM, FORCE_COLOR }: NodeJS.ProcessEnv): boolean =>
  TERM !== 'dumb' && FORCE_COLOR !== '0' && FORCE_COLOR !== 'false';

export interface EarlyFrames {
  /** The output on which the next frame takes the place of the last one here. */
  readonly stdout: NodeJS.WriteStream;
  /** Draws no more. */
  end(): void;
}

/** Draws what the stack shows, now and at each change. */
export function drawEarly(stack: PageStack, stdout: NodeJS.WriteStream): EarlyFrames {
  let lines: readonly string[] = [];
  let cols = 0;
  /** Made narrower meanwhile, the terminal has folded what was too long. */
  const height = (): number => {
    const now = Math.max(1, stdout.columns || cols);
    return lines.reduce((sum, l) => sum + Math.max(1, Math.ceil(widthOf(l.replace(styles, '')) / now)), 0);
  };
  const draw = (): void => {
    const { shown } = stack;
    if (!shown) return;
    const next = frameText(shown.view, shown.room, shown.message, takesStyles(process.env));
    stdout.write(`${lines.length ? eraseUp(height()) : hideCursor}${next.join('\n')}\n`);
    lines = next;
    cols = shown.room.cols;
  };
  const resized = (): void => stack.changed();
  const ended = stack.subscribe(draw);
  stdout.on('resize', resized);
  draw();

  const write = (data: unknown, ...rest: unknown[]): boolean => {
    const first = lines.length > 0 && typeof data === 'string' && !settingsOnly(data);
    const text = first ? eraseUp(height()) + data : data;
    if (first) lines = [];
    return (stdout.write as (...all: unknown[]) => boolean).call(stdout, text, ...rest);
  };
  return {
    stdout: writingBy(stdout, write),
    end() {
      ended();
      stdout.off('resize', resized);
    },
  };
}
