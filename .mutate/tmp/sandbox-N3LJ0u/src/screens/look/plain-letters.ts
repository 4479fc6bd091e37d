/** Texts for terminals that show only ASCII. */
// @ts-nocheck


const spelled: Readonly<Record<string, string>> = {
  '“': '"',
  '”': '"',
  '„': '"',
  '‘': "'",
  '’': "'",
  '–': '-',
  '—': '-',
  '−': '-',
  '±': '+/-',
  '°': 'deg ',
  µ: 'u',
  μ: 'u',
  '×': 'x',
  '·': '-',
  '•': '*',
  '…': '...',
  '→': '->',
  '←': '<-',
  '↑': 'Up',
  '↓': 'Down',
  '≤': '<=',
  '≥': '>=',
  '≈': '~',
  '²': '2',
  '³': '3',
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  Ø: 'dia ',
  ø: 'dia ',
  π: 'pi',
  κ: 'kappa',
  ν: 'nu',
  ß: 'ss',
  '√': 'sqrt ',
  '\u00a0': ' ',
  '\u202f': ' ',
};

/** The nearest ASCII; a letter that has none becomes a question mark. */
export function toAscii(text: string): string {
  if (/^[\x20-\x7e\n]*$/.test(text)) return text;
  return text
    .replace(/↑ ?↓/g, 'Up/Down')
    .replace(/°\s?C\b/g, 'degC')
    .replace(/°\s?F\b/g, 'degF')
    .replace(/[^\x20-\x7e\n]/g, (c) => {
      const own = spelled[c];
      if (own !== undefined) return own;
      const bare = c.normalize('NFKD').replace(/[^\x20-\x7e]/g, '');
      return bare === '' ? (/\p{M}/u.test(c) ? '' : '?') : bare;
    });
}
