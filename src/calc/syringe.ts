/**
 * Marks on one syringe for several doses from one filling.
 * Travel (mm) = 1000 V / (pi/4 bore^2), V in mL. Marks run from the plunger's place once the tip is full.
 * `loss` (mL) fills the tip before the first mark. Uncertainty: bore, doses, and reading the ruler twice for each travel.
 * Refuses a filling that the barrel does not hold. Syringe bores are not standardised: measure.
 * Source: geometry.
 */
import { defineCalculator } from './define.js';
import { arithmetic, figure, length, quantityInput, result } from './spec.js';
import { constant } from './table.js';
import { CalcRefusal, type Measured } from './types.js';
import { type Propagated, propagate } from './uncertainty.js';

/** Half width of placing one mark with a steel rule, mm, unless stated. */
const usualRuler = 0.5;
const area = (bore: number): number => (Math.PI / 4) * bore * bore;
const travelOf = (volume: number, bore: number): number => (1000 * volume) / area(bore);

const values = (list: readonly Propagated[]) => ({
  value: list.map((item) => item.value),
  plusMinus: list.map((item) => item.plusMinus ?? 0),
  ...(list[0]?.dominant === undefined ? {} : { dominant: list[0].dominant }),
});

export const syringe = defineCalculator({
  name: 'syringe',
  title: 'Marks on the syringe',
  inputs: {
    bore: length('Inside diameter of the syringe', [2, 80]),
    doses: { type: 'quantities', label: 'Doses', kind: 'volume', unit: 'mL', limits: [0.01, 1000] },
    loss: quantityInput('Allowance for what stays in the tip', 'volume', 'mL', [0, 50], true),
    ruler: length('Half width of placing a mark', [0, 5], true),
    capacity: quantityInput('What the barrel holds', 'volume', 'mL', [0.1, 2000], true),
  },
  results: {
    travel: result('Travel of the plunger for each dose', 'length', 'mm', true),
    marks: result('Marks, from where the plunger stands with a full tip', 'length', 'mm', true),
    travelPerMl: result('Travel for each mL', 'ratio', 'mm/mL'),
    filling: result('Filling', 'volume', 'mL'),
    prime: result('Travel that fills the tip', 'length', 'mm'),
    delivered: result('Doses as the marks deliver them', 'volume', 'mL', true),
    doseWidth: result('Widest half width of a dose', 'share', '%'),
  },
  formula: 'travel = 1000 V / (pi/4 bore^2)',
  source: arithmetic('volume of a cylinder'),
  run: (given, tables) => {
    const typed = given.number('bore');
    const bore =
      typed.plusMinus === undefined
        ? { ...typed, plusMinus: constant(tables, 'bearing-constants', 'calliper').value }
        : typed;
    const doses = given.list('doses');
    if (doses.length > 12) throw new CalcRefusal('doses', 'At most 12 doses come from one filling: split them.');
    const loss = given.maybe('loss') ?? { value: 0 };
    const ruler = given.maybe('ruler')?.value ?? usualRuler;
    const capacity = given.maybe('capacity');
    const filling = propagate(named({ loss }, doses), (x) => Object.values(x).reduce((sum, v) => sum + v, 0));
    if (capacity && filling.value > capacity.value)
      throw new CalcRefusal(
        'capacity',
        `The filling of ${figure(filling.value)} mL is more than the barrel's ${figure(capacity.value)} mL: use a larger syringe, or fill once for each bearing.`,
      );
    // A travel lies between two marks, each placed with the ruler.
    const placing = { value: 0, plusMinus: ruler };
    const reading = { ruler: placing, 'ruler again': placing };
    const travel = doses.map((dose) =>
      plain(
        propagate({ bore, doses: dose, ...reading }, (x) => travelOf(x.doses, x.bore) + x.ruler - x['ruler again']),
      ),
    );
    const marks = doses.map((_, i) =>
      plain(
        propagate(named({ bore, ...reading }, doses.slice(0, i + 1)), (x) => {
          const { bore: b = 1, ruler: one = 0, 'ruler again': two = 0, ...volumes } = x as Record<string, number>;
          return (
            travelOf(
              Object.values(volumes).reduce((sum, v) => sum + v, 0),
              b,
            ) +
            one -
            two
          );
        }),
      ),
    );
    const delivered = travel.map((mark) =>
      plain(propagate({ bore, ...reading }, (x) => ((mark.value + x.ruler - x['ruler again']) * area(x.bore)) / 1000)),
    );
    const warnings = warningsFor(typed, travel, delivered, capacity);
    return {
      results: {
        travel: values(travel),
        marks: values(marks),
        travelPerMl: propagate({ bore }, (x) => travelOf(1, x.bore)),
        filling,
        prime: propagate({ bore, loss }, (x) => travelOf(x.loss, x.bore)),
        delivered: values(delivered),
        doseWidth: { value: widest(delivered) },
      },
      warnings,
      worked: [
        `1 mL = 1000 / (pi/4 x ${figure(bore.value)}^2) = ${figure(travelOf(1, bore.value))} mm of travel`,
        ...(loss.value > 0
          ? [
              `press ${figure(travelOf(loss.value, bore.value))} mm first, until grease shows at the tip; marks run from there`,
            ]
          : []),
        ...doses.map(
          (dose, i) =>
            `dose ${i + 1}: ${figure(dose.value)} mL = ${figure(travel[i]?.value ?? 0)} mm, mark at ${figure(marks[i]?.value ?? 0)} mm`,
        ),
      ],
    };
  },
});

/** One input a dose, so that each counts with its own half width. */
function named(first: Readonly<Record<string, Measured>>, doses: readonly Measured[]): Record<string, Measured> {
  const all: Record<string, Measured> = { ...first };
  doses.forEach((dose, i) => {
    all[`doses ${i + 1}`] = dose;
  });
  return all;
}

/** Names the input key that dominates, not our own helpers. */
function plain(result: Propagated): Propagated {
  if (result.dominant === undefined) return result;
  return { ...result, dominant: result.dominant.replace(/ (again|\d+)$/, '') };
}

/** Half width of the least certain dose, % of it, in two figures. */
const widest = (delivered: readonly Propagated[]): number =>
  Number(Math.max(...delivered.map((item) => ((item.plusMinus ?? 0) / item.value) * 100)).toPrecision(2));

function warningsFor(
  bore: Measured,
  travel: readonly Propagated[],
  delivered: readonly Propagated[],
  capacity: Measured | undefined,
): string[] {
  const warnings: string[] = [];
  const shortest = Math.min(...travel.map((item) => item.value));
  if (shortest < 3)
    warnings.push(`The shortest travel is only ${figure(shortest, 2)} mm: a narrower syringe meters more closely.`);
  const worst = widest(delivered);
  if (worst > 15)
    warnings.push(
      `A dose may be off by ${figure(worst, 2)} %: measure the bore with a calliper, use a narrower syringe, or weigh the dose.`,
    );
  if (bore.plusMinus === undefined)
    warnings.push(
      'No half width was given for the bore, so that of a calliper, 0.1 mm, was taken: give yours behind the bore, such as 14.5 +- 0.05 mm.',
    );
  if (!capacity) warnings.push('Whether the filling fits the barrel was not checked: give what the barrel holds.');
  return warnings;
}
