/** Limits of the first inspection and of a look at a running bearing. All figures by hand (A), the arithmetic beside them. */
import { describe, expect, it } from 'vitest';
import { changed, holds, refuses } from './limits.js';
import { calc, refusal } from './support.js';

describe('CP: inspection', () => {
  // 8128 h x 0.25 = 2032 -> 2000; halved for each doubt: 1016 -> 1000, 508 -> 500, 254 -> 250, 127 -> 120.
  const at = 'inspection type=general speedRatio=0.5 temp=70';
  const two = ['factor of two or three', 'Look sooner'];
  holds([
    [
      `${at} hoursPerDay=8 from=2026-03-02`,
      {
        hours: 2000,
        earlier: 800,
        later: 4000,
        firstLook: 100,
        days: 250,
        // 250 days after the second of March: 29 + 30 + 31 + 30 + 31 + 31 + 30 + 31 = 243 to the end of October, 7 more.
        date: '2026-11-07',
        firstDate: '2026-03-14',
        worth: 'yes',
        life: 8128.3,
      },
      two,
      [
        'x = 0.5, T = 70 °C: t = 8128 h (general)',
        '8128 h x 0.25 = 2032 h, rounded down to 2000 h',
        '2000 h / 8 h a day = 250 days',
        'a life within a factor of 2.5: 800 to 4000 h',
      ],
    ],
    [
      `${at} hoursPerDay=8 doubts=water-inside`,
      {
        hours: 1000,
        firstLook: 50,
        later: 2500,
        earlier: 400,
        date: undefined,
        why: 'a quarter of 8128 h, the life of a factory-filled bearing at this speed and heat, halved once, since water or coolant was inside, rounded down',
      },
      two,
      [
        'x = 0.5, T = 70 °C: t = 8128 h (general)',
        '8128 h x 0.125 (water or coolant was inside) = 1016 h, rounded down to 1000 h',
        '1000 h / 8 h a day = 125 days',
        'a life within a factor of 2.5: 400 to 2500 h',
      ],
    ],
    [
      `${at} doubts=seal-left-in,seal-left-in,none,cause-unknown`,
      {
        hours: 500,
        why: 'a quarter of 8128 h, the life of a factory-filled bearing at this speed and heat, halved 2 times, since a seal was left in, the cause is not known, rounded down',
      },
      ['factor of two or three', '24 hours of running', 'Look sooner'],
    ],
    // 22 387 x 0.25 = 5597, cut to 4000. At 24 h a day 166.7 days, down to 166: the days of the date.
    [
      'inspection type=general speedRatio=0.25 temp=70 from=2026-03-02',
      {
        hours: 4000,
        later: 4000,
        days: 166,
        date: '2026-08-15',
        firstDate: '2026-03-06',
        why: 'a quarter of 22387 h, the life of a factory-filled bearing at this speed and heat, cut to 4000 h, rounded down',
      },
      ['factor of two or three', '24 hours of running', 'Look sooner'],
      [
        'x = 0.25, T = 70 °C: t = 22387 h (general)',
        '22387 h x 0.25 = 5597 h, cut to 4000 h, rounded down to 4000 h',
        '4000 h / 24 h a day = 166.7 days',
        'a life within a factor of 2.5: 1600 to 4000 h',
      ],
    ],
    // A time of the day behind it changes nothing.
    [
      'inspection type=general speedRatio=0.25 temp=70 from=2026-03-02T23:59',
      { date: '2026-08-15', firstDate: '2026-03-06' },
    ],
    // General, 1.0 and 110: 6.54 - 2.6 - 0.013 x 110 = 2.51 -> 323.6 h; x 0.25 = 80.9 -> 80; one doubt 40, two 20, three 10, four 5.
    ['inspection type=general speedRatio=1 temp=110 hoursPerDay=24', { hours: 80, worth: 'yes', firstLook: 80 }, two],
    [
      'inspection type=general speedRatio=1 temp=110 hoursPerDay=24 doubts=water-inside',
      { hours: 40, worth: 'barely', firstLook: 40 },
      ['40 h of running is little', ...two],
    ],
    [
      'inspection type=general speedRatio=1 temp=110 hoursPerDay=24 doubts=water-inside,seal-left-in,cause-unknown',
      { hours: 10, worth: 'barely' },
      ['10 h of running is little', ...two],
    ],
    [
      'inspection type=general speedRatio=1 temp=110 hoursPerDay=24 doubts=water-inside,seal-left-in,cause-unknown,looked-late',
      { hours: 5, worth: 'no', days: 0.2 },
      ['5 h of running is less than a shift', ...two],
    ],
  ]);
  refuses([
    [`${at} from=2026-02-30`, 'from', '"2026-02-30" is no day'],
    [`${at} from=x2026-03-02`, 'from', 'is no day'],
    [`${at} from=2026-3-2`, 'from', 'is no day'],
    [`${at} from=${'1'.repeat(25)}`, 'from', `"${'1'.repeat(20)}" is no day`],
  ]);
});
describe('CP: inspection-verdict, each limit of look-rules', () => {
  const base: Record<string, string> = {
    temp: '50',
    room: '20',
    baseTemp: '50',
    baseRoom: '20',
    twinTemp: '50',
    twinBase: '50',
    speed: '3000',
    baseSpeed: '3000',
    load: '50',
    baseLoad: '50',
    level: '1',
    baseLevel: '1',
    lost: '0',
    dose: '10',
    inGrease: 'nothing',
    sound: 'smooth',
    trip: 'no',
    hours: '100',
    due: '100',
  };
  const line = (change: string): string => changed('inspection-verdict', base, change);
  const rows: [change: string, verdict: string, why: string[], more?: Record<string, unknown>][] = [
    [
      '',
      'run on',
      ['nothing was found'],
      { comparable: 'yes', rise: 0, twin: 0, lostShare: 0, lateness: 1, unknown: [] },
    ],
    ['temp=54.9', 'run on', ['nothing was found'], { rise: 4.9 }],
    ['temp=55', 'watch', ['5 K warmer than its own base (watch from 5, open from 15)'], { rise: 5, twin: 5 }],
    ['temp=64.9 twinTemp=64.9', 'watch', ['14.9 K warmer than its own base (watch from 5, open from 15)']],
    ['temp=65 twinTemp=65', 'open', ['15 K warmer than its own base (watch from 5, open from 15)']],
    // The room is 5 K warmer and so may the ring be; 10 K above that are 5 K of rise.
    [
      'temp=60 twinTemp=60 room=25',
      'watch',
      ['5 K warmer than its own base (watch from 5, open from 15)'],
      { rise: 5 },
    ],
    ['baseTemp=55 baseRoom=25 twinBase=55', 'run on', ['nothing was found'], { rise: 0, twin: 0 }],
    ['twinTemp=42.1', 'run on', ['nothing was found'], { twin: 7.9 }],
    [
      'twinTemp=42',
      'watch',
      ['8 K warmer than the other bearing, beyond what it was (watch from 8, open from 15)'],
      { twin: 8 },
    ],
    [
      'twinTemp=35.1',
      'watch',
      ['14.9 K warmer than the other bearing, beyond what it was (watch from 8, open from 15)'],
    ],
    ['twinTemp=35', 'open', ['15 K warmer than the other bearing, beyond what it was (watch from 8, open from 15)']],
    // 10 K warmer than the other then, 10 K now.
    ['twinTemp=40 twinBase=40', 'run on', ['nothing was found'], { twin: 0 }],
    ['twinTemp=42 twinBase=', 'watch', [], { twin: 8 }],
    ['twinTemp=', 'run on', ['nothing was found'], { twin: undefined }],
    ['level=1.99', 'run on', ['nothing was found']],
    ['level=2', 'watch', ['2 times its own level (watch from 2, open from 4)']],
    ['level=3.99', 'watch', ['3.99 times its own level (watch from 2, open from 4)']],
    ['level=4', 'open', ['4 times its own level (watch from 2, open from 4)']],
    ['level=9 baseLevel=0', 'run on', ['nothing was found']],
    ['level=9 baseLevel=', 'run on', ['nothing was found']],
    ['lost=0.99', 'run on', ['nothing was found'], { lostShare: 9.9 }],
    ['lost=1', 'watch', ['10 % of the dose came out (watch from 10, open from 33.3)'], { lostShare: 10 }],
    ['lost=3.32', 'watch', ['33.2 % of the dose came out (watch from 10, open from 33.3)']],
    ['lost=3.34', 'open', ['33.4 % of the dose came out (watch from 10, open from 33.3)']],
    ['dose=', 'run on', ['nothing was found'], { lostShare: undefined }],
    ['hours=200', 'run on', ['nothing was found'], { lateness: 2 }],
    ['hours=201', 'watch', ['2 times the hours that were due'], { lateness: 2.01 }],
    ['due=', 'run on', ['nothing was found'], { lateness: undefined }],
    ['trip=not-explained', 'open', ['the protection tripped and nobody knows why']],
    ['trip=explained', 'watch', ['the protection tripped, explained: write down by what']],
    ['trip=', 'watch', ['not known: whether the protection tripped'], { unknown: ['whether the protection tripped'] }],
    ['sound=tick', 'open', ['it sounds: tick']],
    ['sound=rumble', 'open', ['it sounds: rumble']],
    ['sound=grinding', 'open', ['it sounds: grinding']],
    ['sound=hiss', 'watch', ['it hisses: a dry film or a rubbing lip']],
    ['sound=not-heard', 'watch', ['not known: its sound'], { unknown: ['its sound'] }],
    ['inGrease=grains', 'open', ['grains in the grease']],
    ['inGrease=water', 'open', ['water in the grease']],
    ['inGrease=oil-running', 'open', ['oil runs out: the grease has come apart']],
    ['inGrease=grains,water sound=tick', 'open', ['grains in the grease', 'water in the grease', 'it sounds: tick']],
    ['inGrease=', 'run on', ['nothing was found']],
    // Speed and load within 80 to 125 % of the base's.
    ['speed=2400', 'run on', ['nothing was found'], { comparable: 'yes' }],
    ['speed=3750', 'run on', ['nothing was found'], { comparable: 'yes' }],
    ['load=40', 'run on', ['nothing was found'], { comparable: 'yes' }],
    ['load=62.5', 'run on', ['nothing was found'], { comparable: 'yes' }],
    [
      'speed=2399',
      'watch',
      ['not known: the rise, since it turns at 2399 rpm and did at 3000 rpm'],
      { comparable: 'no', unknown: ['the rise, since it turns at 2399 rpm and did at 3000 rpm'] },
    ],
    ['speed=3751', 'watch', ['not known: the rise, since it turns at 3751 rpm and did at 3000 rpm']],
    ['load=39.9', 'watch', ['not known: the rise, since it carries 39.9 % and did carry 50 %'], { comparable: 'no' }],
    ['load=62.6', 'watch', ['not known: the rise, since it carries 62.6 % and did carry 50 %']],
    ...['speed', 'baseSpeed', 'load', 'baseLoad'].map((key): [string, string, string[], Record<string, unknown>] => [
      `${key}=`,
      'watch',
      ['not known: the rise, since speed or load, now or then, is not known'],
      { comparable: 'not known' },
    ]),
    ...['room', 'baseTemp', 'baseRoom'].map((key): [string, string, string[], Record<string, unknown>] => [
      `${key}=`,
      'watch',
      ['not known: the rise against its own base'],
      { rise: undefined, comparable: 'yes' },
    ]),
    ['temp=20 twinTemp=20', 'run on', ['nothing was found'], { rise: -30 }],
    [
      'temp=19 twinTemp=19',
      'watch',
      [
        'the ring reads colder than the room: the sensor is off, put it right and read again',
        'not known: the rise against its own base',
      ],
      { rise: undefined },
    ],
  ];
  it.each(rows)('%s: %s', (change, verdict, why, more = {}) => {
    const { results } = calc(line(change));
    expect(results.verdict?.value).toBe(verdict);
    if (why.length > 0) expect(results.why?.value).toEqual(why);
    for (const [key, expected] of Object.entries(more))
      if (typeof expected === 'number') expect(results[key]?.value, key).toBeCloseTo(expected, 6);
      else expect(results[key]?.value, key).toEqual(expected);
  });
  it('says which rules are its own, and which judged', () => {
    const own = (change: string): string[] => [...calc(line(change)).warnings];
    const [twin, level, lost] = [
      "warmer than the other bearing, beyond what it was: this guide's own rule.",
      "vibration or sound level against its own base: this guide's own rule.",
      "grease that came out, of the dose: this guide's own rule.",
    ];
    expect(own('')).toEqual([twin, level, lost]);
    expect(own('hours=201')).toEqual([
      twin,
      level,
      lost,
      "hours run against those that were due: this guide's own rule.",
    ]);
    expect(own('twinTemp= level= lost=')).toEqual([]);
    expect(own('speed=2399 twinTemp= level= lost=')).toEqual([
      'Its warmth is not comparable: it turns at 2399 rpm and did at 3000 rpm.',
    ]);
    const { worked, sources } = calc(line('hours=201')) as unknown as Record<'worked' | 'sources', string[]>;
    expect(worked).toEqual([
      'run on: 0 K warmer than its own base (watch from 5, open from 15)',
      'run on: 0 K warmer than the other bearing, beyond what it was (watch from 8, open from 15)',
      'run on: 1 times its own level (watch from 2, open from 4)',
      'run on: 0 % of the dose came out (watch from 10, open from 33.3)',
      'watch: 2 times the hours that were due',
    ]);
    expect(sources).toHaveLength(5);
  });
  it('takes no "nothing" beside a find', () => {
    expect(refusal(line('inGrease=nothing,water'))).toContain("can't stand beside");
  });
});
