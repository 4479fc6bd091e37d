/**
 * Vapour of one solvent or two that all evaporate into still air of a room, ppm by volume, against the published limits.
 * ppm = V density / molar mass x 24.45 L/mol / room (mL, g/mL, g/mol, m3; 25 degC, 1 atm). A mean: near the cloth and
 * on the floor it is many times higher, since vapour is heavier than air and mixing is uneven.
 * It never exceeds what air takes up at 25 degC (saturation, by the vapour pressure).
 * REL and PEL are means over a shift, the short-term limit is a mean or ceiling over 15 min, IDLH is dangerous at once; a tenth
 * of the lower explosive limit counts as explosive. The verdict goes by the limit that fits the use: up to 15 min of work by the
 * short-term one (where each solvent has one), longer or not said by both. Two vapours count together, C1/L1 + C2/L2 <= 1
 * (29 CFR 1910.1000(d)(2)); so do IDLH and LEL. Sources: the tables solvents, solvent-liquids, short-term-limits.
 */
import { defineCalculator } from './define.js';
import { arithmetic, choiceInput, figure, oneOf, quantityInput, result } from './spec.js';
import { findRow, numberIn, sourceOf } from './table.js';
import { CalcRefusal, type Measured, type RowSource, type TableRow, type Tables } from './types.js';
import { propagate } from './uncertainty.js';

const verdicts = [
  'under REL',
  'under short-term limit',
  'over REL',
  'over short-term limit',
  'over PEL',
  'over IDLH',
  'explosive nearby',
] as const;
type Verdict = (typeof verdicts)[number];
/** Minutes that a short-term limit speaks of. */
const shortWork = 15;

const known = ['acetone', 'isopropanol', 'n-heptane', 'white-spirit'];

/** L/mol at 25 degC and 101.325 kPa. */
const molarVolume = 24.45;
/** Solvents that differ from tin to tin. */
const mixtures: readonly string[] = ['white-spirit'];

export const vapour = defineCalculator({
  name: 'vapour',
  title: 'Solvent vapour in the room',
  inputs: {
    solvent: choiceInput('Solvent', known, false, 'solvents'),
    volume: quantityInput('Solvent that evaporates', 'volume', 'mL', [0.01, 100_000]),
    second: choiceInput('Second solvent', ['none', ...known], true, 'solvents'),
    secondVolume: quantityInput('Second solvent that evaporates', 'volume', 'mL', [0, 100_000], true),
    room: quantityInput('Room', 'room', 'm3', [0.1, 1_000_000]),
    minutes: quantityInput('How long somebody works in it', 'duration', 'min', [0.1, 1440], true),
  },
  results: {
    ppm: result('Vapour, mean over the room', 'concentration', 'ppm'),
    secondPpm: result('Vapour of the second solvent', 'concentration', 'ppm'),
    sum: result('Vapours against their limits, added up (1 at most)', 'ratio', ''),
    verdict: oneOf('Against the limits', verdicts),
    limit: result('Limit that fits the use', 'concentration', 'ppm'),
    limitIs: oneOf('That limit is', ['shift mean', '15-minute limit']),
    rel: result('Recommended limit (REL, 10 h mean)', 'concentration', 'ppm'),
    shortTerm: result('15-minute limit', 'concentration', 'ppm'),
    pel: result('Permissible limit (PEL, 8 h mean)', 'concentration', 'ppm'),
    idlh: result('Immediately dangerous (IDLH)', 'concentration', 'ppm'),
    lel: result('Lower explosive limit (LEL)', 'concentration', 'ppm'),
    lelShare: result('Mean against the LEL', 'share', '%'),
    flashPoint: result('Flash point, the lowest', 'temperature', 'degC'),
    saturation: result('Most that air takes up at 25 °C', 'concentration', 'ppm'),
    most: result('Most that stays under the limit that fits the use', 'volume', 'mL'),
    secondMost: result('Most of the second solvent beside it', 'volume', 'mL'),
  },
  formula: 'ppm = 1000 V density / molar mass x 24.45 / room; two together C1/L1 + C2/L2',
  source: arithmetic('ideal gas at 25 °C and 1 atm'),
  aliases: {
    ipa: 'isopropanol',
    heptane: 'n-heptane',
    '2-propanol': 'isopropanol',
    'mineral-spirits': 'white-spirit',
    'stoddard-solvent': 'white-spirit',
  },
  run: (given, tables) => {
    const room = given.number('room');
    const first = vapourOf(given.word('solvent'), 'solvent', given.number('volume'), room, tables);
    const name = given.maybeWord('second') ?? 'none';
    const amount = given.maybe('secondVolume');
    if (name !== 'none' && amount === undefined)
      throw new CalcRefusal('secondVolume', 'Say how much of the second solvent is used as well.');
    const second = name === 'none' || !amount ? undefined : vapourOf(name, 'second', amount, room, tables);
    const all = second ? [first, second] : [first];
    const minutes = given.maybe('minutes')?.value;
    const brief = minutes !== undefined && minutes <= shortWork && all.every((v) => v.shortTerm !== undefined);
    const shortOf = (v: Vapour): number => v.shortTerm ?? Number.POSITIVE_INFINITY;
    const fitting = (v: Vapour): number => (brief ? shortOf(v) : v.rel);
    const sum = (limit: (v: Vapour) => number, scale = 1): number =>
      all.reduce((n, v) => n + v.upperAt(scale) / limit(v), 0);
    const verdict = ((): Verdict => {
      if (sum((v) => v.lelLow / 10) >= 1) return 'explosive nearby';
      if (sum((v) => v.idlh) >= 1) return 'over IDLH';
      if (brief) return sum(shortOf) > 1 ? 'over short-term limit' : 'under short-term limit';
      // The highest limit that is passed names the verdict.
      const passed = (
        [
          ['over REL', sum((v) => v.rel)],
          ['over short-term limit', all.some((v) => v.shortTerm === undefined) ? 0 : sum(shortOf)],
          ['over PEL', sum((v) => v.pel)],
        ] as const
      ).filter(([, share]) => share > 1);
      return passed.reduce<readonly [Verdict, number]>(
        (a, b) => (b[1] <= a[1] ? b : a),
        ['under REL', Number.POSITIVE_INFINITY],
      )[0];
    })();
    const lowest = all.reduce((a, b) => (b.flash < a.flash ? b : a));
    const factor = mostScale((scale) => sum(fitting, scale) <= 1, first, second);
    return {
      results: {
        ppm: first.ppm,
        ...(second ? { secondPpm: second.ppm } : {}),
        sum: { value: sum(fitting) },
        verdict: { value: verdict },
        limit: { value: fitting(first) },
        limitIs: { value: brief ? '15-minute limit' : 'shift mean' },
        rel: { value: first.rel },
        ...(first.shortTerm === undefined ? {} : { shortTerm: { value: first.shortTerm } }),
        pel: { value: first.pel },
        idlh: { value: first.idlh },
        lel: { value: first.lel },
        lelShare: { value: all.reduce((n, v) => n + (v.ppm.value / v.lel) * 100, 0) },
        saturation: { value: first.saturation },
        flashPoint: { value: lowest.flash },
        most: { value: roundedDown(first.volume.value * factor) },
        ...(second ? { secondMost: { value: roundedDown(second.volume.value * factor) } } : {}),
      },
      warnings: [
        ...fireWords(lowest, all.length > 1),
        ...(verdict.startsWith('under')
          ? []
          : [
              `The mean is ${verdict === 'explosive nearby' ? 'at a tenth of the explosive limit or more' : verdict}: use less at a time, open the room, or move air through it before you go on.`,
            ]),
        ...(second
          ? [
              `Both vapours count together: ${all.map((v) => `${figure(v.upperAt(1), 3)}/${fitting(v)}`).join(' + ')} = ${figure(sum(fitting), 3)}, at most 1.`,
            ]
          : []),
        ...all.flatMap((v) => limitWords(v, { minutes, brief, verdict, named: all.length > 1 })),
        'Mixing is uneven and the vapour is heavier than air: at the cloth, in the tray and on the floor it is many times this mean.',
        'The limits are those of the USA: yours may be half of them, read the safety data sheet.',
      ],
      worked: all.flatMap((v) => v.worked),
      sources: all.flatMap((v) => v.sources),
    };
  },
});

/** One solvent in the air of the room, with its limits in ppm. */
interface Vapour {
  readonly label: string;
  readonly usual: boolean;
  readonly volume: Measured;
  readonly ppm: Measured;
  /** Upper end of the vapour when so many times the amount evaporates. */
  readonly upperAt: (scale: number) => number;
  /** mL of so many ppm in this room, without a bound. */
  readonly mlFor: (ppm: number) => number;
  readonly raw: number;
  readonly saturation: number;
  readonly rel: number;
  readonly pel: number;
  readonly idlh: number;
  readonly lel: number;
  readonly lelLow: number;
  readonly shortTerm: number | undefined;
  readonly flash: number;
  readonly worked: readonly string[];
  readonly sources: readonly RowSource[];
}

function vapourOf(id: string, key: string, volume: Measured, room: Measured, tables: Tables): Vapour {
  const row = findRow(tables, 'solvents', id);
  if (!row)
    throw new CalcRefusal(
      key,
      'The table solvents has no limits for this solvent: take them from its safety data sheet.',
    );
  // A shop's own row may hold the figures of the liquid itself.
  const liquid: TableRow = findRow(tables, 'solvent-liquids', row.id) ?? row;
  const perMl = (numberIn(liquid, 'density') / numberIn(liquid, 'molar_mass')) * molarVolume * 1000;
  // Without a vapour pressure nothing bounds it but the air itself.
  const pressure = typeof liquid.vapour_pressure === 'number' ? liquid.vapour_pressure : 760;
  const saturation = (pressure / 760) * 1e6;
  const ppmOf = (v: Measured) =>
    propagate({ volume: v, room }, (x) => Math.min((x.volume * perMl) / x.room, saturation));
  const ppm = ppmOf(volume);
  const [rel, pel, idlh] = [numberIn(row, 'rel'), numberIn(row, 'pel'), numberIn(row, 'idlh')];
  const lel = numberIn(row, 'lel') * 10_000;
  // The lowest figure of any source decides, the published one is shown.
  const lelLow = numberIn(liquid, 'lel_low') * 10_000;
  const brevity = findRow(tables, 'short-term-limits', row.id);
  const shortTerm = brevity ? numberIn(brevity, 'ppm') : undefined;
  return {
    label: String(row.label),
    usual: mixtures.includes(row.id) || row.tag === 'M',
    volume,
    ppm,
    upperAt: (scale) => {
      const { value, plusMinus = 0 } = ppmOf({ ...volume, value: volume.value * scale });
      return value + plusMinus;
    },
    mlFor: (at) => (at * room.value) / perMl,
    raw: (volume.value * perMl) / room.value,
    saturation,
    rel,
    pel,
    idlh,
    lel,
    lelLow,
    shortTerm,
    flash: numberIn(row, 'flash_point'),
    worked: [
      `1 mL in 1 m3 = 1000 x ${liquid.density} / ${liquid.molar_mass} x ${molarVolume} = ${figure(perMl, 3)} ppm`,
      `${figure(volume.value)} mL in ${figure(room.value)} m3 = ${figure(ppm.value)} ppm`,
      `REL ${rel}, PEL ${pel}, ${shortTerm === undefined ? 'no 15-minute limit' : `15 min ${shortTerm}`}, IDLH ${idlh} ppm; LEL ${row.lel} %${lelLow < lel ? ` (some sources ${liquid.lel_low} %)` : ''} = ${lel} ppm`,
    ],
    sources: [sourceOf(row), ...(brevity ? [sourceOf(brevity)] : []), ...(liquid === row ? [] : [sourceOf(liquid)])],
  };
}

function fireWords({ label, flash }: Vapour, named: boolean): string[] {
  const whose = named ? `${label} has the lowest flash point,` : 'Its flash point is';
  if (flash < 25)
    return [
      `${whose} ${flash} °C: it burns from any spark at room temperature; no flame, no heater, no sparking tool.`,
    ];
  if (flash >= 60) return [];
  return [
    `${whose} about ${flash} °C: it burns on a cloth, as mist and wherever something warms it; no flame, no heater, no sparking tool.`,
  ];
}

interface Told {
  readonly minutes: number | undefined;
  readonly brief: boolean;
  readonly verdict: Verdict;
  /** Two solvents are told apart by name. */
  readonly named: boolean;
}

function limitWords(v: Vapour, { minutes, brief, verdict, named }: Told): string[] {
  const upper = v.upperAt(1);
  const it = named ? v.label : 'It';
  return [
    ...(v.usual
      ? [`The figures of ${v.label.toLowerCase()} are usual ones: read those of its safety data sheet.`]
      : []),
    ...(v.raw > v.saturation
      ? [
          `Air at 25 °C takes up ${figure(v.saturation, 3)} ppm of ${named ? v.label.toLowerCase() : 'it'} at most: the rest stays liquid, so check amount and room.`,
        ]
      : []),
    ...(v.shortTerm !== undefined && upper > v.shortTerm && verdict !== 'over short-term limit'
      ? [`${it} is above the 15-minute limit of ${v.shortTerm} ppm as well.`]
      : []),
    ...(brief && upper > v.rel
      ? [
          `Over ${figure(minutes ?? 0)} min the 15-minute limit counts; whoever does this more than once a day, or stays in the room, goes by the ${v.rel} ppm of a shift.`,
        ]
      : []),
    ...(minutes !== undefined && minutes <= shortWork && v.shortTerm === undefined
      ? [`${it} has no published 15-minute limit here: the mean of a shift was taken.`]
      : []),
  ];
}

/** How many times the amounts may be taken and the vapours stay below their limits; the half widths stay on top. */
function mostScale(fits: (scale: number) => boolean, first: Vapour, second: Vapour | undefined): number {
  const limits = [first.rel, first.shortTerm ?? 0, second?.rel ?? 0, second?.shortTerm ?? 0];
  let [low, high] = [0, first.mlFor(Math.max(...limits)) / first.volume.value];
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (fits(middle)) low = middle;
    else high = middle;
  }
  return low;
}

/** Two figures, rounded down; mL. */
function roundedDown(volume: number): number {
  if (volume <= 0) return 0;
  const step = 10 ** (Math.floor(Math.log10(volume)) - 1);
  return Math.floor(volume / step + 1e-9) * step;
}
