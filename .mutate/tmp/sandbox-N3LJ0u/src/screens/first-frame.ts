/**
 * The first frame, written before ink is there: loading ink takes longer than all else in a start. Ink's own first
 * frame goes over it.
 */
// @ts-nocheck


import { widthOf } from './look/wrap.js';
import { frameText } from './parts/frame-text.js';
import { settingsOnly, writingBy } from './screen-output.js';
import type { Session } from './session.js';
import { shownOn } from './shown.js';

const hideCursor = '\u001b[?25l';
/** Up to the first line of `n`, and everything below erased; the scrollback is left alone. */
const eraseUp = (n: number): string => `\u001b[${n}A\r\u001b[J`;
// biome-ignore lint/complexity/useRegexLiterals: escape characters read better in a string
const styles = new RegExp('\\u001b\\[[0-9;]*m', 'g');
/** False for a terminal, or a wish, without bold and the like. */
const takesStyles = ({ TERM, FORCE_COLOR }: NodeJS.ProcessEnv): boolean =>
  TERM !== 'dumb' && FORCE_COLOR !== '0' && FORCE_COLOR !== 'false';

/** Writes what the session shows; gives the output on which the next frame takes its place. */
export function drawFirstFrame(session: Session, stdout: NodeJS.WriteStream): NodeJS.WriteStream {
  const shown = shownOn(session);
  if (!shown) return stdout;
  const lines = frameText(shown.view, shown.room, shown.message, takesStyles(process.env));
  stdout.write(`${hideCursor}${lines.join('\n')}\n`);
  const height = (): number => {
    // Made narrower meanwhile, the terminal has folded what was too long.
    const cols = Math.max(1, stdout.columns || shown.room.cols);
    return lines.reduce((sum, l) => sum + Math.max(1, Math.ceil(widthOf(l.replace(styles, '')) / cols)), 0);
  };
  let stands = true;
  const write = (data: unknown, ...rest: unknown[]): boolean => {
    const first = stands && typeof data === 'string' && !settingsOnly(data);
    if (first) stands = false;
    const text = first ? eraseUp(height()) + data : data;
    return (stdout.write as (...all: unknown[]) => boolean).call(stdout, text, ...rest);
  };
  return writingBy(stdout, write);
}
