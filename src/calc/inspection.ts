/**
 * First inspection of a bearing regreased by hand: hours of running, days at given hours a day, and the date.
 * A quarter of the grease life of a healthy factory-filled bearing, halved for each doubt left open, 4000 h at most; rounded
 * down to two figures, never up and never to 0. Where a doubt is open, a first look comes far earlier.
 * A grease life is an average, good to a factor of two or three: the width shown is a factor of 2.5 either way.
 * Under 8 h of running the answer in words is that such a bearing should not go back.
 * The factors are this guide's caution (table inspection-rules), no published figure.
 */
import { DAY } from '../units/kinds.js';
import { defineCalculator } from './define.js';
import { greaseLifeOf, lifeAliases, lifeInputs } from './grease-life.js';
import { commonPractice, figure, oneOf, quantityInput, result, word } from './spec.js';
import { constant } from './table.js';
import { CalcRefusal } from './types.js';

/** Two figures, downwards; never up, and never 0 of what is not 0. */
export function roundDown(value: number): number {
  if (!(value > 0)) return 0;
  const step = 10 ** (Math.floor(Math.log10(value) + 1e-12) - 1);
  return Number((Math.floor(value / step + 1e-9) * step).toPrecision(2));
}

/** What may be left open, in words. */
const doubtWords: Readonly<Record<string, string>> = {
  'seal-left-in': 'a seal was left in',
  'seal-repaired': 'a seal was repaired',
  'balls-not-proven': 'the balls are not proven',
  'dose-uncertain': 'the dose is uncertain',
  'rubber-untested': 'the rubber is not proven against the oil',
  'thickener-unknown': 'the old grease and the new are not proven compatible',
  'raceway-marks': 'the raceways show marks',
  'water-inside': 'water or coolant was inside',
  'seat-worn': 'the seat is worn and the ring creeps in it',
  'cause-not-cured': 'the cause is not cured',
  'cause-unknown': 'the cause is not known',
  'steel-open-too-long': 'bare steel lay open too long',
  'looked-late': 'the last look came late',
  'speed-over-limit': 'it runs above its cautious limit of speed',
  'run-in-cut-short': 'the run-in did not reach the top speed',
};

/** `2026-03-02` and so many days later; nothing where it is no date. */
function later(from: string, days: number): string | undefined {
  const start = /^\d{4}-\d{2}-\d{2}/.test(from) ? Date.parse(`${from.slice(0, 10)}T00:00:00Z`) : Number.NaN;
  if (!Number.isFinite(start) || new Date(start).toISOString().slice(0, 10) !== from.slice(0, 10)) return undefined;
  return new Date(start + Math.floor(days) * DAY).toISOString().slice(0, 10);
}

export const inspection = defineCalculator({
  name: 'inspection',
  title: 'First inspection after regreasing by hand',
  inputs: {
    ...lifeInputs,
    hoursPerDay: quantityInput('Hours of running a day', 'ratio', 'h', [0.1, 24], true),
    from: { type: 'text', label: 'Day on which it goes back, such as 2026-03-02', optional: true },
    doubts: {
      type: 'choices',
      label: 'Doubts left open',
      choices: ['none', ...Object.keys(doubtWords)],
      optional: true,
    },
  },
  results: {
    hours: result('Inspect after, at most', 'ratio', 'h'),
    earlier: result('It may be due as early as', 'ratio', 'h'),
    later: result('It may last as long as', 'ratio', 'h'),
    firstLook: result('First look, hand and ear', 'ratio', 'h'),
    days: result('That is', 'ratio', 'days'),
    date: word('Inspect by'),
    firstDate: word('First look by'),
    worth: oneOf('Worth running', ['yes', 'barely', 'no']),
    why: word('How it came about'),
    life: result('Grease life of a factory-filled bearing', 'ratio', 'h'),
  },
  formula: 'hours = life x 0.25 x 0.5 for each doubt, at most 4000',
  source: commonPractice("this guide's own caution; the life itself is a usual estimate, verify"),
  aliases: { ...lifeAliases, 'coolant-inside': 'water-inside' },
  run: (given, tables) => {
    const { life, worked, warnings } = greaseLifeOf(given);
    const rule = (id: string): number => constant(tables, 'inspection-rules', id).value;
    const doubts = [...new Set(given.words('doubts'))].filter((doubt) => doubt !== 'none');
    const factor = rule('hand-share') * rule('doubt-share') ** doubts.length;
    const most = rule('longest');
    const spread = rule('life-spread');
    const bounded = (hours: number): number => Math.min(hours * factor, most);
    const perDay = given.maybe('hoursPerDay') ?? { value: 24 };
    // An estimate deserves two figures, and is rounded towards the earlier day.
    const hours = roundDown(bounded(life.value));
    const days = hours / perDay.value;
    const firstLook = roundDown(Math.min(hours, doubts.length > 0 ? rule('early-look') : rule('usual-look')));
    const from = given.maybeWord('from');
    const date = from === undefined ? undefined : later(from, days);
    if (from !== undefined && date === undefined)
      throw new CalcRefusal('from', `"${from.slice(0, 20)}" is no day: type it as year-month-day, such as 2026-03-02.`);
    const worth = hours < rule('no-sense') ? 'no' : hours < rule('little-sense') ? 'barely' : 'yes';
    const open = doubts.map((doubt) => doubtWords[doubt] ?? doubt);
    const why = `a quarter of ${figure(life.value)} h, the life of a factory-filled bearing at this speed and heat${open.length > 0 ? `, halved ${open.length === 1 ? 'once' : `${open.length} times`}, since ${open.join(', ')}` : ''}${life.value * factor > most ? `, cut to ${most} h` : ''}, rounded down`;
    return {
      results: {
        hours: { value: hours },
        earlier: { value: roundDown(hours / spread) },
        later: { value: roundDown(Math.min(hours * spread, most)) },
        firstLook: { value: firstLook },
        days: { value: days >= 1 ? Math.floor(days) : roundDown(days) },
        ...(from === undefined
          ? {}
          : {
              date: { value: later(from, days) ?? '' },
              firstDate: { value: later(from, firstLook / perDay.value) ?? '' },
            }),
        worth: { value: worth },
        why: { value: why },
        life,
      },
      warnings: [
        ...warnings,
        ...(worth === 'no'
          ? [
              `${figure(hours, 2)} h of running is less than a shift: it makes no sense to let this bearing go back. Cure the doubts, lower speed or heat, or change it.`,
            ]
          : worth === 'barely'
            ? [`${figure(hours, 2)} h of running is little: cure the doubts, or have a new bearing ready.`]
            : []),
        'A grease life is good to a factor of two or three: write down the first look as well.',
        ...(given.has('hoursPerDay') ? [] : ['24 hours of running a day were taken.']),
        'Look sooner at any new noise, heat or grease at the seal.',
      ],
      worked: [
        worked,
        `${figure(life.value)} h x ${factor}${open.length > 0 ? ` (${open.join(', ')})` : ''} = ${figure(life.value * factor)} h${life.value * factor > most ? `, cut to ${most} h` : ''}, rounded down to ${figure(hours)} h`,
        `${figure(hours)} h / ${figure(perDay.value)} h a day = ${figure(days)} days`,
        `a life within a factor of ${spread}: ${figure(hours / spread, 2)} to ${figure(Math.min(hours * spread, most), 2)} h`,
      ],
    };
  },
});
