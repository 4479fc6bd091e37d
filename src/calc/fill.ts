/**
 * Share of the free volume (%) and the dose (mL, g).
 * The share follows the speed band of n dm (table fill-bands) and never rises with speed; an n dm whose half width reaches
 * into the faster band is taken there. A share typed by the user overrides it and is held against the band.
 * Old grease left behind a seal that stays in takes room: it is taken off, and its doubt counts with that of the dose.
 * Dose = V x share; mass = dose x density, which is about 0.9 g/mL, but about 1.9 for PFPE greases.
 * Uncertainty: free volume, share and density, first order. Source: the tables fill-bands and fill-sources.
 */
import { defineCalculator } from './define.js';
import { figure, flag, ndm, oneOf, practice, quantity, result } from './spec.js';
import { bandOf, publishedFill } from './speed-band.js';
import { constant, findRow, numberIn, sourceOf } from './table.js';
import { CalcRefusal, type Measured, type Source } from './types.js';
import { propagate } from './uncertainty.js';

export const fill = defineCalculator({
  name: 'fill',
  title: 'Share of the free volume and dose',
  inputs: {
    freeVolume: quantity('Free volume', 'volume', 'mL', [0.01, 20_000]),
    ndm: ndm(true),
    share: quantity('Share of the free volume', 'share', '%', [1, 100], true),
    density: quantity('Density of the grease', 'density', 'g/mL', [0.7, 2.2], true),
    pfpe: flag('Fluorinated (PFPE) grease'),
    leftBehind: quantity('Old grease left behind', 'volume', 'mL', [0, 1000], true),
  },
  results: {
    shareLow: result('Share in use, from', 'share', '%'),
    shareHigh: result('Share in use, to', 'share', '%'),
    share: result('Suggested share', 'share', '%'),
    doseVolume: result('Dose', 'volume', 'mL'),
    due: result('Dose, less what stays behind', 'volume', 'mL'),
    doubt: result('Doubt in that dose, give or take', 'share', '%'),
    doseMass: result('Dose by mass', 'mass', 'g'),
    doseLow: result('Dose at the lowest share', 'volume', 'mL'),
    doseHigh: result('Dose at the highest share', 'volume', 'mL'),
    band: oneOf('Speed band', ['low', 'medium', 'high', 'not known']),
  },
  formula: 'dose = V x share;  mass = dose x density',
  source: practice('share by speed band, range of published figures and common practice'),
  run: (given, tables) => {
    const V = given.number('freeVolume');
    const factor = given.maybe('ndm');
    const typed = given.maybe('share');
    if (!factor && !typed)
      throw new CalcRefusal(
        'ndm',
        'The speed factor n dm is missing: give it, such as 875000 mm/min, or give a share, such as 15 %.',
      );
    const warnings: string[] = [];
    const sources: Source[] = [];
    let band: { name: string; low: number; high: number; chosen: number } | undefined;
    if (factor) {
      const { row, sources: own } = bandOf(factor.value, tables);
      const faster = bandOf(factor.value + (factor.plusMinus ?? 0), tables).row;
      if (faster.id !== row.id)
        warnings.push(
          `Within its uncertainty n dm may lie in the band ${faster.band}: the smaller fill of that band was taken.`,
        );
      band = {
        name: String(faster.band),
        low: numberIn(faster, 'low'),
        high: numberIn(faster, 'high'),
        chosen: numberIn(faster, 'chosen'),
      };
      sources.push(...own, ...publishedFill(factor.value, tables).map(sourceOf));
    } else warnings.push('Without n dm the share is not held against the speed: give n dm as well.');
    const share: Measured = typed ?? { value: band?.chosen ?? Number.NaN };
    if (typed && band && typed.value > band.high)
      warnings.push(
        `A share of ${figure(typed.value)} % is above the ${band.low} to ${band.high} % in use at this speed: too much grease churns and overheats.`,
      );
    if (typed && band && typed.value < band.low)
      warnings.push(
        `A share of ${figure(typed.value)} % is below the ${band.low} to ${band.high} % in use at this speed: the grease will not last.`,
      );
    if (typed && !band && typed.value > 30)
      warnings.push(
        `A share of ${figure(typed.value)} % is too much for a high-speed bearing, where under 30 % is common practice.`,
      );

    const density = densityOf(given.maybe('density'), given.flag('pfpe'), tables, warnings, sources);
    const dose = propagate({ freeVolume: V, share }, (x) => (x.freeVolume * x.share) / 100);
    const mass = propagate({ freeVolume: V, share, density }, (x) => ((x.freeVolume * x.share) / 100) * x.density);
    const left = given.maybe('leftBehind') ?? { value: 0 };
    const due = propagate({ freeVolume: V, share, leftBehind: left }, (x) =>
      Math.max(0, (x.freeVolume * x.share) / 100 - x.leftBehind),
    );
    const doubt = due.value > 0 ? Math.min(1000, ((due.plusMinus ?? 0) / due.value) * 100) : 1000;
    const at = (percent: number) => propagate({ freeVolume: V }, (x) => (x.freeVolume * percent) / 100);
    return {
      results: {
        shareLow: { value: band?.low ?? share.value },
        shareHigh: { value: band?.high ?? share.value },
        share: { ...share },
        doseVolume: dose,
        due,
        doubt: { value: doubt },
        doseMass: mass,
        doseLow: at(band?.low ?? share.value),
        doseHigh: at(band?.high ?? share.value),
        band: { value: band?.name ?? 'not known' },
      },
      warnings,
      worked: [
        ...(band
          ? [
              `n dm ${figure(factor?.value ?? 0)} mm/min: band ${band.name}, ${band.low} to ${band.high} % in use, ${band.chosen} % chosen`,
            ]
          : []),
        `dose = ${figure(V.value)} mL x ${figure(share.value)} % = ${figure(dose.value)} mL`,
        ...(left.value > 0
          ? [
              `less ${figure(left.value)} mL that stays behind = ${figure(due.value)} mL, half width ${figure(doubt, 2)} %`,
            ]
          : []),
        `mass = ${figure(dose.value)} mL x ${figure(density.value)} g/mL = ${figure(mass.value)} g`,
      ],
      sources,
    };
  },
});

function densityOf(
  typed: Measured | undefined,
  pfpe: boolean,
  tables: Parameters<typeof constant>[0],
  warnings: string[],
  sources: Source[],
): Measured {
  const row = pfpe ? 'pfpe-grease' : 'grease';
  if (typed) {
    if (pfpe && typed.value < 1.5)
      warnings.push(
        `${figure(typed.value)} g/mL is no density of a PFPE grease, which is about 1.9: check the data sheet before weighing.`,
      );
    if (!pfpe && typed.value > 1.2)
      warnings.push(
        `${figure(typed.value)} g/mL is the density of a PFPE grease: if it is none, check the data sheet before weighing.`,
      );
    return typed;
  }
  const found = findRow(tables, 'densities', row);
  if (found) sources.push(sourceOf(found));
  const density = constant(tables, 'densities', row);
  warnings.push(
    pfpe
      ? 'A density of 1.9 g/mL was taken, usual for PFPE greases: verify on the data sheet.'
      : 'A density of 0.9 g/mL was taken; a PFPE grease has about 1.9, so its dose must not be weighed with this figure.',
  );
  return density;
}
