/** Limits of what cleans, and of what balls are proven to be made of. By hand. */
import { describe, expect, it } from 'vitest';
import { calculators } from '../../src/calc/index.js';
import type { TableRow, Tables } from '../../src/calc/types.js';
import { holds, refuses } from './limits.js';
import { calc } from './support.js';

describe('ball-test', () => {
  const start = 'ball-test leads=beep ring=beep';
  const other = 'Other ceramics';
  holds([
    [
      'ball-test leads=open ring=beep balls=open,open,open magnet=not-attracted',
      {
        verdict: 'not proven',
        why: 'the meter does not beep with its probes together: mend meter or leads, then begin again',
      },
      [],
    ],
    [
      'ball-test leads=beep ring=open balls=open,open,open magnet=not-attracted',
      {
        verdict: 'not proven',
        why: 'no beep on a bare ring: the probes do not reach metal, clean the ring and try again',
      },
      [],
    ],
    [
      `${start} balls=open,open magnet=not-attracted`,
      { verdict: 'not proven', why: 'only 2 of the balls tried: try at least 3, each cleaned', tried: 2 },
      [],
    ],
    [
      `${start} balls=open,open,open magnet=not-attracted`,
      {
        verdict: 'ceramic',
        witness: 'magnet',
        tried: 3,
        why: 'all 3 balls are silent, on a meter and contact proven first, and the magnet is not attracted',
      },
      [other],
      ['leads beep, ring beep, balls open open open, magnet not-attracted, second witness magnet -> ceramic'],
    ],
    [
      `${start} balls=open,open,open secondRange=open count=9`,
      {
        verdict: 'ceramic',
        witness: 'another range',
        why: 'all 3 balls are silent, on a meter and contact proven first, and they are silent on another range too',
      },
      [other],
    ],
    [
      `${start} balls=open,open,open count=3`,
      {
        verdict: 'ceramic',
        witness: 'every ball',
        why: 'all 3 balls are silent, on a meter and contact proven first, and these are all that it has',
      },
      [other],
    ],
    [
      `${start} balls=open,open,open count=4`,
      {
        verdict: 'not proven',
        witness: 'none',
        why: 'all 3 balls are silent, but a film of grease is silent too: hold a magnet to a ball, try another range of the meter, or try every ball',
      },
      [],
    ],
    [
      `${start} balls=open,open,open magnet=attracted count=3`,
      {
        verdict: 'not proven',
        why: 'every ball is silent but the magnet is attracted: the balls may be steel under a film, or the magnet feels the rings; clean and repeat both',
      },
      [],
    ],
    [
      `${start} balls=open,open,open secondRange=beep count=3`,
      {
        verdict: 'not proven',
        why: 'silent on one range, not on the other: the balls may be steel under a film; clean them and try again',
      },
      [],
    ],
    [
      `${start} balls=beep,open,open,beep magnet=not-attracted`,
      {
        verdict: 'not proven',
        why: '2 of 4 balls beep: clean the silent ones and keep the probes off ring and cage, then try all again; if any still beeps, treat them as steel',
      },
      [],
    ],
    [
      `${start} balls=beep,beep,beep`,
      { verdict: 'steel', why: 'all 3 balls conduct, on a meter and contact proven first' },
      ['The magnet gave no answer', 'Steel balls'],
    ],
    [`${start} balls=beep,beep,beep magnet=attracted`, { verdict: 'steel' }, ['Steel balls']],
    [
      `${start} balls=beep,beep,beep magnet=not-attracted`,
      {
        verdict: 'not proven',
        why: 'every ball conducts but none is attracted: the two witnesses disagree, keep the probes off ring and cage and repeat both',
      },
      [],
    ],
  ]);
  refuses([[`${start} balls=open,open,open,open count=3`, 'balls', '4 balls were tried, but the bearing has 3']]);
});

describe('cleaning-power', () => {
  const row = (id: string, dispersion: number | null, polar = 0, radius: number | null = null): TableRow => ({
    id,
    label: `Soil ${id}`,
    dispersion,
    polar: dispersion === null ? null : polar,
    hydrogen: dispersion === null ? null : 0,
    radius,
    tag: 'A',
    source: `row ${id}`,
  });
  // Twice the difference in dispersion, once that in polarity: 10 - 6 is a distance of 8, 10 - 4 one of 12.
  const made: Tables = {
    soils: {
      id: 'soils',
      rows: [row('water', 10), row('coolant', 10, 0, 10), row('gear-oil', 10, 0, 20), row('silicone-oil', null)],
    },
    hansen: {
      id: 'hansen',
      rows: [
        row('acetone', 6),
        row('isopropanol', 4),
        row('n-heptane', 10, 8.01),
        row('white-spirit', 10, 12.01),
        row('brine', 10, 10),
        row('sea', 10, 10.01),
      ],
    },
    solvents: { id: 'solvents', rows: [row('brine', 1), row('sea', 1), row('foam', 1)] },
  };
  const run = (soils: string[], solvents?: string[]) => {
    const found = calculators['cleaning-power']!.run({ soils, ...(solvents ? { solvents } : {}) }, made);
    return { ...found, is: (key: string) => found.results[key]?.value };
  };
  it('dissolves up to 8 or its radius, helps up to 12 or its radius, each end with it', () => {
    expect(run(['water']).is('ranked')).toEqual([
      'Soil water: acetone dissolves (8), n-heptane helps (8.01), isopropanol helps (12), white-spirit poor (12)',
    ]);
    expect(run(['coolant'], ['brine', 'sea']).is('ranked')).toEqual([
      'Soil coolant: brine dissolves (10), sea helps (10)',
    ]);
    expect(run(['gear-oil'], ['isopropanol']).is('ranked')).toEqual(['Soil gear-oil: isopropanol dissolves (12)']);
  });
  it('what has no figures is not known, and stands last', () => {
    const { worked, warnings, is, sources } = run(['silicone-oil', 'water'], ['foam', 'white-spirit', 'acetone']);
    expect(is('ranked')).toEqual([
      'Soil silicone-oil: foam not known, white-spirit not known, acetone not known',
      'Soil water: acetone dissolves (8), white-spirit poor (12), foam not known',
    ]);
    expect(worked).toEqual([
      'distance to soil silicone-oil: foam not known, white-spirit not known, acetone not known',
      'distance to soil water: acetone dissolves (8), white-spirit poor (12), foam not known',
    ]);
    expect([is('enough'), is('first'), is('last'), is('left')]).toEqual([
      'partly',
      'acetone',
      'none',
      ['Soil silicone-oil'],
    ]);
    expect(warnings).toHaveLength(2);
    expect(warnings[1]).toContain('Nothing at hand takes up soil silicone-oil');
    expect(sources?.map((s) => s.text)).toEqual(['row silicone-oil', 'row water', 'row acetone']);
  });
  it('the least polar first, the most polar last', () => {
    // Water by isopropanol (12, helps); gear oil by n-heptane (8.01), which is the more polar of the two.
    const { is, warnings } = run(['gear-oil', 'water'], ['n-heptane', 'isopropanol']);
    expect(is('order')).toEqual(['n-heptane']);
    expect(warnings).toHaveLength(1);
    const two = calc('cleaning-power soils=coolant,grease solvents=isopropanol,white-spirit');
    expect(two.results.order?.value).toEqual(['white-spirit', 'isopropanol']);
    expect(two.warnings[1]).toBe(
      'Two washes, each with its own cloth, dried in between: white-spirit first, isopropanol last.',
    );
    expect(two.warnings).toHaveLength(2);
  });
  it('takes the four usual ones where none is named', () => {
    expect(run(['water', 'water']).is('enough')).toBe('yes');
    expect(run(['water'], ['isopropanol']).is('enough')).toBe('partly');
    expect(run(['water'], ['white-spirit']).is('enough')).toBe('no');
    expect(run(['water'], ['white-spirit']).is('first')).toBe('none');
  });
});

describe('cause: order and what counts nothing', () => {
  const row = (id: string, more: object): TableRow => ({ id, tag: 'CP', source: '', ...more });
  const sign = (cause: string, finding: string, counts: number) =>
    row(`${cause}+${finding}`, { cause, finding, counts, why: `${finding} (${counts})` });
  const made: Tables = {
    causes: {
      id: 'causes',
      rows: ['leak', 'dirt', 'wear'].map((id) => row(id, { label: id.toUpperCase(), cure: 'x', prove: 'y' })),
    },
    'cause-signs': {
      id: 'cause-signs',
      rows: [
        sign('leak', 'rust', 2),
        sign('dirt', 'rust', 3),
        sign('wear', 'rust', 4),
        sign('leak', 'noise', 0),
        sign('leak', 'none', 2),
        sign('dirt', 'dust', -1),
      ],
    },
  };
  const run = (...findings: string[]) => {
    const { results, worked } = calculators.cause!.run({ findings }, made);
    return { worked, is: (key: string) => results[key]?.value };
  };
  it('best first', () => {
    expect(run('rust').is('likely')).toEqual(['WEAR', 'DIRT', 'LEAK']);
    expect(run('rust').is('pro')).toEqual(['WEAR: rust (4)', 'DIRT: rust (3)', 'LEAK: rust (2)']);
    expect(run('rust').is('certain')).toBe('one of several');
  });
  it('a sign of 0 speaks neither for nor against, and no finding is no sign', () => {
    expect(run('noise').is('pro')).toEqual(['nothing found']);
    expect(run('noise').is('contra')).toEqual(['nothing found']);
    expect(run('none').is('first')).toBe('unknown');
    expect(run('dust').is('contra')).toEqual(['DIRT: dust (-1)']);
    expect(run('dust').worked).toEqual(['DIRT: -1 (for 0, against 1)']);
  });
});
