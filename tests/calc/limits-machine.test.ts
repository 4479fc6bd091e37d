/** Limits around the machine and the open bearing. All figures by hand (A), the arithmetic beside them. */
import { describe, expect, it } from 'vitest';
import { holds, refuses } from './limits.js';
import { calc } from './support.js';

describe('A: frequencies', () => {
  // g = 10 / 50 = 0.2: 8 x 0.8 / 2 = 3.2, 8 x 1.2 / 2 = 4.8, 50 x 0.96 / 20 = 2.4, 0.8 / 2 = 0.4; 6000 rpm are 100 Hz.
  holds([
    [
      'frequencies balls=8 ball=10 pitch=50 speed=6000+-60',
      { outer: [320, 3.2, 'speed'], inner: 480, ballSpin: 240, cage: 40, outerOrder: 3.2, cageOrder: 0.4 },
      ['1 to 3 % lower or higher', 'once a turn'],
      [
        'g = 10 x cos 0° / 50 = 0.2',
        'shaft = 6000 / 60 = 100 Hz',
        'outer raceway: 3.2 x 100 Hz',
        'inner raceway: 4.8 x 100 Hz',
        'ball spin: 2.4 x 100 Hz',
        'cage: 0.4 x 100 Hz',
      ],
    ],
    // 9.525 x 0.965926 / 59.7 = 0.154112.
    [
      'frequencies balls=13 ball=9.525 pitch=59.7 angle=15 speed=60',
      { outer: 5.49828, inner: 7.50172, ballSpin: 3.05943, cage: 0.42294 },
      ['1 to 3 % lower or higher', 'once a turn'],
      [
        'g = 9.525 x cos 15° / 59.7 = 0.1541',
        'shaft = 60 / 60 = 1 Hz',
        'outer raceway: 5.49828 x 1 Hz',
        'inner raceway: 7.50172 x 1 Hz',
        'ball spin: 3.05943 x 1 Hz',
        'cage: 0.422944 x 1 Hz',
      ],
    ],
    // pi x 60 / 39.9 = 4.7 balls; pi x 50 / 10 = 15.7 balls.
    ['frequencies balls=4 ball=39.9 pitch=60 speed=60', { cage: 0.1675 }],
    ['frequencies balls=15 ball=10 pitch=50 speed=60', { outer: 6 }],
  ]);
  refuses([
    ['frequencies balls=3 ball=40 pitch=60 speed=60', 'ball', 'well below the pitch diameter of 60 mm, not 40 mm'],
    ['frequencies balls=5 ball=39.9 pitch=60 speed=60', 'balls', 'At most 4 balls of 39.9 mm'],
    ['frequencies balls=16 ball=10 pitch=50 speed=60', 'balls', 'At most 15 balls'],
  ]);
});

describe('M, IEEE 43 from memory: insulation', () => {
  const start = 'insulation temp=40 winding=random-wound ratedVolts=400';
  const two = ['Locked out', 'Two readings'];
  holds([
    [
      `${start} reading=5MΩ`,
      {
        verdict: 'dry enough',
        at40: 5e6,
        least: 5e6,
        index: undefined,
        testVolts: 500,
        why: '5 MΩ at 40 °C, at least 5 MΩ',
      },
      two,
      ['R40 = 5 x 0.5^((40 - 40) / 10) = 5 MΩ', 'least = 5 MΩ'],
    ],
    [`${start} reading=4.99MΩ`, { verdict: 'dry it first', why: '4.99 MΩ at 40 °C is below 5 MΩ: wet or dirty' }, two],
    [`${start} reading=0MΩ tenMinutes=0MΩ`, { verdict: 'dry it first', index: undefined }],
    [
      `${start} reading=5.5+-0.6MΩ`,
      {
        verdict: 'ask the maker',
        why: '5.5 MΩ at 40 °C may lie below 5 MΩ within its uncertainty',
        at40: [5.5e6, 6e5],
      },
    ],
    [`${start} reading=5.5+-0.5MΩ`, { verdict: 'dry enough' }],
    [
      `${start} reading=50MΩ dewPossible=yes`,
      { verdict: 'dry it first', why: 'dew may lie on the winding: warm it above the dew point and measure again' },
    ],
    // Ten minutes over one: 2 is enough, above 5000 MΩ it does not count.
    [`${start} reading=5MΩ tenMinutes=10MΩ`, { verdict: 'dry enough', index: 2 }],
    [
      `${start} reading=5MΩ tenMinutes=9.9MΩ`,
      { verdict: 'ask the maker', index: 1.98, why: 'the index 2 is below 2: damp or dirt on the surface' },
    ],
    [`${start} reading=5000MΩ tenMinutes=5000MΩ`, { verdict: 'ask the maker', index: 1 }],
    [`${start} reading=5001MΩ tenMinutes=5001MΩ`, { verdict: 'dry enough', index: 1 }],
    [`${start} reading=10MΩ tenMinutes=1MΩ`, { index: 0.1 }],
    // The higher of the maker's and the usual one.
    [
      `${start} reading=9.9MΩ makers=10MΩ`,
      { verdict: 'dry it first', least: 1e7 },
      two,
      ['R40 = 9.9 x 0.5^((40 - 40) / 10) = 9.9 MΩ', 'least = 5 MΩ, maker 10 MΩ'],
    ],
    [`${start} reading=4.9MΩ makers=1MΩ`, { verdict: 'dry it first', least: 5e6 }],
    // It halves for each 10 K.
    ['insulation temp=50 winding=random-wound ratedVolts=400 reading=10MΩ', { at40: 2e7 }, two],
    ['insulation temp=10 winding=random-wound ratedVolts=400 reading=80MΩ', { at40: 1e7 }, two],
    ['insulation temp=9.9 winding=random-wound ratedVolts=400 reading=80MΩ', {}, [...two, '9.9 °C is far from 40 °C']],
    ['insulation temp=70 winding=random-wound ratedVolts=400 reading=80MΩ', {}, two],
    ['insulation temp=70.1 winding=random-wound ratedVolts=400 reading=80MΩ', {}, [...two, 'is far from 40 °C']],
    // Least values and test voltages by the rated voltage.
    ['insulation temp=40 winding=before-1970 ratedVolts=400 reading=80MΩ', { least: 1.4e6 }, two],
    ['insulation temp=40 winding=form-wound ratedVolts=999 reading=80MΩ', { least: 5e6, testVolts: 500 }, two],
    ['insulation temp=40 winding=form-wound ratedVolts=1000 reading=80MΩ', { least: 1e8, testVolts: 1000 }, two],
    ['insulation temp=40 winding=random-wound ratedVolts=1000 reading=80MΩ', { least: 5e6 }, two],
    ['insulation temp=40 ratedVolts=999 reading=80MΩ', { least: 5e6 }, two],
    ['insulation temp=40 ratedVolts=1000 reading=80MΩ', { least: 1e8 }, [...two, 'kind of winding is not known']],
    ['insulation temp=40 winding=form-wound ratedVolts=2500 reading=80MΩ', { testVolts: 1000 }],
    ['insulation temp=40 winding=form-wound ratedVolts=2501 reading=80MΩ', { testVolts: 2500 }],
    ['insulation temp=40 winding=form-wound ratedVolts=5000 reading=80MΩ', { testVolts: 2500 }],
    ['insulation temp=40 winding=form-wound ratedVolts=5001 reading=80MΩ', { testVolts: 5000 }],
  ]);
  refuses([
    [`${start} reading=10MΩ tenMinutes=0.99MΩ`, 'tenMinutes', '0.99 MΩ after ten minutes against 10 after one'],
  ]);
});

describe('CP: bare-steel', () => {
  const tip = 'Cannot pack in time?';
  const again = [
    'Look at the raceways under the lamp for rust and prints',
    'Smell for solvent',
    'Do the white cloth again',
  ];
  holds([
    [
      'bare-steel hours=1 kept=uncovered',
      {
        verdict: 'pack now',
        allowed: 1,
        left: 0,
        steps: ['Pack it now'],
        dew: 'not known',
        dewPoint: undefined,
        damp: false,
      },
      [tip],
      ['uncovered: 1 h; it lay 1 h'],
    ],
    [
      'bare-steel hours=1.01 kept=uncovered',
      { verdict: 'look again', left: 0, steps: again },
      ['It lay 1.01 h, and 1 h is what', tip],
    ],
    ['bare-steel hours=1', { verdict: 'pack now', allowed: 1 }, ['How it lay is not known', tip]],
    ['bare-steel hours=4 kept=covered', { verdict: 'pack now', allowed: 4 }, [tip]],
    ['bare-steel hours=4.1 kept=covered', { verdict: 'look again' }],
    [
      'bare-steel hours=1.1 kept=covered coolant=yes',
      { verdict: 'look again', allowed: 1 },
      ['It lay 1.1 h', tip],
      ['covered, coolant was inside: 1 h; it lay 1.1 h'],
    ],
    ['bare-steel hours=24 kept=covered', { verdict: 'look again', steps: again }],
    ['bare-steel hours=24.1 kept=covered', { verdict: 'wash again', steps: [...again, 'Wash and dry it before that'] }],
    [
      'bare-steel hours=72 kept=film',
      {
        verdict: 'pack now',
        allowed: 72,
        steps: ['Wipe the film off the raceways as far as the new grease wants it', 'Pack it now'],
      },
    ],
    ['bare-steel hours=72.1 kept=film', { verdict: 'look again', steps: again }],
    ['bare-steel hours=336 kept=film-and-bag', { verdict: 'pack now', allowed: 336 }],
    ['bare-steel hours=337 kept=film-and-bag', { verdict: 'look again' }],
    ['bare-steel hours=1 kept=covered humidity=60', { allowed: 4, left: 3, damp: false }],
    [
      'bare-steel hours=0.5 kept=covered humidity=61',
      { allowed: 2, left: 1.5, damp: true },
      [tip],
      ['covered: 4 h, halved in damp air; it lay 0.5 h'],
    ],
    // Magnus, 20 C and 50 %: g = -0.693147 + 1.339313 = 0.646166; 243.12 g / (17.62 - g) = 9.255 C; with 3 K 12.255 C.
    [
      'bare-steel hours=1 kept=covered air=20 humidity=50 ring=12.25',
      {
        dew: 'yes',
        dewPoint: 9.255,
        steps: ['Warm the ring to the room, above the dew point, then wipe it dry', 'Pack it now'],
      },
      ['do not close it cold', tip],
      ['covered: 4 h; it lay 1 h', 'dew point of 20 °C at 50 % = 9.26 °C'],
    ],
    ['bare-steel hours=1 kept=covered air=20 humidity=50 ring=12.26', { dew: 'no', steps: ['Pack it now'] }, [tip]],
    ['bare-steel hours=1 kept=covered air=20 humidity=50', { dew: 'not known', dewPoint: 9.255 }],
    ['bare-steel hours=1 kept=covered air=20 ring=1', { dew: 'not known', dewPoint: undefined }],
    ['bare-steel hours=1 kept=covered air=20 humidity=100', { dewPoint: 20 }],
    ['bare-steel hours=1 kept=covered air=20 humidity=99+-4', { dewPoint: [19.84, 0.413] }],
  ]);
});

describe('CP: save-or-scrap', () => {
  const on = (more: string): string => `save-or-scrap ${more}`;
  holds([
    [
      on('pairPrice=200 jobCost=199 findings=none'),
      { verdict: 'save', findings: [], costRatio: 0.995, decided: 'nothing found, and the job costs less than a pair' },
      [],
      ['findings none; job 199 against pair 200 -> save'],
    ],
    [
      on('pairPrice=200 jobCost=200 findings=none'),
      { verdict: 'unclear', decided: 'the job (200) costs no less than a proven pair (200)' },
      [],
    ],
    [on('pairPrice=200 jobCost=200 findings=none spare=doubtful'), { verdict: 'unclear' }, ['counterfeit']],
    [on('pairPrice=200 jobCost=199 findings=none spare=doubtful'), { verdict: 'save' }, []],
    [
      on('pairPrice=200 jobCost=200 findings=none spare=none'),
      { verdict: 'save', decided: 'nothing found, and no other bearing is to be had' },
      [],
    ],
    [
      on('pairPrice=0 jobCost=200 findings=none'),
      { verdict: 'unclear', costRatio: undefined, decided: 'nothing found, price not known' },
      ['Without the price'],
    ],
    [on('pairPrice=0 jobCost=200 findings=none spare=none'), { verdict: 'save' }, []],
    [on('pairPrice=200 jobCost=100 findings=play,play'), { verdict: 'unclear', findings: ['play'] }, []],
    [on('pairPrice=200 jobCost=300 findings=play'), { verdict: 'unclear', findings: ['play', 'job-cost'] }, []],
    [on('pairPrice=200 jobCost=300 findings=pitting,play'), { verdict: 'scrap', findings: ['pitting'] }, []],
    [on('pairPrice=200 jobCost=100 findings=pitting puller=no'), { verdict: 'scrap' }, ['No puller can act']],
    [on('pairPrice=200 jobCost=100 findings=pitting puller=yes spare=proven'), { verdict: 'scrap' }, []],
    [on('pairPrice=200 jobCost=100 findings=play puller=no spare=none'), { verdict: 'unclear' }, []],
    [on('pairPrice=200 jobCost=100 findings=pitting spare=none'), { verdict: 'scrap' }, ['No proven spare']],
    [on('pairPrice=200 jobCost=100 findings=pitting spare=doubtful'), { verdict: 'scrap' }, ['No proven spare']],
  ]);
  refuses([[on('pairPrice=200 jobCost=100 findings=none,play'), 'findings', "can't stand beside"]]);
});

describe('CP: cause, by the sums of cause-signs', () => {
  const proves = 'weighs what was found';
  holds([
    [
      'cause findings=coolant',
      {
        first: 'leak',
        certain: 'clear',
        wet: 'yes',
        likely: ['Leaking shaft seal or coolant joint'],
        pro: ['Leaking shaft seal or coolant joint: coolant has no other way in'],
        contra: ['nothing found'],
      },
      [proves, 'measure the insulation'],
      ['Leaking shaft seal or coolant joint: 2 (for 1, against 0)'],
    ],
    [
      'cause findings=rust',
      {
        first: 'unknown',
        certain: 'unknown',
        label: 'Not known',
        prove: 'Wet, dirt, heat colour or current marks, inside and out',
        wet: 'no',
        likely: [],
        pro: ['Leaking shaft seal or coolant joint: rust wants water'],
      },
      ['No cause fits'],
      ['Leaking shaft seal or coolant joint: 1 (for 1, against 0)'],
    ],
    [
      'cause findings=none',
      { first: 'unknown', pro: ['nothing found'], contra: ['nothing found'] },
      ['No cause fits'],
      [],
    ],
    // Rust 1 and soft 1 make 2 of a leak; soft is 1 of a mixture.
    [
      'cause findings=rust,soft,soft',
      { first: 'leak', certain: 'clear' },
      [proves],
      ['Leaking shaft seal or coolant joint: 2 (for 2, against 0)', 'Wrong or mixed grease: 1 (for 1, against 0)'],
    ],
    [
      'cause findings=dust,water',
      { certain: 'one of several', wet: 'yes' },
      ['Several causes fit', proves, 'insulation'],
    ],
    ['cause findings=coolant,milky,dust', { first: 'leak', certain: 'clear', wet: 'yes' }],
    ['cause findings=coolant,rust,dust', { first: 'leak', certain: 'one of several' }],
    [
      'cause findings=dust,coolant,rust',
      { first: 'leak', likely: ['Leaking shaft seal or coolant joint', 'Dirt let in'] },
    ],
    ['cause findings=milky', { wet: 'yes' }],
    [
      'cause findings=coolant,gear-oil,nothing-wet,clean-feel',
      {
        first: 'leak',
        contra: ['Leaking shaft seal or coolant joint: nothing wet was found'],
      },
      [proves, 'insulation'],
      ['Leaking shaft seal or coolant joint: 2 (for 2, against 1)', 'Dirt let in: -2 (for 0, against 1)'],
    ],
  ]);
});

describe('M: seal-oil', () => {
  holds([
    ['seal-oil oil=mineral rubber=nbr', { verdict: 'ok', why: 'ok' }, [], ['nbr in mineral -> ok: ok']],
    [
      'seal-oil oil=ester rubber=nbr',
      { verdict: 'marginal', why: 'NBR swells a little in ester oil' },
      ['usual, verify with a cut'],
    ],
    ['seal-oil oil=ester-mixture rubber=nbr', { verdict: 'marginal' }],
    ['seal-oil oil=ester-mixture rubber=acm', { verdict: 'no' }, []],
    ['seal-oil oil=mineral rubber=unknown', { verdict: 'no until tested' }, ['Lay a cut of the seal']],
    ['seal-oil oil=silicone rubber=nbr', { verdict: 'no until tested' }],
  ]);
});

describe('A: measured-volume', () => {
  // 8.5 g of 0.85 g/mL are 10 mL; 100 g of steel are 12.804 mL. Two weighings +- 0.1 g: 0.1414 g.
  const wipe = 'Wipe the outside';
  holds([
    [
      'measured-volume dry=100 filled=108.5',
      { volume: [10, 0.39, 'density'], agrees: 'nothing to compare', against: undefined },
      [wipe, '0.85 g/mL was taken'],
      ['V = (108.5 - 100) g / 0.85 g/mL = 10 mL'],
    ],
    ['measured-volume dry=100 filled=110 oilDensity=1', { volume: [10, 0.1414] }, [wipe]],
    ['measured-volume dry=100+-0 filled=110+-0.5 oilDensity=1', { volume: [10, 0.5, 'filled'] }, [wipe]],
    ['measured-volume dry=100 filled=112.8 oilDensity=1', { volume: 12.8 }],
    // A tenth of the measured and a fifth of the computed: 0.728 + 2 = 2.728 holds 2.72, 0.727 + 2 = 2.727 not 2.73.
    ['measured-volume dry=100 filled=107.28 oilDensity=1 computed=10', { agrees: 'yes', against: -27.2 }, [wipe]],
    ['measured-volume dry=100 filled=107.27 oilDensity=1 computed=10', { agrees: 'no' }, [wipe, 'It is 27 % below']],
    ['measured-volume dry=100 filled=107 oilDensity=1 computed=10+-3', { agrees: 'yes' }, [wipe]],
    [
      'measured-volume dry=100 filled=106.7 oilDensity=1 computed=5',
      { agrees: 'no', against: 34 },
      [wipe, '34 % above'],
    ],
    ['measured-volume dry=100 filled=106.6 oilDensity=1 computed=5', { agrees: 'yes' }, [wipe]],
  ]);
  refuses([
    ['measured-volume dry=100 filled=100', 'filled', 'it must weigh more than dry'],
    ['measured-volume dry=100 filled=112.81 oilDensity=1', 'filled', '12.81 mL of oil is more than all the metal'],
  ]);
  it('names the row of the density only where it was taken', () => {
    const sources = (more: string) => calc(`measured-volume dry=100 filled=108.5${more}`).sources;
    expect(sources('')).toHaveLength(1);
    expect(sources('')[0]).toContain('Light mineral oils');
    expect(sources(' oilDensity=0.85')).toEqual([]);
  });
});
