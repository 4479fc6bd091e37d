import { describe, expect, it } from 'vitest';
import { calc, off, refusal, value, word } from '../calc/support.js';

describe('M: insulation resistance by IEEE 43, from memory', () => {
  const line = (more: string) => `insulation ratedVolts=400 winding=random-wound ${more}`;
  it('5 MΩ below 1 kV and for random-wound, 100 MΩ for form-wound, kV + 1 before about 1970, at 40 C', () => {
    expect(value(line('reading=50 temp=40'), 'least')).toBe(5e6);
    expect(value('insulation ratedVolts=3300 winding=form-wound reading=500 temp=40', 'least')).toBe(100e6);
    expect(value('insulation ratedVolts=3300 winding=before-1970 reading=500 temp=40', 'least')).toBeCloseTo(4.3e6, 3);
    expect(value('insulation ratedVolts=3300 reading=500 temp=40', 'least')).toBe(100e6);
  });
  // By hand: 40 x 0.5^((40 - 20) / 10) = 10; 18 x 0.25 = 4.5; 3 x 0.5^(-1) = 6 at 50 C.
  it.each([
    [40, 20, 10, 'dry enough'],
    [18, 20, 4.5, 'dry it first'],
    [3, 50, 6, 'dry enough'],
  ])('halves for each 10 K: %s MΩ at %s C is %s at 40 C: %s', (reading, temp, at40, verdict) => {
    expect(value(line(`reading=${reading} temp=${temp}`), 'at40') / 1e6).toBeCloseTo(at40, 9);
    expect(word(line(`reading=${reading} temp=${temp}`), 'verdict')).toBe(verdict);
  });
  it('an index below 2 and a margin within the uncertainty go to the maker; dew is dried first', () => {
    expect(word(line('reading=100 temp=40 tenMinutes=150'), 'verdict')).toBe('ask the maker');
    expect(value(line('reading=100 temp=40 tenMinutes=250'), 'index')).toBe(2.5);
    expect(word(line('reading=100 temp=40 tenMinutes=250'), 'verdict')).toBe('dry enough');
    expect(word(line('reading=6000 temp=40 tenMinutes=6600'), 'verdict')).toBe('dry enough');
    expect(word(line('reading=5.5+-1 temp=40'), 'verdict')).toBe('ask the maker');
    expect(word(line('reading=500 temp=40 dewPossible=yes'), 'verdict')).toBe('dry it first');
  });
  it('a winding on ground reads nothing, and is a verdict, no refusal', () => {
    expect(word(line('reading=0 temp=25 tenMinutes=0'), 'verdict')).toBe('dry it first');
    expect(calc(line('reading=0 temp=25 tenMinutes=0')).results.index).toBeUndefined();
  });
  // IEC 60364-6, test voltages, from memory: extra-low voltage (50 V AC, 120 V DC) 250 V, up to 500 V rated 500 V.
  it('M: IEC 60364-6: no more than 250 V at an extra-low voltage', () => {
    const volts = (rated: number) => value(`insulation ratedVolts=${rated} reading=50 temp=40`, 'testVolts');
    expect([24, 48, 120, 230, 400].map(volts)).toEqual([250, 250, 250, 500, 500]);
  });
  it('M: test voltage and discharge are known from the rated voltage alone, before anything is measured', () => {
    const told = (rated: number) => {
      const of = (key: string) => value(`insulation-test ratedVolts=${rated}`, key);
      return [of('testVolts'), of('discharge')];
    };
    expect([120, 400, 999, 1000, 2501, 5001].map(told)).toEqual([
      [250, 4],
      [500, 4],
      [500, 4],
      [1000, 4],
      [2500, 4],
      [5000, 4],
    ]);
  });
  // IEEE 43, from memory: discharged to earth for at least four times the time of the test.
  it('M: IEEE 43: discharged four times as long as it was tested', () => {
    expect(value(line('reading=50 temp=40'), 'discharge')).toBe(4);
    expect(value(line('reading=100 temp=40 tenMinutes=250'), 'discharge')).toBe(40);
  });
  it('the maker’s higher figure counts, and licensed practice comes first', () => {
    expect(word(line('reading=50 temp=40 makers=100'), 'verdict')).toBe('dry it first');
    expect(word(line('reading=50 temp=40 makers=1'), 'verdict')).toBe('dry enough');
    expect(calc(line('reading=50 temp=40')).warnings.join()).toMatch(/Locked out.*licensed practice come before/);
    expect(refusal(line('reading=100 temp=40 tenMinutes=5'))).toMatch(/^tenMinutes: /);
  });
});

describe('A: frequency of a drive to speed', () => {
  it.each([
    [400, 2, 12_000],
    [233.3333, 1, 14_000],
    [50, 2, 1500],
  ])('%s Hz with %s pole pairs is %s rpm', (frequency, pairs, speed) => {
    expect(off(value(`motor-speed frequency=${frequency} polePairs=${pairs}`, 'speed'), speed)).toBeLessThan(1e-6);
  });
  it('takes slip off, refuses halves of a pole pair and what is no motor', () => {
    expect(value('motor-speed frequency=50 polePairs=2 slip=3', 'speed')).toBeCloseTo(1455, 9);
    expect(calc('motor-speed frequency=50 polePairs=2').warnings.join()).toMatch(/No slip/);
    expect(refusal('motor-speed frequency=50 polePairs=1.5')).toMatch(/^polePairs: /);
    expect(refusal('motor-speed frequency=5000 polePairs=1')).toMatch(/^frequency: /);
  });
});

describe('bare steel', () => {
  const line = (more: string) => `bare-steel ${more}`;
  it('CP: 4 h covered, 1 h open or after coolant, longer under a film, half of it in damp air', () => {
    expect(value(line('hours=1 kept=covered'), 'allowed')).toBe(4);
    expect(value(line('hours=1 kept=covered coolant=yes'), 'allowed')).toBe(1);
    expect(value(line('hours=1'), 'allowed')).toBe(1);
    expect(value(line('hours=1 kept=film'), 'allowed')).toBe(72);
    expect(value(line('hours=1 kept=film-and-bag'), 'allowed')).toBe(336);
    expect(value(line('hours=1 kept=covered humidity=60.1'), 'allowed')).toBe(2);
    expect(value(line('hours=1 kept=covered humidity=60'), 'allowed')).toBe(4);
  });
  it.each([
    ['hours=4 kept=covered', 'pack now'],
    ['hours=4.1 kept=covered', 'look again'],
    ['hours=24 kept=covered', 'look again'],
    ['hours=24.1 kept=covered', 'wash again'],
    ['hours=720 kept=unknown', 'wash again'],
    ['hours=100 kept=film', 'look again'],
    ['hours=300 kept=film-and-bag', 'pack now'],
  ])('%s: %s', (more, verdict) => expect(word(line(more), 'verdict')).toBe(verdict));
  it('over the time look, smell and cloth are all asked again', () => {
    const steps = calc(line('hours=22 kept=covered')).results.steps?.value as unknown as string[];
    expect(steps.join()).toMatch(/Look.*Smell.*white cloth again/s);
    expect(calc(line('hours=720 kept=covered')).warnings.join()).toMatch(/lay 720 h.*nothing that was proven then/);
  });
  // A table of psychrometry, from memory: 20 C at 50 % 9.3 C, 25 C at 60 % 16.7 C, 30 C at 80 % 26.2 C.
  it.each([
    [20, 50, 9.3],
    [25, 60, 16.7],
    [30, 80, 26.2],
    [20, 100, 20],
  ])('M: dew point at %s C and %s %% is %s C', (air, humidity, dew) => {
    expect(Math.abs(value(line(`hours=0 air=${air} humidity=${humidity}`), 'dewPoint') - dew)).toBeLessThan(0.1);
  });
  it('a ring that the solvent chilled is warmed first', () => {
    expect(word(line('hours=0 air=25 humidity=60 ring=12'), 'dew')).toBe('yes');
    expect(word(line('hours=0 air=25 humidity=60 ring=19'), 'dew')).toBe('yes');
    expect(word(line('hours=0 air=25 humidity=60 ring=21'), 'dew')).toBe('no');
    expect(word(line('hours=0'), 'dew')).toBe('not known');
  });
});

describe('caps of an open bearing (CP: 30 to 50 % of their room, less the faster)', () => {
  // By hand: pi/4 x (80^2 - 40^2) x 12 = 45 239 mm3; 30 % is 13.57 mL, 40 % 18.10 mL.
  const cap = 'cap-fill outside=80 shaft=40 depth=12';
  it('A: room and grease', () => {
    expect(off(value(`${cap} ndm=300000`, 'room'), 45.239)).toBeLessThan(1e-4);
    expect(off(value(`${cap} ndm=300000`, 'low'), 13.572)).toBeLessThan(1e-4);
    expect(off(value(`${cap} ndm=300000`, 'high'), 18.096)).toBeLessThan(1e-4);
    expect(off(value(`${cap} ndm=300000`, 'mass'), 12.215)).toBeLessThan(1e-4);
  });
  it('never rises with speed', () => {
    const at = (ndm: number) => [value(`${cap} ndm=${ndm}`, 'shareLow'), value(`${cap} ndm=${ndm}`, 'shareHigh')];
    expect([50_000, 89_999, 90_000, 500_000, 500_001, 1_000_001].map(at)).toEqual([
      [30, 50],
      [30, 50],
      [30, 40],
      [30, 40],
      [15, 30],
      [0, 0],
    ]);
  });
  it('refuses what can not be', () => {
    expect(refusal('cap-fill outside=40 shaft=80 depth=12 ndm=300000')).toMatch(/^shaft: /);
    expect(refusal('cap-fill outside=80 depth=12 ndm=300000')).toMatch(/^shaft: .*room of the cap is missing/);
    expect(refusal(`${cap} room=40 ndm=300000`)).toMatch(/^room: .*one way/);
  });
});

it('A: a bead as a string from the tip: 1.7 mL in 9 gaps is 94.4 mm3 a bead, 30.1 mm from a tip of 2 mm', () => {
  const line = 'bead dose=1.7ml balls=9 tip=2mm';
  expect(off(value(line, 'beadString'), 30.06)).toBeLessThan(0.001);
  expect(off(value(line, 'gapString'), 60.13)).toBeLessThan(0.001);
  expect(off(value(line, 'doseString'), 541.1)).toBeLessThan(0.001);
  // By hand: 38.5 pi / 9 - 7.9 = 5.5 mm between the balls, the bead is 5.65 mm.
  expect(calc(`${line} gap=5.5mm`).warnings.join()).toMatch(
    /5.7 mm does not go into a gap of 5.5 mm.*two or three short beads/,
  );
  expect(calc('bead dose=1.7ml balls=9').results.beadString).toBeUndefined();
});
