/**
 * Volume of the recovered grease (mL) and the dose against it.
 * As a block L x W x H (mm), by mass over the density of the OLD grease, or as measured in a syringe. That density is typed, or
 * follows from the old thickener: about 1.9 g/mL for PTFE in fluorinated oil, 0.9 for the others; with an unknown thickener the
 * volume stays unknown, since it may be half of what it seems.
 * A dose of one to three times the residue is plausible where part was washed out. Uncertainty: first order.
 * Source: arithmetic; the plausible span is common practice without a source.
 */
import { type CheckedInputs, defineCalculator, type RunOutcome } from './define.js';
import { choiceInput, commonPractice, figure, length, oneOf, quantityInput, result, word } from './spec.js';
import { constant } from './table.js';
import { thickenerAliases, thickenerChoices } from './thickener.js';
import { CalcRefusal, type Tables } from './types.js';
import { type Propagated, propagate } from './uncertainty.js';

const side = (label: string) => length(label, [0.1, 1000], true);

export const residue = defineCalculator({
  name: 'residue',
  title: 'Recovered grease against the dose',
  inputs: {
    length: side('Length of the block'),
    width: side('Width of the block'),
    height: side('Height of the block'),
    mass: quantityInput('Mass of the residue', 'mass', 'g', [0.001, 10_000], true),
    density: quantityInput('Density of the recovered grease', 'density', 'g/mL', [0.7, 2.2], true),
    thickener: choiceInput('Thickener of the old grease', thickenerChoices, true, 'thickeners'),
    measured: quantityInput('Volume read off a syringe', 'volume', 'mL', [0.001, 10_000], true),
    dose: quantityInput('Dose', 'volume', 'mL', [0.001, 10_000], true),
  },
  results: {
    volume: result('Old grease that came out', 'volume', 'mL'),
    ratio: result('Dose against it', 'ratio', ''),
    verdict: oneOf('Plausible', ['small', 'plausible', 'large', 'no dose given', 'not known']),
    why: word('Why'),
  },
  formula: 'V = L W H / 1000, or m / density;  ratio = dose / V',
  aliases: thickenerAliases,
  source: commonPractice('a dose of about twice the residue is plausible where part was washed out'),
  run: (given, tables): RunOutcome => {
    const warnings: string[] = [];
    const { volume, worked } = volumeOf(given, tables, warnings);
    if (!volume)
      return {
        results: {
          verdict: { value: 'not known' },
          why: { value: 'the density of the old grease is not known, so its weight tells no volume' },
        },
        warnings,
        worked,
      };
    const dose = given.maybe('dose');
    if (!dose)
      return {
        results: {
          volume,
          verdict: { value: 'no dose given' },
          why: { value: 'give the dose to hold it against the residue' },
        },
        warnings,
        worked,
      };
    const ratio = propagate({ 'recovered grease': volume, dose }, (x) => x.dose / x['recovered grease']);
    const [verdict, why] = judge(ratio.value);
    if (verdict !== 'plausible') warnings.push(`The dose is ${figure(ratio.value, 2)} times the residue: ${why}.`);
    return {
      results: { volume, ratio, verdict: { value: verdict }, why: { value: why } },
      warnings,
      worked: [...worked, `ratio = ${figure(dose.value)} / ${figure(volume.value)} = ${figure(ratio.value, 3)}`],
    };
  },
});

function judge(ratio: number): [string, string] {
  if (ratio < 0.5)
    return [
      'small',
      'it was filled fuller than this, or coolant, oil and dirt are in the residue; check free volume and share',
    ];
  if (ratio <= 3) return ['plausible', 'part of the old grease was washed out or has dried up'];
  return ['large', 'far more than came out; check free volume and share before filling, or say how much was lost'];
}

function volumeOf(given: CheckedInputs, tables: Tables, warnings: string[]): { volume?: Propagated; worked: string[] } {
  const sides = ['length', 'width', 'height'].filter((key) => given.has(key));
  const ways = [sides.length > 0, given.has('mass'), given.has('measured')].filter(Boolean).length;
  if (ways > 1)
    throw new CalcRefusal('length', 'Give the residue one way: as a block, by its mass, or as a measured volume.');
  if (given.has('measured')) {
    const measured = given.number('measured');
    return {
      volume: propagate({ measured }, (x) => x.measured),
      worked: [`V = ${figure(measured.value)} mL as read off`],
    };
  }
  if (given.has('mass')) {
    const mass = given.number('mass');
    const old = given.maybeWord('thickener');
    const fluorinated = old === 'ptfe';
    if (!given.has('density') && old === 'unknown') {
      const ends = ['pfpe-grease', 'grease'].map((row) => mass.value / constant(tables, 'densities', row).value);
      warnings.push(
        `By weight it is anything from ${figure(ends[0] ?? 0, 2)} mL, if it is a fluorinated grease, to ${figure(ends[1] ?? 0, 2)} mL: press it into a syringe or shape a block, and measure that.`,
      );
      return { worked: [`${figure(mass.value)} g of a grease of unknown density: no volume`] };
    }
    const density = given.maybe('density') ?? constant(tables, 'densities', fluorinated ? 'pfpe-grease' : 'grease');
    if (!given.has('density'))
      warnings.push(
        fluorinated
          ? 'A density of 1.9 g/mL was taken, usual for fluorinated greases.'
          : 'A density of 0.9 g/mL was taken; a fluorinated (PFPE) grease has about 1.9, and its volume is half of this.',
      );
    else if (fluorinated && (given.maybe('density')?.value ?? 0) < 1.5)
      warnings.push(`${figure(density.value)} g/mL is no density of a fluorinated grease, which is about 1.9.`);
    const volume = propagate({ mass, density }, (x) => x.mass / x.density);
    return {
      volume,
      worked: [`V = ${figure(mass.value)} g / ${figure(density.value)} g/mL = ${figure(volume.value)} mL`],
    };
  }
  for (const key of ['length', 'width', 'height'])
    if (!given.has(key))
      throw new CalcRefusal(
        key,
        `The ${key} is missing: give length, width and height, such as 10, 10 and 5 mm, or a mass such as 0.5 g.`,
      );
  const block = { length: given.number('length'), width: given.number('width'), height: given.number('height') };
  const volume = propagate(block, (x) => (x.length * x.width * x.height) / 1000);
  return {
    volume,
    worked: [
      `V = ${figure(block.length.value)} x ${figure(block.width.value)} x ${figure(block.height.value)} / 1000 = ${figure(volume.value)} mL`,
    ],
  };
}
