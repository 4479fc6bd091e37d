/** Limits of what doses, meters and places the grease. All figures by hand (A), the arithmetic beside them. */
import { describe, expect, it } from 'vitest';
import { holds, refuses } from './limits.js';
import { calc, list } from './support.js';

describe('A: bead', () => {
  // (6 x 50 mm3 / pi)^(1/3) = 4.571; (6 x 100 / pi)^(1/3) = 5.759; a tip of 2 mm: 3.1416 mm2.
  holds([
    [
      'bead dose=1 balls=10 tip=2',
      {
        gapVolume: 0.1,
        raceVolume: 0.05,
        beadDiameter: 4.571,
        gapBead: 5.759,
        beadString: 15.915,
        gapString: 31.831,
        doseString: 318.31,
      },
      [],
      [
        'gap = 1 mL / 10 = 0.1 mL',
        'from a tip of 2 mm: a bead 15.9 mm long at each raceway',
        'of it at each raceway, half = 0.05 mL, a bead of 4.6 mm',
        '10 gaps x 2 raceways x 0.05 mL = 1 mL, the dose once',
      ],
    ],
    ['bead dose=1+-0.1 balls=10', { gapVolume: [0.1, 0.01, 'dose'], beadString: undefined, doseString: undefined }, []],
    // A bead of 1 mm is 0.5236 mm3: 20 of them are 0.01047 mL.
    ['bead dose=0.0105 balls=10', {}, []],
    ['bead dose=0.0104 balls=10', {}, ['hard to place']],
    ['bead dose=1 balls=10 gap=4.58', {}, []],
    ['bead dose=1 balls=10 gap=4.57', {}, ['does not go into a gap of 4.6 mm']],
  ]);
});

describe('CP: cap-fill', () => {
  // pi/4 (100^2 - 60^2) x 20 = 100.53 mL.
  holds([
    [
      'cap-fill outside=100 shaft=60 depth=20 ndm=89999 density=0.9',
      { room: 100.53, shareLow: 30, shareHigh: 50, low: 30.159, high: 50.265, mass: 27.143 },
      ['Clean the old grease', 'beside the bearing'],
      ['room = 100.5 mL', '100.5 mL x 30 to 50 % = 30.16 to 50.27 mL'],
    ],
    ['cap-fill room=100 ndm=90000 density=0.9', { room: 100, shareLow: 30, shareHigh: 40, low: 30, high: 40 }],
    ['cap-fill room=100 ndm=500000 density=0.9', { shareLow: 30, shareHigh: 40 }],
    ['cap-fill room=100 ndm=500001 density=0.9', { shareLow: 15, shareHigh: 30, mass: 13.5 }],
    ['cap-fill room=100 ndm=499000+-2000 density=0.9', { shareLow: 15, shareHigh: 30 }],
    [
      'cap-fill room=100 ndm=1000000',
      { shareLow: 15, shareHigh: 30, mass: [13.5, 0.75] },
      ['Clean the old grease', 'beside the bearing', '0.9 g/mL was taken'],
    ],
    [
      'cap-fill room=100 ndm=1000001 density=0.9',
      { shareLow: 0, shareHigh: 0, low: 0, high: 0 },
      ['Clean the old grease', 'beside the bearing', 'nothing goes into the caps'],
    ],
  ]);
  refuses([
    ['cap-fill outside=60 shaft=60 depth=20 ndm=100000', 'shaft', 'thinner than the cap'],
    ['cap-fill ndm=100000', 'outside', ''],
    ['cap-fill outside=100 shaft=60 ndm=100000', 'depth', ''],
    ['cap-fill outside=100 depth=6 ndm=100000', 'shaft', ''],
  ]);
});

describe('A: residue', () => {
  // 12 x 9 x 4 = 432 mm3.
  holds([
    [
      'residue length=12 width=9 height=4',
      { volume: 0.432, verdict: 'no dose given', ratio: undefined },
      [],
      ['V = 12 x 9 x 4 / 1000 = 0.432 mL'],
    ],
    ['residue measured=1+-0.1 dose=0.5', { volume: [1, 0.1], ratio: [0.5, 0.0505], verdict: 'plausible' }, []],
    ['residue measured=1 dose=0.499', { verdict: 'small' }, ['0.5 times the residue: it was filled fuller']],
    [
      'residue measured=1 dose=3',
      { ratio: 3, verdict: 'plausible' },
      [],
      ['V = 1 mL as read off', 'ratio = 3 / 1 = 3'],
    ],
    ['residue measured=1 dose=3.01', { verdict: 'large' }, ['3 times the residue: far more']],
    [
      'residue mass=0.9 dose=2',
      { volume: [1, 0.0557], ratio: [2, 0.111, 'recovered grease'] },
      ['0.9 g/mL was taken'],
      ['V = 0.9 g / 0.9 g/mL = 1 mL', 'ratio = 2 / 1 = 2'],
    ],
    ['residue mass=1.9 thickener=ptfe', { volume: 1 }, ['1.9 g/mL was taken, usual for fluorinated']],
    ['residue mass=1.5 thickener=ptfe density=1.5', { volume: 1 }, []],
    ['residue mass=1.49 thickener=ptfe density=1.49', { volume: 1 }, ['1.49 g/mL is no density of a fluorinated']],
    ['residue mass=1.49 thickener=lithium density=1.49', { volume: 1 }, []],
    // 0.9 / 1.9 = 0.474, 0.9 / 0.9 = 1.
    [
      'residue mass=0.9 thickener=unknown dose=1',
      { volume: undefined, ratio: undefined, verdict: 'not known' },
      ['anything from 0.47 mL, if it is a fluorinated grease, to 1 mL'],
      ['0.9 g of a grease of unknown density: no volume'],
    ],
    ['residue mass=0.9 thickener=unknown density=0.9', { volume: 1 }, []],
    ['residue measured=1 thickener=unknown', { volume: 1 }, []],
  ]);
  refuses([
    ['residue dose=1', 'length', 'The length is missing'],
    ['residue length=12', 'width', 'The width is missing'],
    ['residue length=12 width=9', 'height', 'The height is missing'],
    ['residue mass=1 measured=1', 'length', 'one way'],
    ['residue height=1 measured=1', 'length', 'one way'],
  ]);
});

describe('A: replenishment', () => {
  // 0.005 x 80 x 18 = 7.2 g; 7.2 / 0.9 / 20 = 40 %.
  holds([
    [
      'replenishment outside=80 width=18 freeVolume=20',
      { grams: 7.2, shareOfFree: [40, 2.222, 'density'] },
      ['it would fill 40 % of it; for that', 'open, vented'],
      ['G = 0.005 x 80 x 18 = 7.2 g', '7.2 g / 0.9 g/mL / 20 mL = 40 % of the free volume'],
    ],
    [
      'replenishment bore=79.9 outside=80 width=18',
      { grams: 7.2, shareOfFree: undefined },
      ['cleaned sealed bearing; for that', 'open, vented'],
      ['G = 0.005 x 80 x 18 = 7.2 g'],
    ],
  ]);
  refuses([['replenishment bore=80 outside=80 width=18', 'outside', 'must be larger than the bore (80 mm)']]);
});

describe('A: fill', () => {
  const mass = '0.9 g/mL was taken';
  holds([
    // The band low ends below 90 000, medium holds 500 000.
    ['fill freeVolume=10+-0.5 ndm=89999', { band: 'low', shareLow: 30, shareHigh: 50, suggested: 40 }, [mass]],
    [
      'fill freeVolume=10+-0.5 ndm=90000',
      { band: 'medium', shareLow: 20, shareHigh: 40, suggested: 30, doseLow: [2, 0.1], doseHigh: [4, 0.2] },
      [mass],
    ],
    ['fill freeVolume=10+-0.5 ndm=500000', { band: 'medium', suggested: 30 }, [mass]],
    ['fill freeVolume=10+-0.5 ndm=500001', { band: 'high', shareLow: 13, shareHigh: 30, suggested: 29 }, [mass]],
    ['fill freeVolume=10+-0.5 ndm=500001 closed=open-with-cavity', { shareHigh: 30 }, [mass]],
    // 30 - 15 x (n dm - 500 000) / 500 000: 610 000 gives 26.7, 610 100 gives 26.697, 600 100 gives 26.997.
    ['fill freeVolume=10+-0.5 ndm=610000+-100', { suggested: 26 }, [mass]],
    [
      'fill freeVolume=10+-0.5 ndm=600000+-100',
      { suggested: 26 },
      ['n dm may be 600100 mm/min: the smaller fill', mass],
    ],
    ['fill freeVolume=10+-0.5 ndm=499000+-2000', { suggested: 29 }, ['n dm may be 501000 mm/min', mass]],
    // A share that was typed.
    ['fill freeVolume=10+-0.5 ndm=300000 share=40', { share: 40, doseVolume: [4, 0.2] }, [mass]],
    ['fill freeVolume=10+-0.5 ndm=300000 share=40.1', {}, ['40.1 % is above the 20 to 40 % in use', mass]],
    [
      'fill freeVolume=10+-0.5 ndm=600000 share=40',
      {},
      ['13 to 30 % in use at this speed for a bearing whose surplus has nowhere to go: too much', mass],
    ],
    [
      'fill freeVolume=10+-0.5 ndm=600000 share=40 closed=open-with-cavity',
      {},
      ['13 to 30 % in use at this speed: too much', mass],
    ],
    ['fill freeVolume=10+-0.5 ndm=300000 share=20', {}, [mass]],
    ['fill freeVolume=10+-0.5 ndm=300000 share=19.9', {}, ['19.9 % is below the 20 to 40 % in use', mass]],
    ['fill freeVolume=10+-0.5 share=30', { band: 'not known' }, ['Without n dm', mass]],
    ['fill freeVolume=10+-0.5 share=30.1', {}, ['Without n dm', '30.1 % is too much', mass]],
    // 30 - 15 x 249/500 = 22.53 %.
    [
      'fill freeVolume=10+-0.5 ndm=749000 share=20',
      {},
      [mass],
      [
        'n dm 749000 mm/min: band high, 13 to 30 % in use, 22 % suggested: on the line from 30 % at 500000 to 15 % at 1000000, 22.5 rounded down',
        'dose = 10 mL x 20 % = 2 mL',
        'mass = 2 mL x 0.9 g/mL = 1.8 g',
      ],
    ],
    // 10 x 20 % = 2 mL, half of it 0.1; 0.1 / 1.5 = 6.67 %. Mass: half widths 5 % and 5.56 % together 7.47 %.
    [
      'fill freeVolume=10+-0.5 ndm=600000 share=20 leftBehind=0.5',
      { doseVolume: [2, 0.1, 'freeVolume'], due: [1.5, 0.1], doubt: 6.667, doubtKnown: true, doseMass: [1.8, 0.1345] },
      [mass],
      [
        'n dm 600000 mm/min: band high, 13 to 30 % in use, 27 % suggested: on the line from 30 % at 500000 to 15 % at 1000000',
        'dose = 10 mL x 20 % = 2 mL',
        'less 0.5 mL that stays behind = 1.5 mL, half width 6.7 %',
        'mass = 2 mL x 0.9 g/mL = 1.8 g',
      ],
    ],
    [
      'fill freeVolume=10 ndm=300000 share=20 leftBehind=0.5 density=1',
      { doubt: undefined, doubtKnown: false },
      ['How far this dose may be off is not known'],
      [
        'n dm 300000 mm/min: band medium, 20 to 40 % in use, 30 % suggested',
        'dose = 10 mL x 20 % = 2 mL',
        'less 0.5 mL that stays behind = 1.5 mL, half width not known',
        'mass = 2 mL x 1 g/mL = 2 g',
      ],
    ],
    // Of nothing that stays behind nothing is told.
    [
      'fill freeVolume=10+-0.5 ndm=300000 share=20',
      {},
      [mass],
      [
        'n dm 300000 mm/min: band medium, 20 to 40 % in use, 30 % suggested',
        'dose = 10 mL x 20 % = 2 mL',
        'mass = 2 mL x 0.9 g/mL = 1.8 g',
      ],
    ],
    ['fill freeVolume=10+-0.5 ndm=600000 share=20 leftBehind=1.995', { doubt: 1000 }],
    ['fill freeVolume=10+-0.5 ndm=600000 share=20 leftBehind=2', { due: [0, 0.05], doubt: 1000 }],
    ['fill freeVolume=10+-0.5 ndm=600000 share=20 leftBehind=3', { due: 0, doubt: 1000 }],
    // Which greases have which density.
    ['fill freeVolume=10+-0.5 ndm=300000 density=1.2', { doseMass: 3.6 }, []],
    ['fill freeVolume=10+-0.5 ndm=300000 density=1.21', {}, ['1.21 g/mL is the density of a PFPE grease']],
    ['fill freeVolume=10+-0.5 ndm=300000 density=1.5 pfpe=yes', {}, []],
    ['fill freeVolume=10+-0.5 ndm=300000 density=1.49 pfpe=yes', {}, ['1.49 g/mL is no density of a PFPE']],
    ['fill freeVolume=10+-0.5 ndm=300000 pfpe=yes', { doseMass: 5.7 }, ['1.9 g/mL was taken']],
    // Free volumes of two ends.
    ['fill freeVolume=10+-0.5 ndm=300000 basis=measured', { sameBasis: 'not known' }, [mass]],
    ['fill freeVolume=10+-0.5 ndm=300000 otherBasis=measured', { sameBasis: 'not known' }, [mass]],
    ['fill freeVolume=10+-0.5 ndm=300000 basis=unknown otherBasis=measured', { sameBasis: 'not known' }, [mass]],
    ['fill freeVolume=10+-0.5 ndm=300000 basis=unknown otherBasis=unknown', { sameBasis: 'not known' }, [mass]],
    ['fill freeVolume=10+-0.5 ndm=300000 basis=drawing otherBasis=drawing', { sameBasis: 'yes' }, [mass]],
  ]);
  refuses([['fill freeVolume=10', 'ndm', 'The speed factor n dm is missing']]);

  const named = (line: string): string => {
    const all = calc(`fill freeVolume=10 ${line}`).sources;
    const who = [
      'Range of',
      'High speed',
      'tip sheet',
      'NTN',
      'Trade article',
      'Bud',
      'spindle',
      'PFPE',
      'mineral, PAO',
    ];
    return who.flatMap((name) => all.filter((source) => source.includes(name)).map(() => name)).join();
  };
  // Rows of fill-sources by their own limits, and the density's where it was not typed.
  it.each([
    ['ndm=89999 density=0.9', 'Range of,NTN,Bud'],
    ['ndm=89999 density=0.9 closed=open-with-cavity', 'Range of,tip sheet,NTN,Bud'],
    ['ndm=90000 density=0.9 closed=open-with-cavity', 'Range of,tip sheet,tip sheet,NTN,Bud'],
    ['ndm=500000 density=0.9', 'Range of,NTN,Trade article,Bud,spindle'],
    ['ndm=500001 density=0.9', 'High speed,Trade article,Bud,spindle'],
    ['ndm=89999', 'Range of,NTN,Bud,mineral, PAO'],
    ['ndm=89999 pfpe=yes', 'Range of,NTN,Bud,PFPE'],
  ])('names what %s rests on', (line, who) => {
    expect(named(line)).toBe(who);
  });
});

describe('A: syringe', () => {
  // Bore 20: 314.16 mm2, so 1 mL is 3.1831 mm. Two marks, each +- r: r x 1.4142.
  const box = 'bore=20+-0 capacity=5';
  holds([
    [
      `syringe ${box} doses=1,1,0.5 loss=0.5 ruler=0.1`,
      { travelPerMl: 3.1831, filling: 3, prime: 1.5915, doseWidth: 8.9 },
      ['shortest travel is only 1.6 mm'],
      [
        '1 mL = 1000 / (pi/4 x 20^2) = 3.183 mm of travel',
        'press 1.592 mm first, until grease shows at the tip; marks run from there',
        'dose 1: 1 mL = 3.183 mm, mark at 3.183 mm',
        'dose 2: 1 mL = 3.183 mm, mark at 6.366 mm',
        'dose 3: 0.5 mL = 1.592 mm, mark at 7.958 mm',
      ],
    ],
    [
      `syringe ${box} doses=1 ruler=0.1`,
      { prime: 0 },
      [],
      ['1 mL = 1000 / (pi/4 x 20^2) = 3.183 mm of travel', 'dose 1: 1 mL = 3.183 mm, mark at 3.183 mm'],
    ],
    // 0.9425 mL is a travel of 3.000 mm.
    [`syringe ${box} doses=0.943 ruler=0.1`, {}, []],
    [`syringe ${box} doses=0.942 ruler=0.1`, {}, ['shortest travel is only 3 mm']],
    // 1.4142 r / 3.1831: 0.34 mm is 15.1 %, shown and held as 15; 0.35 mm is 15.55 %.
    [`syringe ${box} doses=1 ruler=0.34`, { doseWidth: 15 }, []],
    [`syringe ${box} doses=1 ruler=0.35`, { doseWidth: 16 }, ['may be off by 16 %']],
    ['syringe bore=20 doses=1 ruler=0.1 capacity=1', {}, ['No half width was given for the bore']],
    ['syringe bore=20+-0.1 doses=1 ruler=0.1', {}, ['Whether the filling fits']],
  ]);
  refuses([
    ['syringe bore=20 doses=1;1 capacity=1.99', 'capacity', "2 mL is more than the barrel's 1.99 mL"],
    [`syringe bore=20 doses=${Array(13).fill('1ml').join()}`, 'doses', 'At most 12'],
  ]);
  it('takes 12 doses', () => {
    expect(list(`syringe bore=20 doses=${Array(12).fill('1ml').join()}`, 'marks').at(-1)).toBeCloseTo(38.197, 3);
  });
  const widths = (line: string, key: string): string => {
    const found = calc(`syringe ${line}`).results[key];
    const half = ((found?.plusMinus ?? []) as unknown as number[]).map((each) => each.toFixed(3)).join();
    return `${half} ${found?.dominant}`;
  };
  it('counts bore, ruler and doses, and names what counts most', () => {
    // 0.5 mm at each mark unless stated; a calliper's 0.1 mm unless stated: 2 x 0.1 / 20 of 3.1831 mm.
    expect(widths('bore=20+-0 doses=1;2', 'travel')).toBe('0.707,0.707 ruler');
    expect(widths('bore=20 doses=1 ruler=0', 'travel')).toBe('0.032 bore');
    expect(widths('bore=20 doses=1 ruler=0', 'delivered')).toBe('0.010 bore');
    expect(widths('bore=20+-0 doses=1 ruler=0.1', 'delivered')).toBe('0.044 ruler');
    // A dose +- 0.1 mL is 0.3183 mm; two of them at the second mark 0.4502 mm.
    expect(widths('bore=20+-0 doses=1+-0.1ml,1+-0.1ml ruler=0', 'marks')).toBe('0.318,0.450 doses');
    expect(widths('bore=20+-0 doses=1+-0.1ml,1+-0.1ml ruler=0.1', 'marks')).toBe('0.348,0.472 doses');
  });
});
