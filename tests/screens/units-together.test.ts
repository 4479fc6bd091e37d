/** Wherever a line breaks, a figure keeps its unit, whichever unit the guide knows. */
import { expect, it } from 'vitest';
import { wrapText } from '../../src/screens/look/wrap.js';
import { showDuration } from '../../src/units/show.js';
import { shownUnits } from '../../src/units/shown-units.js';
import { units } from '../../src/units/unit-names.js';

const kinds = Object.keys(units) as (keyof typeof units)[];
const shown = [...new Set(kinds.flatMap((k) => units[k].map((u) => u.show as string)))].filter(Boolean);
const broken = (figure: string, behind = ''): string[] =>
  wrapText(`The figure is ${figure}${behind}`, `The figure is ${figure}`.length - 1).map((row) =>
    row.map((s) => s.text).join(''),
  );

it.each([...shown, 'mm/mL', 'm/s'])('15.18 %s', (unit) => {
  expect(broken(`15.18 ${unit}`)).toEqual(['The figure is', `15.18 ${unit}`]);
  expect(broken(`15.18 ± 0.05 ${unit}`)).toEqual(['The figure is', `15.18 ± 0.05 ${unit}`]);
});

it('keeps a time of many days together, and parts what only begins like a unit', () => {
  expect(broken(showDuration(20 * 24 * 60))).toEqual(['The figure is', '20 days']);
  expect(broken('15 bearings')).toEqual(['The figure is 15', 'bearings']);
});

it.each(kinds)('lists the same units of %s with factors and as they are shown', (kind) => {
  expect(units[kind].map((u) => u.show)).toEqual(shownUnits[kind]);
});
