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
    expect(oil('kept_in: mL, plausible: [200, 10000], limits: [50, 50000]')).toEqual([]);
  });

  it('are told where nobody can tell in which of the two units they were meant', () => {
    const gauge = (more: string): string[] =>
      says(
        changed(
          '      - { key: series,',
          `      - { key: gauge, kind: quantity, quantity: pressure, unit: psi, label: Gauge, ${more} }\n      - { key: series,`,
        ),
      );
    // 1 psi = 0.0689476 bar (NIST SP 811).
    const meant =
      '“gauge” is asked in psi, but its limits and all that is compared with it are in bar: 10000 bar is 145000 psi. Write them in bar, then “kept_in: bar” beside “unit” to say so.';
    expect(gauge('limits: [0, 10000]')).toEqual([`38:65: ${meant}`]);
    expect(gauge('kept_in: psi, limits: [0, 10000]')).toEqual([`38:65: ${meant}`]);
    expect(gauge('kept_in: bar, limits: [0, 700]')).toEqual([]);
    expect(gauge('limits: [0, 700]').length + oil('limits: [50, 50000]').length).toBe(2);
  });

  it('are told of lengths asked together', () => {
    const lid = '{ key: lid, kind: dimensions, parts: [lid_a, lid_b], unit: in, label: Lid, limits: [0.5, 20] }';
    const said = says(changed('      - { key: series,', `      - ${lid}\n      - { key: series,`));
    // 1 in = 25.4 mm exactly.
    expect(said[0]).toContain('Write ranges in mm: 12.7 to 508,');
  });
});

it('what is divided by nought is told', () => {
  const half = (by: string): string[] => says(changed('is: "speed > 1000.0"', `is: "speed / ${by} > 1000.0"`));
  expect(half('2.0')).toEqual([]);
  expect(half('0.0')).toEqual(['75:65: Nothing can be divided by nought. Write by what it is divided.']);
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

  const laterIn = (step: string, more = '', sounds?: string): string =>
    changed(
      '    physical: true\n',
      `    physical: true\n    ask:\n      - { key: later, kind: text, label: Later${more} }\n`,
      changed('title: Measure', `title: Measure\n    ${step}`, sounds),
    );
  it('is told wherever the step says it', () => {
    const text = laterIn('why: So {later}.\n    otherwise: So {later}.\n    tell: So {later}.\n    mark: So {later}.');
    const all = text
      .replace('title: Measure', 'title: So {later}.')
      .replace('do: Measure the bore at {speed}.', 'do: So {later}.')
      .replace('    why: The dose hangs on it.\n', '');
    const said = '“{later}” needs “later”, asked only later, in “fill”. Ask it earlier, or take the figure out here.';
    // Title, why, otherwise, tell, mark and do, as they stand there.
    expect(says(all)).toEqual(['33:16', '34:14', '35:20', '36:15', '37:15', '38:13'].map((spot) => `${spot}: ${said}`));
  });
  it('is let alone where it may be known by then, or has a value of its own', () => {
    expect(says(laterIn('tell: "{later}"'))).toHaveLength(1);
    expect(says(laterIn('tell: "{later}"', ', otherwise: none'))).toEqual([]);
    const open = changed('  - id: fill\n', '  - id: fill\n    not_after: [measure]\n');
    expect(says(laterIn('tell: "{later}"', '', open))).toEqual([]);
    const event = changed(
      '    why: It lies on the floor.\n',
      '    why: It lies on the floor.\n    ask: [ { key: fell_on, kind: text, label: L } ]\n',
      changed('title: Measure', 'title: Measure\n    tell: "{fell_on}"'),
    );
    expect(says(event)).toEqual([]);
  });
  it('is told through a fact, where every way through it has to wait', () => {
    const facts: [is: string, told: boolean][] = [
      ['later', true],
      ["later + 'x'", true],
      ["join([later], ',')", true],
      ["[name_a, later].exists(x, x == 'a') ? 'a' : 'b'", true],
      ["later == 'a' ? 'b' : 'c'", true],
      ["grease == 'good' ? later : later", true],
      // Another way through it is open.
      ["grease == 'good' ? later : 'c'", false],
      ["grease == 'good' ? 'c' : later", false],
      ["later == 'a' || grease == 'good' ? 'b' : 'c'", false],
      ["grease == 'good' && later == 'a' ? 'b' : 'c'", false],
      ["later == 'a' || later == 'b' ? 'b' : 'c'", true],
      ["later == 'a' && later == 'b' ? 'b' : 'c'", true],
      ["!(later == 'a') ? 'b' : 'c'", true],
      ['name_a', false],
    ];
    const lines = facts.map(([is], i) => `  - { key: too_${i}, at: position, label: Too, is: "${is}" }\n`).join('');
    const tell = facts.map((_, i) => `{too_${i}}`).join(' ');
    const told = says(changed('facts:\n', `facts:\n${lines}`, laterIn(`tell: "${tell}"`)));
    expect(told.map((x) => x.replace(/^\d+:\d+: /, ''))).toEqual(
      facts.flatMap(([, waits], i) =>
        waits
          ? [`“{too_${i}}” needs “later”, asked only later, in “fill”. Ask it earlier, or take the figure out here.`]
          : [],
      ),
    );
  });
  it('reads through what is gathered below and through a calculation, but not what that can do without', () => {
    const asked = changed(
      '    physical: true\n',
      '    physical: true\n    ask:\n      - { key: wide, kind: quantity, quantity: length, unit: mm, label: W, limits: [1, 9] }\n      - { key: damp, kind: yes-no, label: D }\n',
    );
    const first = (text: string): string | undefined => says(text)[0]?.replace(/^\d+:\d+: /, '');
    const told = (key: string, by: string) =>
      `“{${key}}” needs “${by}”, asked only later, in “fill”. Ask it earlier, or take the figure out here.`;
    const figure = (key: string, text: string): string =>
      changed('why: The dose hangs on it.', `why: So {${key}}.`, text);
    expect(first(figure('dose', changed('with: { bore: bore,', 'with: { bore: wide,', asked)))).toBe(
      told('dose', 'wide'),
    );
    expect(
      first(figure('dose', changed('speed: speed }, gives', 'speed: speed, wet: damp }, gives', asked))),
    ).toBeUndefined();
    for (const fold of ['all', 'any', 'count'])
      expect(
        first(
          changed(
            'do: Write down the fan.',
            'do: Write down {none}.',
            changed('facts:\n', `facts:\n  - { key: none, at: job, label: N, over: position, ${fold}: damp }\n`, asked),
          ),
        ),
      ).toBe(told('none', 'damp'));
  });
});
