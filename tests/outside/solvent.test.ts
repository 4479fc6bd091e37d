import { elements } from 'chemical-elements';
import { gasConstant, unit } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { calc, off, tables, value, word } from '../calc/support.js';

/** Ratings as listed: acetone, isopropanol, n-heptane / white spirit; * has published support. */
const listed: Record<string, [string, string, string]> = {
  nbr: ['4*', '2*', '1*'],
  hnbr: ['4', '2', '1'],
  fkm: ['4*', '1*', '1'],
  acm: ['4', '4', '2'],
  epdm: ['1*', '1*', '4'],
  ptfe: ['1*', '1*', '1*'],
  pa66: ['2', '2', '1'],
  pa46: ['2', '2', '1'],
  peek: ['1*', '1*', '1*'],
  phenolic: ['3', '2', '1'],
  brass: ['1', '1', '1'],
  steel: ['1', '1', '1'],
  'silicon-nitride': ['1', '1', '1'],
  epoxy: ['4', '2', '2'],
  'winding-varnish': ['4', '2', '2'],
};
const solvents = ['acetone', 'isopropanol', 'n-heptane'];
const cells = Object.entries(listed).flatMap(([material, row]) =>
  row.map((cell, i) => [cell.endsWith('*') ? 'P' : 'M', material, solvents[i]!, Number(cell[0])] as const),
);

describe('chemical resistance (1 satisfactory to 4 unsuitable, immersion)', () => {
  it.each(cells)('%s: %s in %s is %s', (tag, material, solvent, rating) => {
    const row = tables['solvent-ratings']!.rows.find((r) => r.id === `${material}+${solvent}`);
    expect(row).toMatchObject({ rating, tag });
    const soak = calc(`solvent solvent=${solvent} material=${material} use=soak`);
    const verdict = String(soak.results.verdict?.value);
    if (rating >= 3) expect(verdict).toBe('never');
    if (rating === 1) expect(verdict).toBe('allowed');
    if (tag === 'M' && soak.results.evidence?.value === ('M' as never)) {
      expect(soak.warnings.join()).toMatch(/verify on a hidden spot/);
      expect(soak.sources.join()).toMatch(/^usual, verify/);
    }
  });
  it('CP: acetone does no damage to steel rings, ceramic balls, nylon or PEEK cages', () => {
    for (const material of ['steel', 'silicon-nitride', 'pa66', 'pa46', 'peek'])
      expect(word(`solvent solvent=acetone material=${material} use=soak`, 'verdict')).toBe('allowed');
  });
  it('CP: a rubber seal may be wiped briefly with acetone but never soaked', () => {
    for (const material of ['nbr', 'hnbr', 'fkm', 'acm']) {
      expect(word(`solvent solvent=acetone material=${material} use=wipe`, 'verdict')).toBe('brief wipe only');
      expect(word(`solvent solvent=acetone material=${material} use=soak`, 'verdict')).toBe('never');
    }
  });
  it('a 4 is no pass for wiping where trade practice says nothing', () => {
    expect(word('solvent solvent=acetone material=winding-varnish use=wipe', 'verdict')).toBe('never');
    expect(word('solvent solvent=isopropanol material=acm use=wipe', 'verdict')).toBe('never');
    expect(word('solvent solvent=n-heptane material=epdm use=wipe', 'verdict')).toBe('never');
  });
  it('what is unknown is no until tested', () => {
    for (const pair of [
      'solvent=unknown material=steel',
      'solvent=acetone material=unknown',
      'solvent=blend material=steel',
    ])
      for (const use of ['wipe', 'soak']) expect(word(`solvent ${pair} use=${use}`, 'verdict')).toBe('test first');
  });
  it('a blend is rated by its worst listed component', () => {
    expect(word('solvent solvent=blend components=n-heptane,acetone material=nbr use=soak', 'verdict')).toBe('never');
    expect(word('solvent solvent=blend components=n-heptane,unknown material=steel use=soak', 'verdict')).toBe(
      'test first',
    );
  });
});

describe('solvent safety', () => {
  it.each([
    ['acetone', -18, 2.5, 250, 1000, 2500],
    ['isopropanol', 12, 2.0, 400, 400, 2000],
    ['n-heptane', -4, 1.05, 85, 500, 750],
  ])('P: NIOSH Pocket Guide: %s', (id, flash, lel, rel, pel, idlh) => {
    expect(tables.solvents!.rows.find((r) => r.id === id)).toMatchObject({
      flash_point: flash,
      lel,
      rel,
      pel,
      idlh,
      tag: 'P',
    });
    const { results } = calc(`vapour solvent=${id} volume=1ml room=100m3`);
    expect([results.flashPoint, results.rel, results.pel, results.idlh].map((r) => r?.value)).toEqual([
      flash,
      rel,
      pel,
      idlh,
    ]);
    expect(Number(results.lel?.value)).toBeCloseTo(lel * 10_000, 6);
  });
  it.each([
    ['acetone', 333],
    ['isopropanol', 319],
    ['n-heptane', 167],
  ])('A: 1 mL of %s in 1 m3 of still air is %s ppm', (id, ppm) => {
    expect(off(value(`vapour solvent=${id} volume=1ml room=1m3`, 'ppm'), ppm)).toBeLessThan(0.002);
  });

  const mass = (counts: Record<string, number>): number =>
    Object.entries(counts).reduce(
      (sum, [symbol, n]) => sum + n * (elements.find((e) => e.symbol === symbol)?.mass ?? Number.NaN),
      0,
    );
  it.each([
    ['acetone', { C: 3, H: 6, O: 1 }],
    ['isopropanol', { C: 3, H: 8, O: 1 }],
    ['n-heptane', { C: 7, H: 16 }],
  ])('P: atomic masses of the chemical-elements data set give the molar mass of %s', (id, counts) => {
    const row = tables.solvents!.rows.find((r) => r.id === id)!;
    expect(off(Number(row.molar_mass), mass(counts))).toBeLessThan(0.001);
  });
  it('P: molar gas volume at 25 C and 1 atm from the CODATA gas constant of mathjs', () => {
    const litres = ((gasConstant.toNumber('J / (mol K)') * 298.15) / unit('1 atm').toNumber('Pa')) * 1000;
    const row = tables.solvents!.rows.find((r) => r.id === 'acetone')!;
    const expected = ((Number(row.density) * 1000) / Number(row.molar_mass)) * litres;
    expect(off(value('vapour solvent=acetone volume=1ml room=1m3', 'ppm'), expected)).toBeLessThan(0.001);
  });
  it('M: white spirit has figures of its own, usual and never cited: it flashes above the room, and dries slowly', () => {
    const run = calc('vapour solvent=white-spirit volume=1ml room=1m3');
    expect(tables.solvents!.rows.find((r) => r.id === 'white-spirit')?.tag).toBe('M');
    expect(run.sources.join()).not.toMatch(/NIOSH/);
    expect(run.warnings.join()).toMatch(/usual ones: read those of its safety data sheet/);
    expect(Number(run.results.flashPoint?.value)).toBeGreaterThan(25);
    // A: 0.78 g in 140 g/mol at 24.45 L/mol.
    expect(off(value('vapour solvent=white-spirit volume=1ml room=1m3', 'ppm'), 136.2)).toBeLessThan(0.002);
    const minutes = (id: string) => Number(tables['drying-times']!.rows.find((r) => r.id === id)?.minutes);
    expect(minutes('white-spirit')).toBeGreaterThan(minutes('isopropanol'));
    expect(minutes('isopropanol')).toBeGreaterThan(minutes('acetone'));
  });
  it('names the limit that is passed, and says that mixing is uneven', () => {
    const verdict = (ml: number): string => word(`vapour solvent=acetone volume=${ml}ml room=100m3`, 'verdict');
    expect([70, 80, 310, 640].map(verdict)).toEqual(['under REL', 'over REL', 'over PEL', 'explosive nearby']);
    expect(word('vapour solvent=n-heptane volume=455ml room=100m3', 'verdict')).toBe('over IDLH');
    expect(calc('vapour solvent=acetone volume=1ml room=100m3').warnings.join()).toMatch(/uneven.*heavier than air/);
  });
  it('A: the most that it names passes, half widths of amount and room and all, and a tenth more does not', () => {
    for (const id of ['acetone', 'isopropanol', 'n-heptane', 'white-spirit'])
      for (const room of [40, 62.5, 144, 900]) {
        const at = (ml: number): string => `vapour solvent=${id} volume=${ml}+-5ml room=${room}+-5m3`;
        const most = Number(calc(at(1)).results.most!.value);
        if (most <= 0) continue;
        expect(word(at(most), 'verdict'), `${id} ${room}`).toBe('under REL');
        expect(word(at(most * 1.1), 'verdict'), `${id} ${room}`).not.toBe('under REL');
      }
  });
});
