/** Limits of speeds, oils, grease life and the first inspection. All figures by hand (A), the arithmetic beside them. */
import { describe } from 'vitest';
import { holds, refuses } from './limits.js';

describe('A: speed factors and limits of speed', () => {
  holds([
    // (20 + 40) / 2 x 3000 = 90 000; x 2999 = 89 970.
    ['speed-factor bore=20 outside=40 speed=2999', { ndm: 89_970, nd: 59_980, band: 'low' }, ['different numbers']],
    [
      'speed-factor bore=20 outside=40 speed=3000+-30',
      { ndm: [90_000, 900, 'speed'], nd: [60_000, 600], band: 'medium' },
      ['different numbers'],
      ['n dm = 3000 x (20 + 40) / 2 = 90000 mm/min', 'n d = 3000 x 20 = 60000 mm/min'],
    ],
    ['speed-factor bore=25 outside=25.1 speed=20000', { band: 'high' }],
    ['speed-factor bore=20 outside=80 speed=10000', { ndm: 500_000, band: 'medium' }],
    ['speed-factor bore=20 outside=80 speed=10001', { band: 'high' }],
    [
      'speed-limit open=10000 balls=ceramic seal=none',
      { low: 12_000, high: 14_000 },
      ['limit of its own'],
      ['10000 x 1.2 = 12000 rpm', '10000 x 1.4 = 14000 rpm'],
    ],
    [
      'speed-limit open=10000 balls=steel seal=contact',
      { low: 7000, high: 7200 },
      ['limit of its own', '0.70 to 0.72'],
    ],
    [
      'speed-limit open=10000 balls=ceramic seal=contact',
      { low: 7000, high: 8640 },
      ['limit of its own', '0.70 to 0.72', 'rubbing lip sets'],
    ],
    [
      'speed-limit open=10000 balls=ceramic seal=contact sealed=8000',
      { low: 8000, high: 9600 },
      ['limit of its own', 'rubbing lip sets'],
    ],
    [
      'speed-limit open=10000+-100 balls=not-proven seal=shield',
      { low: [10_000, 100, 'open'] },
      ['limit', 'not proven count'],
    ],
    ['speed-limit open=10000 balls=steel seal=gap sealed=10100+-100', { low: [10_100, 100, 'sealed'] }, ['limit']],
  ]);
  refuses([
    ['speed-factor bore=40 outside=40 speed=3000', 'outside', '(40 mm)'],
    ['speed-limit open=10000 balls=steel seal=gap sealed=10101', 'sealed', 'A seal never makes a bearing faster'],
  ]);
});

describe('A: motor-speed', () => {
  // 60 x 100 / 2 = 3000; less 3 %: 2910. 200 000 rpm is the most.
  holds([
    [
      'motor-speed frequency=100 polePairs=2',
      { speed: 3000, turns: 50 },
      ['No slip was taken'],
      ['n = 60 x 100 / 2 = 3000 rpm'],
    ],
    [
      'motor-speed frequency=100+-1 polePairs=2 slip=3',
      { speed: [2910, 29.1, 'frequency'] },
      [],
      ['n = 60 x 100 / 2 x (1 - 3 %) = 2910 rpm'],
    ],
    ['motor-speed frequency=100 polePairs=2 slip=0', { speed: 3000 }, [], ['n = 60 x 100 / 2 = 3000 rpm']],
    ['motor-speed frequency=10000 polePairs=3', { speed: 200_000 }],
  ]);
  refuses([['motor-speed frequency=3334 polePairs=1', 'frequency', 'is no motor']]);
});

describe('A: viscosity', () => {
  // 25 and 5 mm2/s: lg lg 25.7 = 0.149198, lg lg 5.7 = -0.121550, slope 3.55639 a decade of T.
  // 140 C: 0.149198 - 3.55639 x 0.120355 = -0.278832 -> 2.659. 0 C: + 3.55639 x 0.059352 = 0.360276 -> 195.3.
  holds([
    [
      'viscosity nu40=25+-1 nu100=5 temp=40',
      { nu: [25, 1, 'nu40'] },
      [],
      [
        'lg lg (nu + 0.7) = A - B lg T, through both given points',
        '25 mm2/s at 40 °C and 5 mm2/s at 100 °C give 25 mm2/s at 40 °C',
      ],
    ],
    ['viscosity nu40=25 nu100=5 temp=39', {}, ['39 °C lies 1 K outside']],
    ['viscosity nu40=25 nu100=5 temp=100', { nu: 5 }, []],
    ['viscosity nu40=25 nu100=5 temp=101', {}, ['101 °C lies 1 K outside']],
    ['viscosity nu40=25 nu100=5 temp=140', { nu: 2.659 }, ['140 °C lies 40 K outside']],
    ['viscosity nu40=25 nu100=5 temp=0', { nu: 195.3 }, ['0 °C lies 40 K outside']],
    ['viscosity nuA=5 tA=100 nuB=25 tB=40 temp=40', { nu: 25 }, []],
    ['viscosity nuA=5 tA=100 nuB=25 tB=40 temp=140', { nu: 2.659 }, ['40 K outside']],
    ['viscosity nuA=10 tA=40 nuB=9 tB=45 temp=40', { nu: 10 }],
    // What is kept from 40 to 100 C: a half and a hundredth are the ends, 0.3 is not yet doubtful.
    ['viscosity nu40=10 nu100=3 temp=40', {}, []],
    ['viscosity nu40=10 nu100=3.02 temp=40', {}, ['keep 30 %']],
    ['viscosity nu40=10 nu100=5 temp=40', {}, ['keep 50 %']],
    ['viscosity nu40=1000 nu100=10 temp=40', {}, []],
    ['viscosity nu40=8 nu100=2 temp=100', { nu: 2 }, []],
    // lg lg 50 000.7 = 0.672003, lg lg 1000.7 = 0.477165, slope 2.55928: 20 C -> 0.745360 -> 366 000; 0 C -> 4.6 million.
    ['viscosity nu40=50000 nu100=1000 temp=20', { nu: 366_100 }, ['20 K outside']],
  ]);
  refuses([
    ['viscosity nu40=25 nu100=5 temp=141', 'temp', 'from 0 to 140 °C'],
    ['viscosity nu40=25 nu100=5 temp=-1', 'temp', 'from 0 to 140 °C'],
    ['viscosity nu40=10 nu100=5.01 temp=40', 'nu100', 'keeps that much'],
    ['viscosity nu40=1000 nu100=9.99 temp=40', 'nu100', 'thins that much'],
    ['viscosity nu40=8 nu100=2 temp=101', 'temp', 'thinner than 2 mm2/s'],
    ['viscosity nu40=50000 nu100=1000 temp=0', 'temp', 'no longer flow'],
    ['viscosity nu40=5 nu100=5 temp=40', 'nu100', 'thinner at the higher'],
    ['viscosity nuA=5 tA=40 nuB=25 tB=100 temp=40', 'nuB', 'thinner at the higher'],
    ['viscosity nuA=10 tA=40 nuB=9 tB=44.9 temp=40', 'tB', 'at least 5 K apart'],
    ['viscosity nu40=25 temp=40', 'nu100', 'at 100 °C is missing: type it, such as 5 cSt'],
    ['viscosity nu100=5 temp=40', 'nu40', 'at 40 °C is missing: type it, such as 25 cSt'],
    ['viscosity temp=40', 'nu40', 'at 40 °C is missing'],
    ['viscosity nu40=25 tA=30 temp=40', 'tA', 'not both'],
    ['viscosity nu100=25 nuB=30 temp=40', 'nuB', 'not both'],
    ['viscosity nuA=25 tA=40 nuB=5 temp=40', 'tB', 'Second temperature is missing'],
    ['viscosity tB=25 temp=40', 'nuA', 'Viscosity at the first temperature is missing'],
  ]);
});

describe('A: required viscosity and kappa', () => {
  // 4500 x 1000^-0.5 x 60^-0.5 = 18.371; 45 000 x 1000^-0.83 x 60^-0.5 = 18.799.
  const step = 'step at 1000 rpm (18.8 below, 18.37 mm2/s';
  holds([
    [
      'required-viscosity speed=1000 pitch=60',
      { nu1: 18.371 },
      [step],
      ['nu1 = 4500 x 1000^-0.5 x 60^-0.5 = 18.37 mm2/s'],
    ],
    // 18.799 x (1000 / 999)^0.83 = 18.815.
    [
      'required-viscosity speed=999 pitch=60',
      { nu1: 18.815 },
      [step],
      ['nu1 = 45000 x 999^-0.83 x 60^-0.5 = 18.81 mm2/s'],
    ],
    ['required-viscosity speed=950 pitch=60', {}, [step]],
    ['required-viscosity speed=949 pitch=60', {}, []],
    ['required-viscosity speed=1050 pitch=60', {}, [step]],
    ['required-viscosity speed=1051 pitch=60', {}, []],
    ['required-viscosity speed=1200+-200 pitch=60', {}, [step]],
    ['required-viscosity speed=1200+-199 pitch=60', {}, []],
    // Half of 10 000: 4500 x 0.01 x 0.1 = 4.5; 1 % of speed is half a percent of it.
    ['required-viscosity speed=10000+-100 pitch=100', { nu1: [4.5, 0.0225, 'speed'] }, []],
  ]);
  // At 40 C the oil has its nu40 exactly; nu1 = 4.5 at 10 000 rpm and 100 mm, 9 at 2500 rpm.
  holds([
    ['viscosity-ratio nu40=4.5 nu100=2 temp=40 speed=10000 pitch=100', { kappa: 1, verdict: 'good' }],
    ['viscosity-ratio nu40=8.99 nu100=2.5 temp=40 speed=2500 pitch=100', { verdict: 'thin' }],
    ['viscosity-ratio nu40=18 nu100=4 temp=40 speed=10000 pitch=100', { kappa: 4, verdict: 'good' }, []],
    [
      'viscosity-ratio nu40=18.1 nu100=4 temp=40 speed=10000 pitch=100',
      { kappa: 4.022, verdict: 'thick' },
      ['Kappa 4.02 lies outside'],
    ],
    ['viscosity-ratio nu40=9 nu100=3.65 temp=100 speed=2500 pitch=100', { kappa: 0.40556, verdict: 'thin' }],
    ['viscosity-ratio nu40=9 nu100=3.55 temp=100 speed=2500 pitch=100', { kappa: 0.39444, verdict: 'too thin' }],
    // nu1 = 4500 x 0.01 / 5^0.5 = 20.125: 2 mm2/s is 0.0994 of it, 2.03 is 0.1009.
    [
      'viscosity-ratio nu40=8 nu100=2 temp=100 speed=10000 pitch=5',
      { kappa: 0.09938, verdict: 'too thin', kappaInner: undefined },
      ['Kappa 0.0994 lies outside'],
    ],
    ['viscosity-ratio nu40=8 nu100=2.03 temp=100 speed=10000 pitch=5', { kappa: 0.10087 }, []],
    // 5 / 4.5 = 1.111: 0.6 mm2/s are 0.133 of it, 0.4 are 0.089.
    [
      'viscosity-ratio nu40=5+-0.6 nu100=2.2 temp=40 speed=10000 pitch=100',
      { kappa: [1.1111, 0.1333, 'nu40'] },
      ['keep 44 %', 'may lie below 1', 'inner raceway'],
    ],
    [
      'viscosity-ratio nu40=5+-0.4 nu100=2.2 temp=40 speed=10000 pitch=100',
      { kappa: [1.1111, 0.0889, 'nu40'] },
      ['keep 44 %', 'inner raceway'],
    ],
    // 25 and 5 at 50 C: 0.149198 - 3.55639 x 0.013651 = 0.100650 -> 17.53; nu1 = 90 / 20.25^0.5 = 20.
    [
      'viscosity-ratio nu40=25 nu100=5 temp=40 speed=2500+-250 pitch=20.25',
      { kappa: [1.25, 0.0625, 'speed'], kappaInner: 0.8766, nu: 25, nu1: [20, 1, 'speed'] },
      ['10 K hotter than the outer ring, kappa is 0.877'],
    ],
    ['viscosity-ratio nu40=25 nu100=5 temp=40 speed=2500 pitch=100', { kappaInner: 1.948 }, []],
    ['viscosity-ratio nu40=25 nu100=5 temp=40 speed=2500 pitch=10', { kappa: 0.8784, kappaInner: 0.616 }, []],
    ['viscosity-ratio nu40=25 nu100=5 temp=135 speed=2500 pitch=100', { kappaInner: undefined }],
  ]);
});

describe('P: grades, ISO 3448 and ASTM D217', () => {
  holds([
    ['viscosity-grade nu40=28.8', { grade: 'VG 32', middle: 32 }, [], ['28.8 lies from 28.8 to 35.2 mm2/s']],
    [
      'viscosity-grade nu40=28.79',
      { grade: 'none', middle: undefined },
      ['between two grades'],
      ['28.79 lies in no grade'],
    ],
    ['viscosity-grade nu40=35.2', { grade: 'VG 32' }, []],
    ['viscosity-grade nu40=35.21', { grade: 'none' }, ['between two grades']],
    ['consistency penetration=265', { grade: '2' }, [], ['265 lies from 265 to 295']],
    ['consistency penetration=264', { grade: 'none' }, ['between two grades'], ['264 lies in no span']],
    ['consistency penetration=295', { grade: '2' }, []],
    ['consistency penetration=296', { grade: 'none' }, ['between two grades']],
  ]);
});

describe('A: grease-life and hot-interval', () => {
  const both = ['as it left the factory', 'an average life'];
  // General, 0.25 and 70 C: 6.54 - 0.65 - 0.022 x 70 = 4.35 -> 22 387 h. 0.5, 70: 3.91 -> 8128 h. 0.5, 110: 3.15 -> 1413 h.
  holds([
    [
      'grease-life type=general speedRatio=0.25 temp=70',
      { hours: 22_387 },
      both,
      ['x = 0.25, T = 70 °C: t = 22387 h (general)'],
    ],
    ['grease-life type=general speedRatio=0.24 temp=70', { hours: 22_387 }, ['0.25 was taken', ...both]],
    ['grease-life type=general speedRatio=0.25 temp=69', { hours: 22_387 }, ['70 °C was taken', ...both]],
    ['grease-life type=general speedRatio=0.5 temp=110', { hours: 1412.5 }, both],
    // Wide range, 0.5 and 130: 6.12 - 0.7 - 0.015 x 130 = 3.47 -> 2951 h.
    ['grease-life type=wide-range speedRatio=0.5 temp=130', { hours: 2951.2 }, both],
    ['grease-life type=wide-range speedRatio=1 temp=130', { hours: 1445.4 }, both],
    // At 0.5, 0.1 of x moves the exponent by -0.26 + 0.0012 x 70 = -0.176: half width (8128 x (1.4997 - 0.6668)) / 2.
    ['grease-life type=general speedRatio=0.5+-0.1 temp=70', { hours: [8128.3, 3385, 'speedRatio'] }, both],
  ]);
  refuses([
    ['grease-life type=general speedRatio=0.5 temp=110.1', 'temp', 'ends at 110 °C'],
    ['grease-life type=wide-range speedRatio=0.5 temp=130.1', 'temp', 'from'],
  ]);
  // 14 K above 65 C halve it; 48 months are 35 064 h; 8000 x 0.5^(45/14) = 862.05, 8000 x (2/3)^3 = 2370.4.
  const rules = 'The two rules disagree';
  holds([
    [
      'hot-interval hours=8000 temp=79',
      { plan: 4000, handbook: 4000, hours: 8000 },
      [rules],
      ['handbook: 8000 / 2^(14 / 14) = 4000 h', 'example: 8000 x (2/3)^(0 / 10) = 8000 h'],
    ],
    [
      'hot-interval hours=8000+-800 temp=65',
      { plan: [8000, 800, 'hours'], handbook: [8000, 800], hours: 8000 },
      [rules],
    ],
    ['hot-interval hours=8000 temp=90', { hours: 5333.3, plan: 2320.6 }, [rules]],
    ['hot-interval hours=8000 temp=100', {}, [rules]],
    ['hot-interval hours=8000 temp=101', {}, ['extrapolated', rules]],
    ['hot-interval hours=8000 temp=110', { handbook: 862.05, hours: 2370.4, plan: 862.05 }, ['extrapolated', rules]],
    ['hot-interval hours=35063 temp=60', { plan: 35_063 }, [rules]],
    ['hot-interval hours=35064 temp=60', { plan: 35_064 }, ['48 months at most', rules]],
    ['hot-interval hours=50000 temp=80', { handbook: 23_793, hours: 50_000, plan: 23_793 }, [rules]],
    [
      'hot-interval hours=90000 temp=60',
      { handbook: 35_064, hours: 90_000, plan: 35_064 },
      ['48 months at most', rules],
    ],
  ]);
});
