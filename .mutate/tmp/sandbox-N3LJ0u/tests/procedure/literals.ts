/** The string literals of a TypeScript source, without comments: enough of a scanner for one purpose. */
// @ts-nocheck

export function literalsOf(source: string): string[] {
  const out: string[] = [];
  const template = (from: number): number => {
    let text = '';
    let i = from;
    for (; i < source.length && source[i] !== '`'; i++) {
      if (source[i] === '\\') {
        text += source[++i] ?? '';
      } else if (source[i] === '$' && source[i + 1] === '{') {
        out.push(text);
        text = '';
        i = code(i + 2, true) - 1;
      } else text += source[i];
    }
    out.push(text);
    return i + 1;
  };
  const code = (from: number, nested: boolean): number => {
    let depth = 0;
    let before = '';
    for (let i = from; i < source.length; ) {
      const c = source[i] as string;
      if (c === '/' && source[i + 1] === '/') i = Math.max(i + 2, endOf('\n', i));
      else if (c === '/' && source[i + 1] === '*') i = endOf('*/', i + 2);
      else if (c === '/' && /[(,=:[!&|?{};\n]|^$|return|=>/.test(before)) i = pattern(i + 1);
      else if (c === "'" || c === '"') {
        let text = '';
        i += 1;
        for (; i < source.length && source[i] !== c; i++) text += source[i] === '\\' ? (source[++i] ?? '') : source[i];
        out.push(text);
        i += 1;
        before = c;
      } else if (c === '`') {
        i = template(i + 1);
        before = c;
      } else {
        if (c === '{') depth += 1;
        if (c === '}' && depth-- === 0 && nested) return i + 1;
        if (c.trim()) before = /\w/.test(c) && /\w/.test(source[i - 1] ?? '') ? before + c : c;
        i += 1;
      }
    }
    return source.length;
  };
  const endOf = (mark: string, from: number): number => {
    const at = source.indexOf(mark, from);
    return at < 0 ? source.length : at + mark.length;
  };
  /** Past a regular expression. */
  const pattern = (from: number): number => {
    let inClass = false;
    for (let i = from; i < source.length; i++) {
      const c = source[i];
      if (c === '\\') i += 1;
      else if (c === '[') inClass = true;
      else if (c === ']') inClass = false;
      else if (c === '\n' || (c === '/' && !inClass)) return i + 1;
    }
    return source.length;
  };
  code(0, false);
  return out;
}
