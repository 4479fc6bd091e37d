import { describe, expect, it } from 'vitest';
import { runCalc } from '../../src/calc/command.js';
import { calculators } from '../../src/calc/index.js';
import { calc, refusal, tables } from './support.js';

describe('calc at the shell', () => {
  it('prints value, unit, uncertainty, formula, working, inputs, source', () => {
    const { stdout, code } = runCalc(['syringe', 'bore=14.5+-0.1mm', 'doses=1ml,1ml', 'capacity=3ml'], tables);
    expect(code).toBe(0);
    for (const part of ['6.06 ± 0.08 mm/mL', 'Formula', 'Worked', 'Inputs', '14.5 mm ± 0.1', 'Source', 'mostly from'])
      expect(stdout).toContain(part);
  });
  it('prints words as they are, yes and no in words', () => {
    const printed = (line: string): string => runCalc(line.split(' '), tables).stdout;
    expect(printed('fill freeVolume=10 ndm=300000 share=20')).toMatch(/\[band\] +medium$/m);
    expect(printed('fill freeVolume=10 ndm=300000 share=20 leftBehind=0.5')).toMatch(/\[doubtKnown\] +no$/m);
    expect(printed('fill freeVolume=10+-0.5 ndm=300000 share=20 leftBehind=0.5')).toMatch(/\[doubtKnown\] +yes$/m);
  });
  it('lists every calculator with keys and bare units', () => {
    const { stdout, code } = runCalc([], tables);
    expect(code).toBe(0);
    for (const [name, calculator] of Object.entries(calculators)) {
      expect(stdout).toContain(`${name}: `);
      for (const key of Object.keys(calculator.inputs)) expect(stdout).toContain(key);
    }
  });
  it('gives JSON in canonical units', () => {
    const report = calc('speed-factor bore=1in outside=2in speed=12krpm');
    expect(report).toMatchObject({
      name: 'speed-factor',
      inputs: { bore: { value: 25.4, unit: 'mm' } },
      warnings: expect.any(Array),
    });
    expect(report.results.ndm?.unit).toBe('mm/min');
    expect(report.results.ndm?.value).toBeCloseTo(457_200, 6);
    expect(typeof report.source).toBe('string');
  });
  it('takes a unit as a word of its own', () => {
    expect(calc('speed-factor bore=40 mm outside=68 mm speed=20000 rpm').results.ndm?.value).toBe(1_080_000);
  });
  const refusals: [string, RegExp][] = [
    ['speed-factor bore=40 outside=68', /^speed: Speed is missing: type a speed such as 12000 rpm/],
    ['speed-factor bor=40 outside=68 speed=1', /^bor: .*did you mean bore\?/],
    ['speed-factr bore=40', /did you mean speed-factor\?/],
    ['speed-factor bore=40 bore=41 outside=68 speed=1', /^bore: .*twice/],
    ['speed-factor bore=0 outside=68 speed=1', /^bore: .*from 1 mm to 1000 mm, not 0 mm/],
    ['speed-factor bore=68 outside=40 speed=1', /^outside: .*larger than the bore/],
    ['speed-factor bore=40 outside=68 speed=20,000', /^speed: .*type 20000 or 20/],
    ['speed-factor bore= outside=68 speed=1', /^bore: .*empty/],
    ['speed-factor 40', /no key=value/],
    ['speed-factor bore=40kg outside=68 speed=1', /^bore: .*unit of mass/],
    ['syringe bore=14.5 doses=1,5ml', /^doses: .*decimal comma or a list/],
    ['thickener old=lithum new=PU', /^old: .*did you mean lithium\?/],
    ['fill freeVolume=6.5 share=0.15', /^share: .*from 1 % to 100 %, not 0.15 %/],
    ['fill freeVolume=6.5', /^ndm: /],
    ['save-or-scrap pairPrice=480USD jobCost=200EUR findings=none', /different currencies/],
    ['save-or-scrap pairPrice=480 jobCost=200 findings=none,play', /^findings: /],
    ['grease-check ndmLimit=700000 limitIs=nd ndm=875000 temp=70', /^nd: /],
    ['speed-factor bore=0+-0mm outside=68 speed=1', /^bore: .*from 1 mm to 1000 mm, not 0 mm/],
    ['speed-factor --frob', /no option --frob/],
  ];
  it.each(refusals)('%s', (line, message) => {
    const text = refusal(line);
    expect(text).toMatch(message);
    expect(text.split('\n')).toHaveLength(1);
  });
  it('exits with 2 and writes nothing to stdout', () => {
    expect(runCalc(['fill'], tables)).toMatchObject({ code: 2, stdout: '' });
  });
  it('reads decimal commas where the list is parted by semicolons', () => {
    expect(calc('syringe bore=14,5 doses=1,5ml;2ml').results.filling?.value).toBeCloseTo(3.5, 9);
  });
});
