/** Rules of this guide (common practice, CP) and their safe direction. */
import { describe, expect, it } from 'vitest';
import { calculators } from '../../src/calc/index.js';
import { calc, tableFiles, word } from './support.js';

describe('CP: save or scrap', () => {
  const verdict = (findings: string, more = 'pairPrice=480 jobCost=200'): string =>
    word(`save-or-scrap ${more} findings=${findings}`, 'verdict');
  it.each(['pitting', 'fluting', 'dents', 'blue-tint', 'cracked-cage', 'chipped-ball'])(
    '%s is scrap at any price',
    (finding) => {
      expect(verdict(finding, 'pairPrice=10000 jobCost=1')).toBe('scrap');
      expect(calc(`save-or-scrap pairPrice=480 jobCost=200 findings=play,${finding}`).results.findings?.value).toEqual([
        finding,
      ]);
    },
  );
  it('play and roughness are to be judged, nothing found is saved while the job is cheaper', () => {
    expect(verdict('play')).toBe('judge');
    expect(verdict('roughness')).toBe('judge');
    expect(verdict('none')).toBe('save');
    expect(verdict('none', 'pairPrice=200 jobCost=200')).toBe('judge');
    expect(verdict('none', 'pairPrice=0 jobCost=200')).toBe('judge');
  });
  it('weighs no price where no other bearing is to be had', () => {
    expect(verdict('none', 'pairPrice=0 jobCost=200 spare=none')).toBe('save');
    expect(verdict('none', 'pairPrice=100 jobCost=200 spare=none')).toBe('save');
    expect(verdict('pitting', 'pairPrice=0 jobCost=200 spare=none')).toBe('scrap');
  });
  it('names every finding that decided', () => {
    expect(calc('save-or-scrap pairPrice=480 jobCost=200 findings=pitting,dents').results.findings?.value).toEqual([
      'pitting',
      'dents',
    ]);
    expect(word('save-or-scrap pairPrice=480 jobCost=500 findings=play', 'decided')).toMatch(/play.*job \(500\)/);
  });
});

describe('grease check', () => {
  const full = 'temp=70 nu40=25 nu100=5 speed=14000 pitch=60 lowest=-40 highest=140 ambient=20 nlgi=2 limitIs=ndm';
  const at = (line: string) =>
    Object.fromEntries(Object.entries(calc(`grease-check ${line}`).results).map(([k, r]) => [k, r.value as unknown]));
  it('passes a grease with margin everywhere', () => {
    expect(at(`ndmLimit=2e6 ndm=875000 ${full} old=Li new=LiX cleaned=yes`)).toMatchObject({
      overall: 'ok',
      speedVerdict: 'ok',
      viscosityVerdict: 'ok',
      thickenerVerdict: 'ok',
    });
  });
  it('no at one criterion is no overall', () => {
    expect(at(`ndmLimit=8e5 ndm=875000 ${full} old=Li new=LiX cleaned=yes`)).toMatchObject({
      overall: 'no',
      speedVerdict: 'no',
    });
    expect(at(`ndmLimit=2e6 ndm=875000 ${full} old=Li new=PU`)).toMatchObject({
      overall: 'no',
      thickenerVerdict: 'no',
    });
    expect(at(`ndmLimit=2e6 ndm=875000 ${full} old=unknown new=PU cleaned=yes`)).toMatchObject({
      overall: 'marginal',
      thickenerVerdict: 'marginal',
    });
  });
  it('what is missing is marginal at best', () => {
    expect(at('ndmLimit=2e6 ndm=875000 temp=70')).toMatchObject({
      overall: 'no',
      viscosityVerdict: 'marginal',
      temperatureVerdict: 'marginal',
      consistencyVerdict: 'marginal',
    });
    expect(at('ndmLimit=2e6 ndm=875000 temp=70 cleaned=yes')).toMatchObject({ overall: 'marginal' });
  });
  it('M: 300 is no NLGI grade', () => {
    expect(
      at(`ndmLimit=2e6 ndm=875000 ${full.replace('nlgi=2 ', '')} penetration=300 old=Li new=Li cleaned=yes`),
    ).toMatchObject({ consistencyVerdict: 'marginal' });
  });
});

describe('tables', () => {
  it.each(tableFiles.map((t) => [t.file, t] as const))(
    '%s: every row has its columns, an id of its own, a tag and a source',
    (file, t) => {
      expect(file).toBe(`${t.table}.yaml`);
      const ids = t.rows.map((r) => r.id);
      expect(new Set(ids).size).toBe(ids.length);
      for (const row of t.rows) {
        expect(['P', 'M', 'CP', 'A', 'shop']).toContain(row.tag);
        expect(row.source.length).toBeGreaterThan(5);
        expect(Object.keys(row).sort()).toEqual(['id', ...Object.keys(t.columns), 'tag', 'source'].sort());
        for (const [name, column] of Object.entries(t.columns))
          if (row[name] !== null)
            expect(typeof row[name], `${row.id}.${name}`).toBe(column.type === 'number' ? 'number' : 'string');
      }
    },
  );
});

it('every result that a run gives is declared, and every word result stays within its words', () => {
  const lines = [
    'speed-factor bore=40 outside=68 speed=20000',
    'free-volume bore=40 outside=80 width=18 mass=366',
    'fill freeVolume=6.5 ndm=1080000',
    'residue mass=0.5g dose=1ml',
    'vapour solvent=acetone volume=20 room=40',
    'run-in speed=12000 ambient=22',
    'frequencies balls=9 ball=9 pitch=60 speed=6000',
    'solvent solvent=acetone material=nbr use=wipe',
    'ball-test leads=beep ring=beep balls=open,open,open',
    'inspection type=wide speedRatio=0.5 temp=70',
  ];
  for (const line of lines) {
    const calculator = calculators[line.split(' ')[0]!]!;
    for (const [key, found] of Object.entries(calc(line).results)) {
      const spec = calculator.results[key];
      expect(spec, `${line} ${key}`).toBeDefined();
      if (spec?.words) expect(spec.words).toContain(found.value);
    }
  }
});
