/** Amounts of money and masses whose unit could be two: read as ISO 4217 and the trade have it, or refused. */
// @ts-nocheck

import { describe, expect, it } from 'vitest';
import { runCalc } from '../../src/calc/command.js';
import { currencyIn } from '../../src/units/currency.js';
import { parseQuantity } from '../../src/units/parse.js';

const refusal = (text: string, kind: 'money' | 'mass'): string => {
  const read = parseQuantity(text, kind);
  return read.ok ? '' : read.message;
};

describe('money', () => {
  it('takes the codes of ISO 4217 and the usual signs', () => {
    for (const good of ['480', '480 EUR', 'EUR 480', '480 jpy', '€ 480', '480 £', '$480', '480 CHF', '480.50 sek'])
      expect(parseQuantity(good, 'money').ok, good).toBe(true);
    expect(currencyIn('€ 480')).toBe('EUR');
    expect(currencyIn('480 jpy')).toBe('JPY');
    expect(currencyIn('480')).toBeUndefined();
  });
  it('takes no unit of anything else, and no letters that are no currency', () => {
    for (const unit of ['rpm', 'min', 'ppm', 'cst'])
      expect(refusal(`640 ${unit}`, 'money'), unit).toMatch(/is a unit of/);
    for (const word of ['xyz', 'abc', 'qqq'])
      expect(refusal(`640 ${word}`, 'money'), word).toMatch(/no currency of ISO 4217/);
  });
});

describe('mass', () => {
  // International yard and pound agreement: 1 grain = 64.79891 mg.
  it('is not guessed from gr, which can be gram or grain', () => {
    expect(refusal('5 gr', 'mass')).toMatch(/gram or a grain/);
    expect(refusal('5 gr.', 'mass')).toMatch(/gram or a grain/);
    expect(parseQuantity('5 g', 'mass')).toMatchObject({ ok: true, value: 5 });
  });
});

describe('a list of doses on the command line', () => {
  const doses = (text: string) =>
    runCalc(['syringe', 'bore=14.5', `doses=${text}`, '--json'], {
      'bearing-constants': { id: 'bearing-constants', rows: [{ id: 'calliper', tag: 'CP', source: '', value: 0.1 }] },
    });
  const read = (text: string): unknown =>
    (JSON.parse(doses(text).stdout) as { inputs: { doses: { value: unknown } } }).inputs.doses.value;
  it('is refused where it can be one with a decimal comma', () => {
    for (const text of ['1,5', '0,8', '1,5 ml', '1,5ml', '12,25', '1,5 +- 0.1']) {
      const { stderr, code } = doses(text);
      expect(code, text).toBe(2);
      expect(stderr, text).toMatch(/can be (1\.5|0\.8|12\.25|a decimal comma)/);
    }
    expect(doses('1,5').stderr).toContain('type 1.5, or 1;5 for two');
  });
  it('is taken where it is plain', () => {
    expect(read('1;5')).toEqual([1, 5]);
    expect(read('1, 5')).toEqual([1, 5]);
    expect(read('1.5,1.2')).toEqual([1.5, 1.2]);
    expect(read('1,2,3')).toEqual([1, 2, 3]);
    expect(read('1ml,5ml')).toEqual([1, 5]);
  });
});
