/** Rules of this guide (common practice, CP) and their safe direction. */
// @ts-nocheck

import { describe, expect, it } from 'vitest';
import { calculators } from '../../src/calc/index.js';
import { calc, refusal, tableFiles, value, word } from './support.js';

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
    expect(verdict('play')).toBe('unclear');
    expect(verdict('roughness')).toBe('unclear');
    expect(verdict('none')).toBe('save');
    expect(verdict('none', 'pairPrice=200 jobCost=200')).toBe('unclear');
    expect(verdict('none', 'pairPrice=0 jobCost=200')).toBe('unclear');
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
  describe('old grease that is not all out', () => {
    const base = `ndmLimit=2e6 ndm=875000 ${full}`;
    it.each([
      ['old=PU new=PU', 'marginal'],
      ['old=Li new=Li', 'marginal'],
      ['old=Li new=LiX oldOil=unknown newOil=pao', 'marginal'],
      ['old=Li new=Li oldOil=mineral newOil=pao', 'marginal'],
      ['old=Li new=Li oldOil=silicone newOil=mineral', 'no'],
      ['old=Li new=Li oldOil=pfpe newOil=ester', 'no'],
      ['old=Li new=Li sameProduct=yes', 'ok'],
    ])('%s is %s', (more, verdict) => {
      expect(at(`${base} ${more} cleaned=no`)).toMatchObject({ thickenerVerdict: verdict, overall: verdict });
    });
    it.each([
      ['old=PU new=PU', 'ok'],
      ['old=Li new=Li oldOil=unknown newOil=pao', 'ok'],
      ['old=Li new=Li oldOil=silicone newOil=mineral', 'marginal'],
    ])('all out, %s is %s', (more, verdict) => {
      expect(at(`${base} ${more} cleaned=yes`)).toMatchObject({ thickenerVerdict: verdict });
    });
    it('one product with two thickeners or oils is refused', () => {
      expect(refusal(`grease-check ${base} old=Li new=PU sameProduct=yes`)).toMatch(/^sameProduct: /);
      expect(refusal(`grease-check ${base} oldOil=mineral newOil=pfpe sameProduct=yes`)).toMatch(/^sameProduct: /);
    });
  });
  it('factors of speed that contradict what stands beside them are refused', () => {
    // By hand: 20 000 rpm x 54 mm = 1 080 000 mm/min.
    expect(refusal('grease-check ndmLimit=1.3e6 ndm=100000 temp=70 speed=20000 pitch=54')).toMatch(
      /^ndm: .*1080000 mm\/min, not 100000/,
    );
    expect(at('ndmLimit=1.3e6 ndm=1080000 temp=70 speed=20000 pitch=54')).toMatchObject({ speedVerdict: 'marginal' });
    expect(refusal('grease-check ndmLimit=1.3e6 ndm=700000 nd=875000 temp=70')).toMatch(/^nd: .*always below/);
  });
  it('M: 300 is no NLGI grade', () => {
    expect(
      at(`ndmLimit=2e6 ndm=875000 ${full.replace('nlgi=2 ', '')} penetration=300 old=Li new=Li cleaned=yes`),
    ).toMatchObject({ consistencyVerdict: 'marginal' });
  });
});

describe('inspection: never up, never 0', () => {
  const line = (more: string) => `inspection type=general ${more}`;
  // By hand: lg t = 6.54 - 2.6 - 0.013 x 110 = 2.51, t 323.6 h; a quarter 80.9; with n doubts 80.9 / 2^n.
  it.each([
    ['none', 80],
    ['seal-left-in,raceway-marks', 20],
    ['seal-left-in,raceway-marks,cause-unknown,water-inside', 5],
    ['seal-left-in,raceway-marks,cause-unknown,water-inside,dose-uncertain', 2.5],
    ['seal-left-in,raceway-marks,cause-unknown,water-inside,dose-uncertain,thickener-unknown,balls-not-proven', 0.63],
  ])('A: doubts %s -> %s h', (doubts, hours) => {
    expect(value(line(`speedRatio=1 temp=110 doubts=${doubts}`), 'hours')).toBeCloseTo(hours, 9);
  });
  it('so little that it makes no sense says so in words', () => {
    const five = line('speedRatio=1 temp=110 doubts=seal-left-in,raceway-marks,cause-unknown,water-inside');
    expect(word(five, 'worth')).toBe('no');
    expect(calc(five).warnings.join()).toMatch(/5 h of running is less than a shift.*no sense/);
    expect(word(line('speedRatio=1 temp=110 doubts=seal-left-in'), 'worth')).toBe('barely');
    expect(word(line('speedRatio=1 temp=110'), 'worth')).toBe('yes');
  });
  it('CP: a life is good to a factor of two to three: 2.5 either way, and the late end never beyond 4000 h', () => {
    // By hand: 8128 / 4 = 2032, down to 2000; 2000 / 2.5 = 800; 2000 x 2.5 = 5000.
    expect(value(line('speedRatio=0.5 temp=70'), 'hours')).toBe(2000);
    expect(value(line('speedRatio=0.5 temp=70'), 'earlier')).toBe(800);
    expect(value(line('speedRatio=0.5 temp=70'), 'later')).toBe(4000);
  });
  it('gives the day from hours a day, and an early first look where a doubt is open', () => {
    // By hand: 1000 h / 8 h a day = 125 days after 2 March 2026 is 5 July; 50 / 8 = 6 days is 8 March; 100 / 8 = 12 is 14 March.
    const doubt = line('speedRatio=0.5 temp=70 doubts=cause-not-cured hoursPerDay=8 from=2026-03-02');
    expect(value(doubt, 'hours')).toBe(1000);
    expect(word(doubt, 'date')).toBe('2026-07-05');
    expect([value(doubt, 'firstLook'), word(doubt, 'firstDate')]).toEqual([50, '2026-03-08']);
    expect(word(line('speedRatio=0.5 temp=70 hoursPerDay=8 from=2026-03-02'), 'firstDate')).toBe('2026-03-14');
    expect(refusal(line('speedRatio=0.5 temp=70 from=2026-02-30'))).toMatch(/^from: .*year-month-day/);
  });
  it('tells how it came about in words that a technician reads', () => {
    const why = word(line('speedRatio=0.5 temp=70 doubts=water-inside,cause-unknown'), 'why');
    expect(why).toMatch(
      /^a quarter of 8128 h.*halved 2 times, since water or coolant was inside, the cause is not known/,
    );
    expect(why).not.toMatch(/[?:()]|size|round\(/);
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
