/** Code without its comments and without the words in strings and templates; what stands in `${}` stays. */
export function bareCode(text: string): string {
  let out = '';
  let i = 0;
  /** Braces that are open in each `${` around. */
  const open: number[] = [];
  const past = (end: string): void => {
    const at = text.indexOf(end, i);
    i = at < 0 ? text.length : at + end.length;
  };
  const template = (): void => {
    while (i < text.length) {
      const c = text[i++];
      if (c === '\\') i++;
      else if (c === '`') return;
      else if (c === '$' && text[i] === '{') {
        i++;
        open.push(0);
        return;
      }
    }
  };
  while (i < text.length) {
    const c = text[i]!;
    const quoted = c === "'" || c === '"' ? /^(['"])(?:\\.|(?!\1)[^\\\n])*\1/.exec(text.slice(i, i + 2000)) : null;
    if (text.startsWith('/*', i)) past('*/');
    else if (text.startsWith('//', i) && !/[:\\/]/.test(text[i - 1] ?? '')) {
      past('\n');
      out += '\n';
    } else if (quoted) {
      i += quoted[0].length;
      out += "''";
    } else if (c === '`' || (c === '}' && open.at(-1) === 0)) {
      i++;
      if (c === '}') open.pop();
      out += "''";
      template();
    } else {
      if (open.length && (c === '{' || c === '}')) open[open.length - 1]! += c === '{' ? 1 : -1;
      out += c;
      i++;
    }
  }
  return out;
}
