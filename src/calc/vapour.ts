/**
 * Vapour of a solvent that all evaporates into still air of a room, ppm by volume, against the published limits.
 * ppm = V density / molar mass x 24.45 L/mol / room (mL, g/mL, g/mol, m3; 25 degC, 1 atm). A mean: near the cloth and
 * on the floor it is many times higher, since vapour is heavier than air and mixing is uneven.
 * It never exceeds what air takes up at 25 degC (saturation, by the vapour pressure).
 * REL and PEL are means over a shift, the short-term limit is a mean or ceiling over 15 min, IDLH is dangerous at once; a tenth
 * of the lower explosive limit counts as explosive. The verdict goes by the limit that fits the use: up to 15 min of work by the
 * short-term one (where the solvent has one), longer or not said by both. Sources: the tables solvents, solvent-liquids, short-term-limits.
 */
import { defineCalculator } from './define.js';
import { arithmetic, choiceInput, figure, oneOf, quantityInput, result } from './spec.js';
import { findRow, numberIn, sourceOf } from './table.js';
import { CalcRefusal, type Measured } from './types.js';
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

/** L/mol at 25 degC and 101.325 kPa. */
const molarVolume = 24.45;
/** Solvents that differ from tin to tin. */
const mixtures: readonly string[] = ['white-spirit'];

export const vapour = defineCalculator({
  name: 'vapour',
  title: 'Solvent vapour in the room',
  inputs: {
    solvent: choiceInput('Solvent', ['acetone', 'isopropanol', 'n-heptane', 'white-spirit'], false, 'solvents'),
    volume: quantityInput('Solvent that evaporates', 'volume', 'mL', [0.01, 100_000]),
    room: quantityInput('Room', 'room', 'm3', [0.1, 1_000_000]),
    minutes: quantityInput('How long somebody works in it', 'duration', 'min', [0.1, 1440], true),
  },
  results: {
    ppm: result('Vapour, mean over the room', 'concentration', 'ppm'),
    verdict: oneOf('Against the limits', verdicts),
    limit: result('Limit that fits the use', 'concentration', 'ppm'),
    limitIs: oneOf('That limit is', ['shift mean', '15-minute limit']),
    rel: result('Recommended limit (REL, 10 h mean)', 'concentration', 'ppm'),
    shortTerm: result('15-minute limit', 'concentration', 'ppm'),
    pel: result('Permissible limit (PEL, 8 h mean)', 'concentration', 'ppm'),
    idlh: result('Immediately dangerous (IDLH)', 'concentration', 'ppm'),
    lel: result('Lower explosive limit (LEL)', 'concentration', 'ppm'),
    lelShare: result('Mean against the LEL', 'share', '%'),
    flashPoint: result('Flash point', 'temperature', 'degC'),
    saturation: result('Most that air takes up at 25 °C', 'concentration', 'ppm'),
    most: result('Most that stays under the limit that fits the use', 'volume', 'mL'),
  },
  formula: 'ppm = 1000 V density / molar mass x 24.45 / room',
  source: arithmetic('ideal gas at 25 °C and 1 atm'),
  aliases: {
    ipa: 'isopropanol',
    heptane: 'n-heptane',
    '2-propanol': 'isopropanol',
    'mineral-spirits': 'white-spirit',
    'stoddard-solvent': 'white-spirit',
  },
  run: (given, tables) => {
    const row = findRow(tables, 'solvents', given.word('solvent'));
    if (!row)
      throw new CalcRefusal(
        'solvent',
        'The table solvents has no limits for this solvent: take them from its safety data sheet.',
      );
    // A shop's own row may hold the figures of the liquid itself.
    const liquid = findRow(tables, 'solvent-liquids', row.id) ?? row;
    const [volume, room] = [given.number('volume'), given.number('room')];
    const perMl = (numberIn(liquid, 'density') / numberIn(liquid, 'molar_mass')) * molarVolume * 1000;
    // Without a vapour pressure nothing bounds it but the air itself.
    const pressure = typeof liquid.vapour_pressure === 'number' ? liquid.vapour_pressure : 760;
    const saturation = (pressure / 760) * 1e6;
    const ppmOf = (v: Measured) =>
      propagate({ volume: v, room }, (x) => Math.min((x.volume * perMl) / x.room, saturation));
    const upperOf = ({ value, plusMinus = 0 }: Measured): number => value + plusMinus;
    const ppm = ppmOf(volume);
    const [rel, pel, idlh] = [numberIn(row, 'rel'), numberIn(row, 'pel'), numberIn(row, 'idlh')];
    const lel = numberIn(row, 'lel') * 10_000;
    // The lowest figure of any source decides, the published one is shown.
    const lelLow = numberIn(liquid, 'lel_low') * 10_000;
    const upper = upperOf(ppm);
    const brevity = findRow(tables, 'short-term-limits', row.id);
    const shortTerm = brevity ? numberIn(brevity, 'ppm') : undefined;
    const minutes = given.maybe('minutes')?.value;
    const brief = minutes !== undefined && minutes <= shortWork && shortTerm !== undefined;
    const limit = brief ? shortTerm : rel;
    const verdict = ((): Verdict => {
      if (upper >= lelLow / 10) return 'explosive nearby';
      if (upper >= idlh) return 'over IDLH';
      if (brief) return upper > shortTerm ? 'over short-term limit' : 'under short-term limit';
      // The highest limit that is passed names the verdict.
      const passed = (
        [
          ['over REL', rel],
          ['over short-term limit', shortTerm ?? Number.POSITIVE_INFINITY],
          ['over PEL', pel],
        ] as const
      ).filter(([, at]) => upper > at);
      return passed.reduce<readonly [Verdict, number]>((a, b) => (b[1] >= a[1] ? b : a), ['under REL', 0])[0];
    })();
    const flash = numberIn(row, 'flash_point');
    const warnings = [
      'Mixing is uneven and the vapour is heavier than air: at the cloth, in the tray and on the floor it is many times this mean.',
    ];
    if (flash < 25)
      warnings.push(
        `Its flash point is ${flash} °C: it burns from any spark at room temperature; no flame, no heater, no sparking tool.`,
      );
    else if (flash < 60)
      warnings.push(
        `Its flash point is about ${flash} °C: it burns on a cloth, as mist and wherever something warms it; no flame, no heater, no sparking tool.`,
      );
    if (mixtures.includes(row.id) || row.tag === 'M')
      warnings.push(
        `The figures of ${String(row.label).toLowerCase()} are usual ones: read those of its safety data sheet.`,
      );
    const raw = (volume.value * perMl) / room.value;
    if (raw > saturation)
      warnings.push(
        `Air at 25 °C takes up ${figure(saturation, 3)} ppm of it at most: the rest stays liquid, so check amount and room.`,
      );
    if (shortTerm !== undefined && upper > shortTerm && verdict !== 'over short-term limit')
      warnings.push(`It is above the 15-minute limit of ${shortTerm} ppm as well.`);
    if (brief && upper > rel)
      warnings.push(
        `Over ${figure(minutes)} min the 15-minute limit counts; whoever does this more than once a day, or stays in the room, goes by the ${rel} ppm of a shift.`,
      );
    if (minutes !== undefined && minutes <= shortWork && shortTerm === undefined)
      warnings.push('It has no published 15-minute limit here: the mean of a shift was taken.');
    if (!verdict.startsWith('under'))
      warnings.push(
        `The mean is ${verdict === 'explosive nearby' ? 'at a tenth of the explosive limit or more' : verdict}: use less at a time, open the room, or move air through it before you go on.`,
      );
    return {
      results: {
        ppm,
        verdict: { value: verdict },
        limit: { value: limit },
        limitIs: { value: brief ? '15-minute limit' : 'shift mean' },
        rel: { value: rel },
        ...(shortTerm === undefined ? {} : { shortTerm: { value: shortTerm } }),
        pel: { value: pel },
        idlh: { value: idlh },
        lel: { value: lel },
        lelShare: { value: (ppm.value / lel) * 100 },
        saturation: { value: saturation },
        flashPoint: { value: flash },
        most: { value: mostBelow(limit, (v) => upperOf(ppmOf({ ...volume, value: v })), room.value / perMl) },
      },
      warnings,
      worked: [
        `1 mL in 1 m3 = 1000 x ${liquid.density} / ${liquid.molar_mass} x ${molarVolume} = ${figure(perMl, 3)} ppm`,
        `${figure(volume.value)} mL in ${figure(room.value)} m3 = ${figure(ppm.value)} ppm`,
        `REL ${rel}, PEL ${pel}, ${shortTerm === undefined ? 'no 15-minute limit' : `15 min ${shortTerm}`}, IDLH ${idlh} ppm; LEL ${row.lel} %${lelLow < lel ? ` (some sources ${liquid.lel_low} %)` : ''} = ${lel} ppm`,
      ],
      sources: [sourceOf(row), ...(brevity ? [sourceOf(brevity)] : []), ...(liquid === row ? [] : [sourceOf(liquid)])],
    };
  },
});

/** Largest amount, two figures, rounded down, whose vapour stays below a limit with its half width on top; mL. */
function mostBelow(limit: number, upperOf: (volume: number) => number, perPpm: number): number {
  let [low, high] = [0, limit * perPpm];
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (upperOf(middle) <= limit) low = middle;
    else high = middle;
  }
  if (low <= 0) return 0;
  const step = 10 ** (Math.floor(Math.log10(low)) - 1);
  return Math.floor(low / step + 1e-9) * step;
}
