/** Mistakes that people of another trade made with their first procedure, each told at its place. */
import { describe, expect, it } from 'vitest';
import { changed, says } from './sound.js';

describe('ranges in another unit than the question', () => {
  const oil = (more: string): string[] =>
    says(
      changed(
        '      - { key: series,',
        `      - { key: oil, kind: quantity, quantity: volume, unit: L, label: Oil, ${more} }\n      - { key: series,`,
      ),
    );

  it('are told where they end below one of that unit', () => {
    expect(oil('limits: [0.05, 50]')).toEqual([
      '38:84: The range 0.05 to 50 of “oil” is in mL, but the unit is L. Write ranges in mL: 50 to 50000, and “plus_minus” too.',
    ]);
    expect(oil('plausible: [0.2, 10], limits: [0, 50000]')[0]).toContain(
      'The range 0.2 to 10 of “oil” is in mL, but the unit is L.',
    );
    expect(oil('plausible: [200, 10000], limits: [50, 50000]')).toEqual([]);
  });

  it('are told of lengths asked together', () => {
    const lid = '{ key: lid, kind: dimensions, parts: [lid_a, lid_b], unit: in, label: Lid, limits: [0.5, 20] }';
    const said = says(changed('      - { key: series,', `      - ${lid}\n      - { key: series,`));
    // 1 in = 25.4 mm exactly.
    expect(said[0]).toContain('Write ranges in mm: 12.7 to 508,');
  });
});

describe('a figure in words', () => {
  it('that is asked only later is told, also through a fact', () => {
    expect(says(changed('do: Write down the fan.', 'do: Write down the fan {all_seen}.'))[0]).toContain('no value');
    const late = changed('why: The dose hangs on it.', 'why: The dose hangs on {later} and {later_too}.');
    const asked = changed(
      '    physical: true\n',
      '    physical: true\n    ask:\n      - { key: later, kind: text, label: Later }\n',
      changed('facts:\n', 'facts:\n  - { key: later_too, at: position, label: Too, is: later }\n', late),
    );
    expect(says(asked)).toEqual([
      '35:29: “{later}” needs “later”, asked only later, in “fill”. Ask it earlier, or take the figure out here.',
      '35:41: “{later_too}” needs “later”, asked only later, in “fill”. Ask it earlier, or take the figure out here.',
    ]);
  });
});
