/** A terminal whose scrollback stays: ink erases it whenever a window is made lower than the frame before. */

const eraseScrollback = '\u001b[3J';

export function keptScrollback(stdout: NodeJS.WriteStream): NodeJS.WriteStream {
  const write = (data: unknown, ...rest: unknown[]): boolean => {
    const kept = typeof data === 'string' ? data.replaceAll(eraseScrollback, '') : data;
    return (stdout.write as (...all: unknown[]) => boolean).call(stdout, kept, ...rest);
  };
  return new Proxy(stdout, {
    get(target, name) {
      if (name === 'write') return write;
      const value: unknown = Reflect.get(target, name, target);
      return typeof value === 'function' ? value.bind(target) : value;
    },
  });
}
