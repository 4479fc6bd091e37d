/**
 * The terminal as the frames reach it. Its scrollback stays: ink erases it whenever a window is made lower than the frame
 * before. And the last frame can be written once more, for a screen on which something else was written meanwhile.
 */
// @ts-nocheck


const eraseScrollback = '\u001b[3J';
/** The window emptied, its scrollback left alone, and the cursor hidden at its top. */
const emptied = '\u001b[?25l\u001b[2J\u001b[H';
/** What moves nothing and shows nothing, such as the hiding of the cursor. */
// biome-ignore lint/complexity/useRegexLiterals: escape characters read better in a string
const settings = new RegExp('^(?:\\u001b\\[\\?[0-9;]*[hl])*$');

export const settingsOnly = (text: string): boolean => settings.test(text);

export interface ScreenOutput {
  readonly stdout: NodeJS.WriteStream;
  /** Writes the last frame again, at once. */
  redraw(): void;
}

export function screenOutput(terminal: NodeJS.WriteStream): ScreenOutput {
  let last = '';
  const write = (data: unknown, ...rest: unknown[]): boolean => {
    const kept = typeof data === 'string' ? data.replaceAll(eraseScrollback, '') : data;
    // A frame begins by erasing the one before, which does no harm where there is none.
    if (typeof kept === 'string' && !settingsOnly(kept)) last = kept;
    return (terminal.write as (...all: unknown[]) => boolean).call(terminal, kept, ...rest);
  };
  return { stdout: writingBy(terminal, write), redraw: () => void terminal.write(emptied + last) };
}

/** The same terminal with another way of writing. */
export function writingBy(
  terminal: NodeJS.WriteStream,
  write: (data: unknown, ...rest: unknown[]) => boolean,
): NodeJS.WriteStream {
  return new Proxy(terminal, {
    get(target, name) {
      if (name === 'write') return write;
      const value: unknown = Reflect.get(target, name, target);
      return typeof value === 'function' ? value.bind(target) : value;
    },
  });
}
