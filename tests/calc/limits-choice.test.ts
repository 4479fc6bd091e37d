/** Limits of the choice of a grease and of the free volume. All figures by hand (A), the arithmetic beside them. */
import { describe, expect, it } from 'vitest';
import { changed, holds, refuses } from './limits.js';
import { calc } from './support.js';

describe('CP: grease-check', () => {
  // 16 000 rpm x 50 mm = 800 000. nu1 = 4500 x 16 000^-0.5 x 50^-0.5 = 5.0312; 15 over it is 2.98.
  const base = {
    ndmLimit: '1000000',
    limitIs: 'ndm',
    ndm: '800000',
    nu40: '15',
    nu100: '3.5',
    temp: '40',
    speed: '16000',
    pitch: '50',
    lowest: '0',
    highest: '100',
    ambient: '20',
    nlgi: '2',
    old: 'lithium',
    new: 'lithium',
    oldOil: 'pao',
    newOil: 'pao',
    cleaned: 'yes',
  };
  const line = (change: string): string => changed('grease-check', base, change);
  const rows: [change: string, part: string, why: string][] = [
    ['', 'overall', 'ok'],
    ['', 'speed', 'ok: 80 % of the limit'],
    ['ndm=800010', 'speed', 'marginal: 80 % of the limit: little or no margin'],
    ['ndm=800000+-1000', 'speed', 'marginal: 80 % of the limit: little or no margin'],
    ['ndmLimit=800000', 'speed', 'marginal: 100 % of the limit: little or no margin'],
    ['ndmLimit=799999', 'speed', 'no: 100 % of the limit: too fast for this grease'],
    ['ndmLimit=799999', 'overall', 'no'],
    ['limitIs=nd nd=700000', 'speed', 'ok: 70 % of the limit'],
    ['', 'viscosity', 'ok: kappa 2.98'],
    ['nu40=', 'viscosity', 'marginal: the base oil viscosity is not known: not proven'],
    ['nu100=', 'viscosity', 'marginal: the base oil viscosity is not known: not proven'],
    ['speed=', 'viscosity', 'marginal: top speed or pitch diameter is not known: not proven'],
    ['pitch=', 'viscosity', 'marginal: top speed or pitch diameter is not known: not proven'],
    ['pitch=', 'overall', 'marginal'],
    ['nu40=5 nu100=2', 'viscosity', 'marginal: kappa 0.994: thin'],
    ['nu40=10 nu100=2 temp=100', 'viscosity', 'no: kappa 0.398: no film to speak of'],
    ['nu40=25 nu100=5', 'viscosity', 'marginal: kappa 4.97: thicker than needed, runs hotter'],
    ['', 'temperature', 'ok: 40 °C in 0 to 100 °C'],
    ['lowest=', 'temperature', 'marginal: the temperature range is not known: not proven'],
    ['highest=', 'temperature', 'marginal: the temperature range is not known: not proven'],
    ['highest=60', 'temperature', 'ok: 40 °C in 0 to 60 °C'],
    ['highest=59.9', 'temperature', 'marginal: 40 °C in 0 to 59.9 °C: less than 20 K left at the hot end'],
    ['highest=60.5 temp=40+-1', 'temperature', 'marginal: 40 °C in 0 to 60.5 °C: less than 20 K left at the hot end'],
    ['highest=40', 'temperature', 'marginal: 40 °C in 0 to 40 °C: less than 20 K left at the hot end'],
    ['highest=39.9', 'temperature', 'no: 40 °C in 0 to 39.9 °C: outside the window'],
    ['ambient=10', 'temperature', 'ok: 40 °C in 0 to 100 °C'],
    ['ambient=9.9', 'temperature', 'marginal: 40 °C in 0 to 100 °C: less than 10 K left at the cold end'],
    ['ambient=0', 'temperature', 'marginal: 40 °C in 0 to 100 °C: less than 10 K left at the cold end'],
    ['ambient=-0.1', 'temperature', 'no: 40 °C in 0 to 100 °C: outside the window at the coldest start'],
    ['ambient= lowest=30', 'temperature', 'ok: 40 °C in 30 to 100 °C'],
    ['ambient= lowest=30.1', 'temperature', 'marginal: 40 °C in 30.1 to 100 °C: less than 10 K left at the cold end'],
    ['temp=9', 'temperature', 'marginal: 9 °C in 0 to 100 °C: less than 10 K left at the cold end'],
    ['temp=29 lowest=30 ambient=45', 'temperature', 'no: 29 °C in 30 to 100 °C: outside the window'],
    ['nlgi=3', 'consistency', 'ok: NLGI 3'],
    ['nlgi=1', 'consistency', 'marginal: NLGI 1 is soft: it may creep out at speed'],
    ['nlgi=0', 'consistency', 'no: NLGI 0 runs out of a sealed bearing'],
    ['nlgi=000', 'consistency', 'no: NLGI 000 runs out of a sealed bearing'],
    ['nlgi=4', 'consistency', 'no: NLGI 4 is too stiff to reach the raceways'],
    ['nlgi=', 'consistency', 'marginal: the consistency is not known: not proven'],
    ['nlgi= penetration=280', 'consistency', 'ok: NLGI 2'],
    ['penetration=280', 'consistency', 'ok: NLGI 2'],
    ['penetration=300', 'consistency', 'marginal: penetration 300 lies between two grades and is none'],
    // The very product; one thickener; borderline, disputed, incompatible, unknown.
    ['sameProduct=yes cleaned=', 'thickener', 'ok: the very product that was in'],
    ['sameProduct=yes old=unknown', 'thickener', 'ok: the very product that was in'],
    ['sameProduct=yes new=unknown', 'thickener', 'ok: the very product that was in'],
    ['sameProduct=yes old=', 'thickener', 'ok: the very product that was in'],
    ['sameProduct=yes new= oldOil=', 'thickener', 'ok: the very product that was in'],
    ['', 'thickener', 'ok: lithium with lithium: called compatible, and all the old grease is out'],
    [
      'newOil=silicone',
      'thickener',
      'marginal: lithium with lithium: called compatible, but pao and silicone oil do not mix; all the old grease is out, but a trace behind a seal still matters',
    ],
    [
      'cleaned=',
      'thickener',
      'marginal: lithium with lithium: called compatible, pao and pao oil mix; greases of one thickener differ, so the old one must come out, or be the same product',
    ],
    [
      'cleaned= newOil=mineral',
      'thickener',
      'marginal: lithium with lithium: called compatible, pao and mineral oil mix; greases of one thickener differ, so the old one must come out, or be the same product',
    ],
    [
      'cleaned= oldOil=silicone newOil=silicone',
      'thickener',
      'marginal: lithium with lithium: called compatible, silicone and silicone oil mix; greases of one thickener differ, so the old one must come out, or be the same product',
    ],
    [
      'cleaned= newOil=pfpe',
      'thickener',
      'no: lithium with lithium: called compatible, but pao and pfpe oil do not mix; all the old grease must come out first',
    ],
    [
      'cleaned= oldOil=pfpe',
      'thickener',
      'no: lithium with lithium: called compatible, but pfpe and pao oil do not mix; all the old grease must come out first',
    ],
    ...(['newOil=', 'newOil=unknown'] as const).map((change): [string, string, string] => [
      `cleaned= ${change}`,
      'thickener',
      'marginal: lithium with lithium: called compatible, the base oil of the new grease is not known; greases of one thickener differ, so the old one must come out, or be the same product',
    ]),
    ...(['oldOil=', 'oldOil=unknown'] as const).map((change): [string, string, string] => [
      `cleaned= ${change}`,
      'thickener',
      'marginal: lithium with lithium: called compatible, the base oil of the old grease is not known; greases of one thickener differ, so the old one must come out, or be the same product',
    ]),
    [
      'new=aluminium-complex',
      'thickener',
      'ok: lithium with aluminium-complex: borderline, and all the old grease is out',
    ],
    [
      'new=aluminium-complex newOil=silicone',
      'thickener',
      'marginal: lithium with aluminium-complex: borderline; all the old grease is out, but a trace behind a seal still matters',
    ],
    [
      'new=aluminium-complex cleaned=',
      'thickener',
      'no: lithium with aluminium-complex: borderline; all the old grease must come out first',
    ],
    [
      'old=lithium-complex new=aluminium-complex',
      'thickener',
      'ok: lithium-complex with aluminium-complex: charts disagree, and all the old grease is out',
    ],
    [
      'old=lithium-complex new=aluminium-complex cleaned=',
      'thickener',
      'no: lithium-complex with aluminium-complex: charts disagree; all the old grease must come out first',
    ],
    [
      'new=sodium',
      'thickener',
      'marginal: lithium with sodium: incompatible; all the old grease is out, but a trace behind a seal still matters',
    ],
    [
      'old=unknown',
      'thickener',
      'marginal: unknown with lithium: compatibility not known, so no until tested; all the old grease is out, but a trace behind a seal still matters',
    ],
    [
      'old= cleaned=',
      'thickener',
      'no: compatibility not known, so no until tested; all the old grease must come out first',
    ],
    [
      'new= cleaned=',
      'thickener',
      'no: compatibility not known, so no until tested; all the old grease must come out first',
    ],
  ];
  it.each(rows)('%s: %s %s', (change, part, why) => {
    const { results, ...found } = calc(line(change));
    if (part === 'overall') expect(results.overall?.value).toBe(why);
    else {
      const lines = results.why?.value as unknown as string[];
      expect(lines).toContain(`${part} ${why}`);
      expect(results[`${part}Verdict`]?.value).toBe(why.split(':')[0]);
      expect((found as unknown as { worked: string[] }).worked).toEqual(lines);
    }
  });
  holds([
    [line(''), { kappa: 2.9814, speedUse: 80 }, []],
    [line('limitIs='), {}, ['Some data sheets print n d']],
    [line('nu40='), { kappa: undefined }, []],
    [line('ndm=839900'), {}],
    [line('ndm=760100'), {}],
    [line('ndm=900000 speed='), {}],
    [line('ndm=900000 pitch='), {}],
    [line('nd=799999'), {}],
  ]);
  refuses([
    [line('limitIs=nd'), 'nd', 'held against n d only'],
    [line('ndm=840100'), 'ndm', '16000 rpm and a pitch diameter of 50 mm make n dm 800000 mm/min, not 840100'],
    [line('ndm=759900'), 'ndm', 'check all three'],
    [line('nd=800000'), 'nd', 'is always below n dm (800000)'],
    [line('lowest=100'), 'highest', 'must lie above the lowest'],
    [line('nlgi=1 penetration=280'), 'penetration', 'A penetration of 280 is NLGI 2, not 1'],
    [line('sameProduct=yes new=polyurea'), 'sameProduct', 'no one product'],
    [line('sameProduct=yes newOil=silicone'), 'sameProduct', 'no one product'],
  ]);
});

describe('A: free-volume', () => {
  // pi/4 x 18 x (80^2 - 40^2) = 67.858 mL; 366 / 7.81 = 46.863; 61 x 0.366 = 22.326, 6.3 % more than 20.995.
  const size = 'free-volume bore=40 outside=80 width=18';
  const [all, five, faces] = [
    'taken as that of an all-steel',
    'give it such as 366 +- 1 g',
    'the open bearing up to its faces',
  ];
  holds([
    [
      `${size} mass=366`,
      {
        volume: [20.995, 2.346, 'mass'],
        envelope: 67.858,
        secondEstimate: 22.326,
        disagreement: 6.34,
        freeShare: 30.94,
        sealedRoom: undefined,
      },
      [all, five, faces],
      [
        'envelope = pi/4 x 18 x (80^2 - 40^2) = 67.86 mL',
        'solids = 46.86 mL, from 366 g with steel at 7.81 g/mL',
        'V = 67.86 - 46.86 = 21 mL (the open bearing up to its faces)',
        'second estimate = 22.33 mL, 6.3 % against the first',
      ],
    ],
    [`${size} mass=366+-3.66 massIs=steel`, { volume: [20.995, 0.4837, 'mass'] }, [faces]],
    [`${size} mass=366+-3.66 ballMaterial=steel`, { volume: 20.995 }, [faces]],
    // 9 balls of 11.906 mm: 7.953 mL; 329.3 g + 7.953 x (7.81 - 3.2) = 365.96 g of steel: 46.858 mL.
    [
      `${size} mass=329.3+-3 massIs=hybrid ballMaterial=ceramic balls=9 ball=11.906`,
      { volume: 21.0, secondEstimate: 22.324 },
      [faces],
      [
        'envelope = pi/4 x 18 x (80^2 - 40^2) = 67.86 mL',
        'balls = 9 x pi/6 x 11.91^3 = 7.953 mL of ceramic at 3.2 g/mL, the rest steel',
        'solids = 46.86 mL, from 329.3 g with steel at 7.81 g/mL',
        'V = 67.86 - 46.86 = 21 mL (the open bearing up to its faces)',
        'second estimate = 22.32 mL, 6.3 % against the first',
      ],
    ],
    // Both estimates 15 % apart at 339.6 g; 36 % free at 339.2 g, 24 % at 402.8 g; all of it steel at 530 g.
    [`${size} mass=339.7+-1 massIs=steel`, {}, [faces]],
    [`${size} mass=339.5+-1 massIs=steel`, {}, ['differ by 15 %', faces]],
    [
      `${size} mass=339.1+-1 massIs=steel`,
      {},
      ["36 % of the envelope would be free, usual is 24 to 36 %: is this a hybrid's", 'differ', faces],
    ],
    [`${size} mass=402.6+-1 massIs=steel`, { freeShare: 24.03 }, ['differ by 51 %', faces]],
    [`${size} mass=403+-1 massIs=steel`, { freeShare: 23.96 }, ['Only 24 % of the envelope', 'differ', faces]],
    [
      `${size} mass=300+-1 massIs=hybrid balls=9 ball=11.906`,
      {},
      ['check mass, balls and dimensions', 'differ', faces],
    ],
    [`${size} mass=529.9+-1 massIs=steel`, {}],
    // 15 balls of 11.906 mm go round: pi x 60 / 11.906 = 15.8. A ball is below half of the wall, 20 mm, and 1.2 widths.
    [`${size} mass=366 balls=15 ball=11.906 massIs=steel`, { volume: 20.995 }],
    [`${size} mass=366 balls=9 ball=19.9 massIs=steel`, { volume: 20.995 }],
    ['free-volume bore=40 outside=80 width=15 mass=300 balls=9 ball=17.9 massIs=steel', {}],
  ]);
  it('rests on the density of steel, of a hybrid on that of its balls too', () => {
    expect(calc(`${size} mass=366`).sources).toHaveLength(1);
    expect(calc(`${size} mass=329.3 massIs=hybrid balls=9 ball=11.906`).sources).toHaveLength(2);
  });
  refuses([
    [`${size} mass=530`, 'mass', '530 g is more steel than fits in the envelope of 67.86 mL'],
    [`${size} mass=366 balls=16 ball=11.906`, 'balls', 'At most 15 balls of 11.91 mm'],
    [`${size} mass=366 balls=9 ball=20`, 'ball', 'must be below 20 mm for these rings, not 20 mm'],
    ['free-volume bore=40 outside=80 width=15 mass=300 balls=9 ball=18', 'ball', 'must be below 18 mm'],
    [`${size} mass=329 massIs=hybrid ballMaterial=steel balls=9 ball=11.906`, 'massIs', 'no hybrid mass'],
    [`${size} mass=329 massIs=hybrid ball=11.906`, 'balls', 'the number is missing'],
    [`${size} mass=329 massIs=hybrid balls=9`, 'ball', 'the diameter is missing'],
    [`${size} mass=329 ballMaterial=ceramic`, 'massIs', 'Say whose mass it is'],
  ]);

  // Shoulders at 40 + 0.325 x 40 = 53 and 80 - 0.245 x 40 = 70.2 mm: pi/4 (70.2^2 - 53^2) = 1664.3 mm2; two 1 mm deep 3.3286 mL.
  // Chamfers 0.25 x 1^2 x 2 pi x 120 = 188.5 mm3. A moulded cage 6 % of 20.995 = 1.2597 mL.
  const sealed = `${size} mass=366+-3.66 massIs=steel seals=2 sealDepth=1+-0.1 innerShoulder=53 outerShoulder=70.2 chamfer=1`;
  holds([
    [
      `${sealed} cage=sheet-steel`,
      {
        sealedRoom: [17.478, 0.593, 'volume'],
        roomLow: 16.885,
        roomHigh: 18.071,
        offSeals: [3.3286, 0.3329],
        offChamfers: [0.1885, 0.0754],
        offCage: 0,
        takenOff: 'seals 3.3 mL, chamfers 0.19 mL, cage 0 mL',
      },
      [],
    ],
    [`${sealed} cage=pa66`, { sealedRoom: 16.218, offCage: [1.2597, 1.2597] }, []],
    [`${sealed}`, { sealedRoom: 16.218 }, []],
    // 0.6 + 0.04 x 18 = 1.32 mm: 4.394 mL. A shield 0.3 + 0.03 x 18 = 0.84 mm: 2.796 mL. Chamfer 0.065 x 18 = 1.17 mm.
    [
      `${size} mass=366+-3.66 massIs=steel seals=2 cage=sheet-steel`,
      { offSeals: 4.3937, offChamfers: 0.258, sealedRoom: 16.343 },
      ['For each seal 1.3 mm of depth was taken'],
    ],
    [
      `${size} mass=366+-3.66 massIs=steel seals=1 sealKind=shield cage=sheet-steel`,
      { offSeals: 1.398 },
      ['For each seal 0.84 mm of depth was taken'],
    ],
    [`${size} mass=366+-3.66 massIs=steel seals=0 cage=sheet-steel`, { offSeals: 0 }, []],
    [`${size} mass=366+-3.66 massIs=steel seals=2 sealDepth=4.5 cage=sheet-steel`, { offSeals: 14.979 }, []],
    // 67.858 - 500 / 7.81 = 3.838; less 3.33 and 0.19 it is 0.32, which may be nothing.
    [`${sealed.replace('366+-3.66', '500+-5')} cage=sheet-steel`, { sealedRoom: 0.3208, roomLow: 0 }],
  ]);
  refuses([
    [
      `${size} mass=366 seals=2 sealDepth=4.51`,
      'sealDepth',
      '2 seals 4.51 mm deep take more than half of a width of 18 mm',
    ],
    [`${size} mass=366 seals=2 innerShoulder=40`, 'innerShoulder', 'must lie between the rings'],
    [`${size} mass=366 seals=2 outerShoulder=80`, 'innerShoulder', 'must lie between the rings'],
    [`${size} mass=366 seals=2 innerShoulder=60 outerShoulder=60`, 'innerShoulder', 'must lie between the rings'],
    [`${size} mass=529 seals=2`, 'seals', 'would take all of the free volume'],
  ]);
});
