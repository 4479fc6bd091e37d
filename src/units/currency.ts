/** Currencies behind (or before) an amount: the codes of ISO 4217 and the usual signs. */

const signs: Readonly<Record<string, string>> = { '€': 'EUR', '£': 'GBP', $: '$' };
let codes: ReadonlySet<string> | undefined;

/** Upper-case code, or `$`, which is a sign of many; undefined when it names no currency. */
export function currencyOf(word: string): string | undefined {
  const sign = signs[word];
  if (sign) return sign;
  const code = word.toUpperCase();
  codes ??= new Set(Intl.supportedValuesOf('currency'));
  return codes.has(code) ? code : undefined;
}

/** The currency in an amount as typed; undefined when it is a bare figure. */
export function currencyIn(typed: string): string | undefined {
  const word = /[€$£]|[a-z]{3}/i.exec(typed)?.[0];
  return word === undefined ? undefined : currencyOf(word);
}
