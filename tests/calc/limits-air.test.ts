/** Limits of solvent vapour, of solvents on materials, and of the next look. By hand, with invented rows at round figures. */
import { describe, expect, it } from 'vitest';
import { calculators } from '../../src/calc/index.js';
import type { Inputs, TableRow, Tables } from '../../src/calc/types.js';
import { holds } from './limits.js';

const table = (id: string, ...rows: object[]): Tables => ({
  [id]: { id, rows: rows.map((row) => ({ tag: 'P', source: `a row of ${id}`, ...row })) as TableRow[] },
});

describe('vapour', () => {
  // 1 g/mL over 1 g/mol x 24.45 L/mol in 24 450 m3: one ppm for each mL.
  const limits = { id: 'acetone', label: 'Acetone', rel: 100, pel: 500, idlh: 2000, lel: 4, flash_point: 60 };
  const liquid = { id: 'acetone', density: 1, molar_mass: 1, vapour_pressure: 76, lel_low: 3 };
  const brevity = { id: 'acetone', ppm: 200 };
  interface Rows {
    limits?: object;
    liquid?: object | undefined;
    brevity?: object | undefined;
  }
  const run = (volume: number | { value: number; plusMinus: number }, inputs: Inputs = {}, rows: Rows = {}) => {
    const made = {
      ...table('solvents', { ...limits, ...rows.limits }),
      ...table('solvent-liquids', ...('liquid' in rows && !rows.liquid ? [] : [{ ...liquid, ...rows.liquid }])),
      ...table('short-term-limits', ...('brevity' in rows && !rows.brevity ? [] : [{ ...brevity, ...rows.brevity }])),
    };
    const amount = typeof volume === 'number' ? { value: volume } : volume;
    const found = calculators.vapour!.run(
      { solvent: 'acetone', room: { value: 24_450 }, volume: amount, ...inputs },
      made,
    );
    return { ...found, is: (key: string) => found.results[key]?.value };
  };
  it.each([
    [100, 'under REL'],
    [101, 'over REL'],
    [200, 'over REL'],
    [201, 'over short-term limit'],
    [500, 'over short-term limit'],
    [501, 'over PEL'],
    [1999, 'over PEL'],
    [2000, 'over IDLH'],
    [2999, 'over IDLH'],
    [3000, 'explosive nearby'],
  ])('%s ppm: %s', (ppm, verdict) => {
    expect(run(ppm).is('ppm')).toBe(ppm);
    expect(run(ppm).is('verdict')).toBe(verdict);
  });
  it('counts the upper end, and names the highest limit that is passed', () => {
    expect(run({ value: 95, plusMinus: 5 }).is('verdict')).toBe('under REL');
    expect(run({ value: 95, plusMinus: 6 }).is('verdict')).toBe('over REL');
    expect(run(501, {}, { brevity: { ppm: 500 } }).is('verdict')).toBe('over PEL');
    expect(run(601, {}, { brevity: { ppm: 600 } }).is('verdict')).toBe('over short-term limit');
    expect(run(501, {}, { brevity: undefined }).is('verdict')).toBe('over PEL');
  });
  it('goes by the 15-minute limit for up to 15 min of work', () => {
    const at = (ppm: number, minutes: number, rows: Rows = {}) => run(ppm, { minutes: { value: minutes } }, rows);
    expect([at(200, 15).is('verdict'), at(200, 15).is('limitIs'), at(200, 15).is('limit')]).toEqual([
      'under short-term limit',
      '15-minute limit',
      200,
    ]);
    expect(at(201, 15).is('verdict')).toBe('over short-term limit');
    expect([at(200, 15.1).is('verdict'), at(200, 15.1).is('limitIs'), at(200, 15.1).is('limit')]).toEqual([
      'over REL',
      'shift mean',
      100,
    ]);
    expect(at(2000, 15).is('verdict')).toBe('over IDLH');
    expect(at(101, 15, { brevity: undefined }).is('verdict')).toBe('over REL');
    expect(at(101, 15, { brevity: undefined }).is('shortTerm')).toBeUndefined();
  });
  it('the most that stays under the limit, two figures down, with the half width on top', () => {
    expect(run(1).is('most')).toBe(100);
    expect(run(1, { minutes: { value: 15 } }).is('most')).toBe(200);
    expect(run({ value: 1, plusMinus: 4.5 }).is('most')).toBe(95);
    expect(run({ value: 1, plusMinus: 0.5 }).is('most')).toBe(99);
    expect(run({ value: 1, plusMinus: 120 }).is('most')).toBe(0);
    expect(run(1, {}, { limits: { rel: 12.39 } }).is('most')).toBe(12);
  });
  it('never more than air takes up: 0.76 mmHg of 760 are 1000 ppm', () => {
    const low = { liquid: { vapour_pressure: 0.76 } };
    expect(run(1000, {}, low).warnings.join()).not.toContain('takes up');
    expect(run(1500, {}, low).warnings.join()).toContain('takes up 1000 ppm of it at most');
    expect(run(1500, {}, low).is('ppm')).toBeCloseTo(1000, 9);
    expect(run(1, {}, { liquid: { vapour_pressure: null } }).is('saturation')).toBe(1e6);
    expect(run(1).is('saturation')).toBeCloseTo(1e5, 6);
  });
  /** Without the two that always stand last. */
  const said = (...args: Parameters<typeof run>): string[] => {
    const heads = run(...args).warnings.map((each) => each.split(/[,:]/)[0] ?? '');
    expect(heads.slice(-2)).toEqual([
      'Mixing is uneven and the vapour is heavier than air',
      'The limits are those of the USA',
    ]);
    return heads.slice(0, -2);
  };
  it('says what matters, each thing where it does, fire first', () => {
    expect(said(1)).toEqual([]);
    expect(said(1, {}, { limits: { flash_point: 59.9 } })).toEqual(['Its flash point is about 59.9 °C']);
    expect(said(1, {}, { limits: { flash_point: 25 } })).toEqual(['Its flash point is about 25 °C']);
    expect(said(1, {}, { limits: { flash_point: 24.9 } })).toEqual(['Its flash point is 24.9 °C']);
    expect(said(1, {}, { limits: { tag: 'M' } })).toEqual(['The figures of acetone are usual ones']);
    expect(said(101)).toEqual(['The mean is over REL']);
    expect(said(201)).toEqual(['The mean is over short-term limit']);
    expect(said(501)).toEqual(['The mean is over PEL', 'It is above the 15-minute limit of 200 ppm as well.']);
    expect(said(3000)).toEqual([
      'The mean is at a tenth of the explosive limit or more',
      'It is above the 15-minute limit of 200 ppm as well.',
    ]);
    const brief = { minutes: { value: 10 } };
    expect(said(100, brief)).toEqual([]);
    expect(said(101, brief)).toEqual([
      'Over 10 min the 15-minute limit counts; whoever does this more than once a day',
    ]);
    expect(said(201, brief)).toEqual([
      'The mean is over short-term limit',
      'Over 10 min the 15-minute limit counts; whoever does this more than once a day',
    ]);
    const none = { brevity: undefined };
    expect(said(1, brief, none)).toEqual(['It has no published 15-minute limit here']);
    expect(said(1, { minutes: { value: 15 } }, none)).toHaveLength(1);
    expect(said(1, { minutes: { value: 15.1 } }, none)).toEqual([]);
    expect(said(1, {}, none)).toEqual([]);
  });
  it('shows its working and its rows', () => {
    const whole = run(50);
    expect(whole.worked).toEqual([
      '1 mL in 1 m3 = 1000 x 1 / 1 x 24.45 = 24450 ppm',
      '50 mL in 24450 m3 = 50 ppm',
      'REL 100, PEL 500, 15 min 200, IDLH 2000 ppm; LEL 4 % (some sources 3 %) = 40000 ppm',
    ]);
    expect([whole.is('lel'), whole.is('lelShare')]).toEqual([40_000, 0.125]);
    expect(whole.sources?.map((s) => s.text)).toEqual([
      'a row of solvents',
      'a row of short-term-limits',
      'a row of solvent-liquids',
    ]);
    const own = run(
      50,
      {},
      { liquid: undefined, brevity: undefined, limits: { density: 1, molar_mass: 1, lel_low: 4 } },
    );
    expect(own.worked[2]).toBe('REL 100, PEL 500, no 15-minute limit, IDLH 2000 ppm; LEL 4 % = 40000 ppm');
    expect(own.sources).toHaveLength(1);
    expect(() =>
      calculators.vapour!.run({ solvent: 'acetone', room: { value: 1 }, volume: { value: 1 } }, table('solvents')),
    ).toThrow('no limits for this solvent');
  });
});

describe('solvent, by rating and use', () => {
  const rows = (...uses: object[]): Tables => ({
    ...table(
      'solvent-ratings',
      ...[1, 2, 3, 4].map((rating) => ({
        id: `pa66+${['acetone', 'isopropanol', 'n-heptane', 'white-spirit'][rating - 1]}`,
        rating,
        tag: 'M',
      })),
    ),
    ...table('materials', { id: 'pa66', family: 'plastic' }),
    ...table('solvent-uses', ...uses),
    ...table('solvents'),
    ...table('hansen'),
  });
  const run = (solvent: string, use: string, tables: Tables, more: Inputs = {}) => {
    const found = calculators.solvent!.run({ solvent, material: 'pa66', use, ...more }, tables);
    return { ...found, is: (key: string) => found.results[key]?.value };
  };
  const verdicts = (use: string, tables: Tables) =>
    ['acetone', 'isopropanol', 'n-heptane', 'white-spirit'].map((each) => run(each, use, tables).is('verdict'));
  it('without a word of practice', () => {
    expect(verdicts('wipe', rows())).toEqual(['allowed', 'allowed', 'brief wipe only', 'never']);
    expect(verdicts('soak', rows())).toEqual(['allowed', 'test first', 'never', 'never']);
    expect(run('acetone', 'wipe', rows()).is('why')).toBe(
      'it resists it when it lies in it (grade 1, 1 is best and 4 worst)',
    );
    expect(run('acetone', 'wipe', rows()).is('estimate')).toBe('no radius known');
  });
  const use = (more: object) => ({
    id: 'u',
    material: 'pa66',
    solvent: 'any',
    use: 'soak',
    kind: 'permits',
    verdict: 'allowed',
    tag: 'CP',
    source: 'the trade',
    ...more,
  });
  it('practice settles a 2, but never a soak in a 3 or 4', () => {
    expect(verdicts('soak', rows(use({})))).toEqual(['allowed', 'allowed', 'never', 'never']);
    expect(verdicts('wipe', rows(use({ use: 'wipe', verdict: 'brief wipe only' })))).toEqual([
      'brief wipe only',
      'brief wipe only',
      'brief wipe only',
      'brief wipe only',
    ]);
    expect(verdicts('soak', rows(use({ use: 'wipe' })))).toEqual(['allowed', 'test first', 'never', 'never']);
    expect(verdicts('soak', rows(use({ solvent: 'acetone' })))).toEqual(['allowed', 'test first', 'never', 'never']);
    expect(verdicts('soak', rows(use({ material: 'plastic', solvent: 'isopropanol' })))).toEqual([
      'allowed',
      'allowed',
      'never',
      'never',
    ]);
    expect(verdicts('soak', rows(use({ material: 'rubber' })))).toEqual(['allowed', 'test first', 'never', 'never']);
  });
  it('practice may be stricter, and the strictest counts; what restricts is never milder', () => {
    const strict = [
      use({ verdict: 'test first' }),
      use({ id: 'v', verdict: 'never' }),
      use({ id: 'w', verdict: 'test first' }),
    ];
    expect(verdicts('soak', rows(...strict))).toEqual(['never', 'never', 'never', 'never']);
    expect(verdicts('soak', rows(use({ kind: 'restricts' })))).toEqual(['allowed', 'test first', 'never', 'never']);
    expect(verdicts('soak', rows(use({}), use({ id: 'v', verdict: 'never', solvent: 'isopropanol' })))).toEqual([
      'allowed',
      'never',
      'never',
      'never',
    ]);
    const why = run('acetone', 'soak', rows(use({ verdict: 'never' })));
    expect(why.is('why')).toBe('it resists it when it lies in it (grade 1, 1 is best and 4 worst); the trade');
    expect(why.is('evidence')).toBe('CP');
    expect(why.sources).toHaveLength(2);
  });
  it("a shop's own row that nobody tested only forbids; its own test lifts the rule for a class", () => {
    const own = use({ tag: 'shop', source: 'we always did' });
    expect(verdicts('soak', rows(own))).toEqual(['test first', 'test first', 'never', 'never']);
    expect(run('acetone', 'soak', rows(own)).is('why')).toBe(
      "a shop's own row of pa66 in acetone, not tested: no until tested",
    );
    const rule = use({ kind: 'restricts', verdict: 'never' });
    const tested = (source: string): Tables => ({
      ...rows(rule),
      ...table('solvent-ratings', { id: 'pa66+acetone', rating: 1, tag: 'shop', source }),
    });
    expect(run('acetone', 'soak', rows(rule)).is('verdict')).toBe('never');
    expect(run('acetone', 'soak', tested('tested in May')).is('verdict')).toBe('allowed');
    expect(run('acetone', 'soak', tested('by hearsay')).is('verdict')).toBe('test first');
  });
  it('a published 2 is no pass for a soak', () => {
    const published = { ...rows(use({})), ...table('solvent-ratings', { id: 'pa66+isopropanol', rating: 2 }) };
    expect(run('isopropanol', 'soak', published).is('verdict')).toBe('test first');
    expect(run('isopropanol', 'wipe', published).is('verdict')).toBe('allowed');
  });
  it('the estimate counts where it is worse: twice 2 in dispersion is a distance of 4', () => {
    const point = (id: string, dispersion: number, radius: number | null) => ({
      id,
      dispersion,
      polar: 0,
      hydrogen: 0,
      radius,
    });
    const near = (radius: number): Tables => ({
      ...rows(),
      ...table(
        'hansen',
        point('pa66', 10, radius),
        ...['acetone', 'isopropanol', 'n-heptane'].map((id) => point(id, 12, null)),
      ),
    });
    expect(run('acetone', 'wipe', near(4)).is('estimate')).toBe('spares (distance over radius 1)');
    expect(run('acetone', 'wipe', near(4)).is('verdict')).toBe('allowed');
    const inside = run('acetone', 'wipe', near(5));
    expect([inside.is('verdict'), inside.is('evidence'), inside.is('estimate')]).toEqual([
      'brief wipe only',
      'M',
      'attacks (distance over radius 0.8), against the rating',
    ]);
    expect(inside.is('why')).toMatch(/; but the solubility parameters say that it swells$/);
    expect(inside.sources).toHaveLength(3);
    expect(run('acetone', 'soak', near(5)).is('verdict')).toBe('never');
    expect(run('n-heptane', 'soak', near(5)).is('estimate')).toBe('attacks (distance over radius 0.8)');
    expect(run('n-heptane', 'wipe', near(4)).is('estimate')).toBe(
      'spares (distance over radius 1), against the rating',
    );
    expect(run('n-heptane', 'wipe', near(4)).is('verdict')).toBe('brief wipe only');
    expect(run('white-spirit', 'wipe', near(5)).is('estimate')).toBe('no radius known');
  });
  it('says what each verdict asks for', () => {
    const said = (...args: Parameters<typeof run>) => run(...args).warnings.map((each) => each.split(/[,:]/)[0]);
    expect(said('acetone', 'wipe', rows())).toEqual(['This rating is usual']);
    expect(said('isopropanol', 'soak', rows())).toEqual(['This rating is usual', 'Not until tested']);
    expect(said('n-heptane', 'wipe', rows())).toEqual(['This rating is usual', 'A damp cloth']);
    expect(said('blend', 'wipe', rows())).toEqual(['Not until tested', 'The components of the blend are not known']);
    expect(said('blend', 'wipe', rows(), { components: ['acetone', 'n-heptane'] })).toEqual([
      'This rating is usual',
      'A damp cloth',
    ]);
    const blend = run('blend', 'wipe', rows(), { components: ['n-heptane', 'acetone'] });
    expect([blend.is('verdict'), blend.is('rating')]).toEqual(['brief wipe only', '3']);
    expect(blend.worked).toHaveLength(2);
    expect(run('unknown', 'wipe', rows()).is('rating')).toBe('none');
    expect(run('unknown', 'wipe', rows()).is('evidence')).toBe('none');
    expect(() => run('acetone', 'wipe', rows(), { components: ['acetone'] })).toThrow('Components belong to a blend');
  });
});

describe('CP: next-look', () => {
  const none = ['There was no estimate'];
  holds([
    [
      'next-look finding=clean due=1000 ran=1000',
      { hours: 1500, bound: 'what was found' },
      none,
      [
        'nothing was found: 1.5 times the 1000 h that it proved, at least the 1000 h that were due',
        'rounded down: 1500 h',
      ],
    ],
    ['next-look finding=clean due=1000 ran=2000', { hours: 1500 }, none],
    ['next-look finding=clean due=1000 ran=500', { hours: 1000 }, none],
    ['next-look finding=clean due=1000 ran=700', { hours: 1000 }, none],
    ['next-look finding=clean due=1000 ran=710', { hours: 1000 }, none],
    ['next-look finding=clean due=1000 ran=740', { hours: 1100 }, none],
    [
      'next-look finding=watched due=1000 ran=500',
      { hours: 250, why: 'something is watched: 0.25 of the 1000 h that were due' },
      none,
    ],
    ['next-look finding=watched due=2 ran=2', { hours: 1 }, none],
    [
      'next-look finding=clean due=1000 ran=1000 most=1200',
      { hours: 1200, bound: 'the estimate of the regreasing, 1200 h' },
      [],
      [
        'nothing was found: 1.5 times the 1000 h that it proved, at least the 1000 h that were due',
        'not beyond the estimate of the regreasing, 1200 h',
        'rounded down: 1200 h',
      ],
    ],
    ['next-look finding=clean due=1000 ran=1000 most=1500', { hours: 1500, bound: 'what was found' }, []],
    [
      'next-look finding=clean due=1000 ran=1000 life=10000 total=9000',
      { hours: 1000, bound: 'what is left of the grease life, 1000 h' },
      [],
    ],
    ['next-look finding=clean due=1000 ran=1000 life=10000', { hours: 1500 }, none],
    ['next-look finding=clean due=1000 ran=1000 total=100', { hours: 1500 }, none],
    ['next-look finding=clean due=1000 ran=1000 life=100 total=99', { hours: 1 }, []],
    ['next-look finding=clean due=1000 ran=1000 life=100 total=99.5', { hours: 1 }, ['has lived its life']],
    ['next-look finding=clean due=1000 ran=1000 life=100 total=200', { hours: 1 }, ['has lived its life']],
  ]);
});
