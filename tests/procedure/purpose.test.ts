/** Figures, conditions and cautions that can't do what they are there for, each told at its place. */
import { describe, expect, it } from 'vitest';
import { changed, problemsOf, says } from './sound.js';

const codes = (text: string): string[] => problemsOf(text).map((p) => p.code);
const asked = (question: string, more = ''): string =>
  changed('      - { key: series,', `      - { ${question} }\n      - { key: series,`, more || undefined);
const oil = 'key: oil, kind: quantity, quantity: volume, unit: mL, label: Oil';
const fact = (is: string): string =>
  changed('facts:\n', `facts:\n  - { key: takes, at: job, label: Takes, quantity: volume, is: "${is}" }\n`);

describe('a wait', () => {
  const wait = (minutes: string): string => changed('minutes: "10.0"', `minutes: "${minutes}"`);
  it('that is not above nought is told', () => {
    expect(says(wait('-15.0'))).toEqual([
      '66:22: This wait is not above nought: nobody waits. Write the minutes, such as "10.0".',
    ]);
    expect(codes(wait('0.0'))).toEqual(['wait-nought']);
    expect(codes(wait("grease == 'good' ? 10.0 : -10.0"))).toEqual(['wait-nought']);
  });
  it('that nobody lives to see the end of is told', () => {
    expect(says(wait('1.0e9'))).toEqual([
      '66:22: This wait is longer than a year. It counts in minutes: a day is 1440. Write fewer than 525600.0.',
    ]);
    expect(codes(wait('10080.0'))).toEqual([]);
  });
  it('may be left out by its condition', () => {
    expect(codes(wait("grease == 'good' ? 10.0 : 0.0"))).toEqual([]);
    expect(codes(wait('speed > 100.0 ? 5.0 : 1.0'))).toEqual([]);
  });
});

describe('a gate', () => {
  const gate = (must: string): string => changed('must: bore > 10.0', `must: "${must}"`);
  it('that opens whatever is answered is told', () => {
    expect(says(gate('runs || !runs'))).toEqual([
      '43:15: The gate “wide-enough” never holds: whatever is answered, it opens. Change the condition or take the gate out.',
    ]);
    // Limits are 3 to 300 mm.
    expect(codes(gate('bore <= 300.0'))).toEqual(['gate-never-holds']);
    expect(codes(gate("grease == 'good' || grease == 'bad'".replaceAll('"', "'")))).toEqual(['gate-never-holds']);
  });
  it('is let alone where an answer, or the lack of one, holds it', () => {
    expect(codes(gate('bore <= 299.0'))).toEqual([]);
    expect(codes(gate("grease == 'good'"))).toEqual([]);
    const optional = changed('label: It runs, otherwise: true', 'label: It runs, optional: true');
    expect(codes(changed('must: bore > 10.0', 'must: "runs || !runs"', optional))).toEqual([]);
  });
});

describe('what the limits of a question refuse', () => {
  it('is told of a figure that it wants, suggests, stands in or can be at most', () => {
    const wants = (is: string) =>
      changed(
        '      - { key: series,',
        `      - { ${oil}, limits: [100, 4000], wanted: takes }\n      - { key: series,`,
        fact(is),
      );
    expect(says(wants('5000.0'))[0]).toContain(
      '“wanted” of “oil” is refused by its limits 100 to 4000, whatever is answered.',
    );
    expect(codes(wants('5.0'))).toEqual(['limits-refuse']);
    expect(codes(wants('3000.0'))).toEqual([]);
    expect(codes(asked(`${oil}, limits: [100, 4000], suggest: "5.0"`))).toEqual(['limits-refuse']);
    expect(codes(asked(`${oil}, limits: [100, 4000], no_more_than: "5.0"`))).toEqual(['limits-refuse']);
    expect(codes(asked(`${oil}, limits: [100, 4000], otherwise: 5`))).toEqual(['limits-refuse']);
    // Nought stands for none.
    expect(codes(asked(`${oil}, limits: [100, 4000], otherwise: 0`))).toEqual([]);
  });
  it('is a half width of half of all that they allow', () => {
    expect(says(asked(`${oil}, limits: [100, 4100], plus_minus: 2000`))[0]).toContain(
      '“oil” is good to ± 2000, which is all that can be answered: 100 to 4100.',
    );
    expect(codes(asked(`${oil}, limits: [100, 4100], plus_minus: 1999`))).toEqual([]);
  });
});

describe('a caution', () => {
  const caution = (text: string): string => changed('The spring flies.', `"${text}"`);
  it.each([
    'Be careful.',
    'Caution!',
    'WARNING: Take care.',
    'Please be very careful here.',
    'Watch out. Work safely.',
  ])('“%s” says nothing', (text) => expect(codes(caution(text))).toEqual(['caution-says-nothing']));
  it.each(['Watch the spring.', 'Be careful. The spring flies.', 'Hot oil burns.', 'Take care of your eyes.', 'Acid.'])(
    '“%s” says something',
    (text) => expect(codes(caution(text))).toEqual([]),
  );
});

it('tells of dangerous work before the last step that makes safe', () => {
  const lock =
    '  - id: lock\n    phase: work\n    at: job\n    title: Lock\n    do: Lock it.\n    why: It starts.\n    makes_safe: true\n    ask:\n      - { key: locked, kind: yes-no, label: Locked }\n    gates:\n      - { id: locked, must: locked, say: Lock it., overrule: never }\n';
  const late = changed('  - id: drop\n', `${lock}  - id: drop\n`);
  expect(says(late).filter((s) => s.includes('“open”'))).toHaveLength(1);
  expect(codes(late)).toContain('hands-before-safe');
});
