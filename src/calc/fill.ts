/**
 * Share of the free volume (%) and the dose (mL, g).
 * The share follows n dm (table fill-bands): 40 % in the band low, 30 % in medium, then a straight fall from 30 to 15 % between
 * n dm 500 000 and 1 000 000. It never rises with speed, is rounded down to a whole percent, and is taken at the fast end of
 * n dm's half width. The highest share is that of a closed bearing; the published 67 and 90 % hold only for an open bearing with
 * a room outside that is larger than its free volume, so that the surplus can leave. A typed share takes the place of the
 * suggested one and is held against the band.
 * Old grease left behind a seal that stays in takes room: it is taken off, and its doubt counts with that of the dose.
 * Dose = V x share; mass = dose x density, which is about 0.9 g/mL, but about 1.9 for PFPE greases.
 * Uncertainty: free volume, share and density, first order. Source: the tables fill-bands and fill-sources.
 */
import { defineCalculator } from './define.js';
import { choiceInput, commonPractice, figure, flag, ndm, oneOf, quantityInput, result, yesNoResult } from './spec.js';
import { bandOf, publishedFill, type Share, shareAt } from './speed-band.js';
import { constant, findRow, sourceOf } from './table.js';
import { CalcRefusal, type Measured, type RowSource } from './types.js';
import { propagate } from './uncertainty.js';

/** Ways to a free volume. A computed one and a measured one of the same bearing can lie a third apart. */
const bases = ['measured', 'drawing', 'sealed-room', 'open-envelope', 'unknown'] as const;
type Basis = Exclude<(typeof bases)[number], 'unknown'>;
const inWords: Readonly<Record<Basis, string>> = {
  measured: 'a measurement',
  drawing: 'a drawing',
  'sealed-room': 'size and mass, seals taken off',
  'open-envelope': 'size and mass up to the ring faces',
};

function compareBases(
  own: Basis | 'unknown' | undefined,
  other: Basis | 'unknown' | undefined,
  warnings: string[],
): 'yes' | 'no' | 'not known' {
  if (!own || !other || own === 'unknown' || other === 'unknown') return 'not known';
  if (own === other) return 'yes';
  warnings.push(
    `The free volume here rests on ${inWords[own]}, at the other bearing on ${inWords[other]}: such figures of one bearing differ by up to a third. Take both the same way, or fill the one that was worked out by the lower end.`,
  );
  return 'no';
}

export const fill = defineCalculator({
  name: 'fill',
  title: 'Share of the free volume and dose',
  inputs: {
    freeVolume: quantityInput('Free volume', 'volume', 'mL', [0.01, 20_000]),
    ndm: ndm(true),
    share: quantityInput('Share of the free volume', 'share', '%', [1, 100], true),
    density: quantityInput('Density of the grease', 'density', 'g/mL', [0.7, 2.2], true),
    pfpe: flag('Fluorinated (PFPE) grease'),
    leftBehind: quantityInput('Old grease left behind', 'volume', 'mL', [0, 1000], true),
    closed: choiceInput('How the bearing is closed', ['sealed', 'shielded', 'open', 'open-with-cavity'], true),
    basis: choiceInput('Where the free volume is from', bases, true),
    otherBasis: choiceInput('Where that of the other bearing is from', bases, true),
  },
  results: {
    shareLow: result('Share in use, from', 'share', '%'),
    shareHigh: result('Share in use, to', 'share', '%'),
    suggested: result('Suggested share', 'share', '%'),
    share: result('Share taken', 'share', '%'),
    doseVolume: result('Dose', 'volume', 'mL'),
    due: result('Dose to put in', 'volume', 'mL'),
    doubt: result('Uncertainty of the dose', 'share', '%'),
    doubtKnown: yesNoResult('Doubt in that dose is known'),
    doseMass: result('Dose by mass', 'mass', 'g'),
    doseLow: result('Dose at the lowest share', 'volume', 'mL'),
    doseHigh: result('Dose at the highest share', 'volume', 'mL'),
    band: oneOf('Speed band', ['low', 'medium', 'high', 'not known']),
    sameBasis: oneOf('Both free volumes on one basis', ['yes', 'no', 'not known']),
  },
  formula: 'dose = V x share;  mass = dose x density',
  source: commonPractice('share by speed band, range of published figures and common practice'),
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
    const sources: RowSource[] = [];
    const closed = given.maybeWord('closed') ?? 'sealed';
    let band: Share | undefined;
    if (factor) {
      const fast = factor.value + (factor.plusMinus ?? 0);
      const slower = shareAt(factor.value, closed, tables);
      band = shareAt(fast, closed, tables);
      if (band.name !== slower.name || band.chosen < slower.chosen)
        warnings.push(
          `Within its uncertainty n dm may be ${figure(fast)} mm/min: the smaller fill of that speed was taken.`,
        );
      sources.push(
        ...bandOf(factor.value, tables).sources,
        ...publishedFill(factor.value, closed, tables).map(sourceOf),
      );
    } else warnings.push('Without n dm the share is not held against the speed: give n dm as well.');
    const share: Measured = typed ?? { value: band?.chosen ?? Number.NaN };
    if (typed && band && typed.value > band.high)
      warnings.push(
        `A share of ${figure(typed.value)} % is above the ${band.low} to ${band.high} % in use at this speed${closed === 'open-with-cavity' ? '' : ' for a bearing whose surplus has nowhere to go'}: too much grease churns and overheats.`,
      );
    if (typed && band && typed.value < band.low)
      warnings.push(
        `A share of ${figure(typed.value)} % is below the ${band.low} to ${band.high} % in use at this speed: the grease will not last.`,
      );
    if (typed && !band && typed.value > 30)
      warnings.push(
        `A share of ${figure(typed.value)} % is too much for a high-speed bearing, where under 30 % is common practice.`,
      );
    const basisOf = (key: string) => (given.has(key) ? given.choice(key, bases) : undefined);
    const sameBasis = compareBases(basisOf('basis'), basisOf('otherBasis'), warnings);

    const density = densityOf(given.maybe('density'), given.flag('pfpe'), tables, warnings, sources);
    const dose = propagate({ freeVolume: V, share }, (x) => (x.freeVolume * x.share) / 100);
    const mass = propagate({ freeVolume: V, share, density }, (x) => ((x.freeVolume * x.share) / 100) * x.density);
    const left = given.maybe('leftBehind') ?? { value: 0 };
    const due = propagate({ freeVolume: V, share, leftBehind: left }, (x) =>
      Math.max(0, (x.freeVolume * x.share) / 100 - x.leftBehind),
    );
    // A free volume without a half width is not known exactly: how far the dose is off nobody can say.
    const doubtKnown = V.plusMinus !== undefined;
    const doubt = due.value > 0 ? Math.min(1000, ((due.plusMinus ?? 0) / due.value) * 100) : 1000;
    if (!doubtKnown)
      warnings.push(
        'How far this dose may be off is not known: give the free volume with its half width, such as 5.2 +- 0.3 mL.',
      );
    const at = (percent: number) => propagate({ freeVolume: V }, (x) => (x.freeVolume * percent) / 100);
    return {
      results: {
        ...(band
          ? {
              shareLow: { value: band.low },
              shareHigh: { value: band.high },
              suggested: { value: band.chosen },
              doseLow: at(band.low),
              doseHigh: at(band.high),
            }
          : {}),
        share: { ...share },
        doseVolume: dose,
        due,
        ...(doubtKnown ? { doubt: { value: doubt } } : {}),
        doubtKnown: { value: doubtKnown },
        doseMass: mass,
        band: { value: band?.name ?? 'not known' },
        sameBasis: { value: sameBasis },
      },
      warnings,
      worked: [
        ...(band
          ? [
              `n dm ${figure(factor?.value ?? 0)} mm/min: band ${band.name}, ${band.low} to ${band.high} % in use, ${band.chosen} % suggested${band.how}`,
            ]
          : []),
        `dose = ${figure(V.value)} mL x ${figure(share.value)} % = ${figure(dose.value)} mL${typed ? '' : ', by the suggested share'}`,
        ...(left.value > 0
          ? [
              `less ${figure(left.value)} mL that stays behind = ${figure(due.value)} mL, ${doubtKnown ? `half width ${figure(doubt, 2)} %` : 'half width not known'}`,
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
  sources: RowSource[],
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
