/** Sources in words. */
// @ts-nocheck

import type { Source } from './types.js';

/** How a source is shown: only what is published is cited, all else says what it is. */
export function cite(source: Source): string {
  const from = source.text.replace(/(?:,? (?:from memory|usual: verify)(?:: [^;]*)?|: verify[^;]*)$/, '');
  switch (source.tag) {
    case 'P':
      return source.text;
    case 'A':
      return source.text === 'arithmetic' ? 'arithmetic' : `arithmetic: ${source.text}`;
    case 'M':
      return `usual, verify: ${from}`;
    case 'CP':
      return `common practice, no source: ${source.text.replace(/[:;,]? no source$/, '')}`;
    default:
      return `this shop: ${source.text}`;
  }
}
