/** Whoever says that it is not safe does not go on: each answer of a step that makes safe is held, or said to be fine. */
import { describe, expect, it } from 'vitest';
import { modelFor } from './library.js';
import { changed, says } from './sound.js';

/** A step before all work, with what it asks and the gates that it has. */
const clamps = (ask: string, gates = '', when = ''): string =>
  changed(
    '  - id: measure\n',
    `  - id: clamp
    phase: look
    at: job
    title: Clamp
    do: Clamp the belt on both sides.
    why: It runs back.
    makes_safe: true
${when}    ask:
      - ${ask}
${gates}  - id: measure
`,
    changed('title: Start', 'title: Start\n    stays_at: papers'),
  );
const gate = (must: string, overrule = 'never', when = ''): string =>
  `    gates:\n      - { id: held, must: "${must}", say: Clamp it first., overrule: ${overrule}${when} }\n`;
const clamped = '{ key: clamped, kind: yes-no, label: Clamped }';
const pick = (more = ''): string =>
  `{ key: belt, kind: choice, label: Belt, ${more}options: [ { value: clamped, label: Clamped }, { value: empty, label: Empty }, { value: loose, label: Loose } ] }`;
const no = [
  '39:16: The step “clamp” makes safe, and whoever answers “no” to “clamped” goes on. Add a gate with “overrule: never” that holds it, such as “must: clamped”; or name each answer that is safe enough in “goes_on: [true, false]”.',
];

describe('an answer that is not safe', () => {
  it('is told where no gate holds it', () => {
    expect(says(clamps(clamped))).toEqual(no);
    expect(says(clamps(clamped, gate('clamped')))).toEqual([]);
  });

  it('is told where the gate can be overruled, or does not count then', () => {
    expect(says(clamps(clamped, gate('clamped', 'with-reason')))).toEqual(no);
    expect(says(clamps(clamped, gate('clamped', 'never', `, when: "grease == 'good'"`)))).toEqual(no);
    expect(says(clamps(clamped, gate("clamped || grease == 'good'")))).toEqual(no);
  });

  it('is held where the gate counts whenever the step applies, or another value with it holds too', () => {
    const good = `    when: "grease == 'good'"\n`;
    expect(says(clamps(clamped, gate('clamped', 'never', `, when: "grease == 'good'"`), good))).toEqual([]);
    expect(says(clamps(clamped, gate("clamped && grease == 'good'")))).toEqual([]);
    // Of a stop that can't be read only that is told, though another one can.
    const two = `${gate("grease == 'good'")}${gate('clampd').replace('    gates:\n', '').replace('held', 'too')}`;
    expect(says(clamps(clamped, two))).toEqual(['42:26: There is no value “clampd”. Did you mean “clamped”?']);
    // What can't be tried out is not taken as held.
    expect(says(clamps(clamped, gate('clamped && speed < speed + 1.0')))).not.toEqual([]);
  });

  it('of a choice is told but for the one way on, or those that are named', () => {
    expect(says(clamps(pick(), gate("belt == 'clamped'")))).toEqual([]);
    expect(says(clamps(pick(), gate("belt != 'loose'")))[0]).toContain('whoever answers “clamped” and “empty”');
    expect(says(clamps(pick('goes_on: [clamped, empty], '), gate("belt != 'loose'")))).toEqual([]);
    expect(says(clamps(pick('goes_on: [clamped, emty], '), gate("belt == 'clamped'")))[0]).toContain(
      '“belt” can never be “emty”. Did you mean “empty”?',
    );
  });

  it('left empty counts as what stands in for it', () => {
    const may = clamped.replace('label', 'optional: true, otherwise: false, label');
    expect(says(clamps(may, gate('clamped')))).toEqual([]);
    expect(says(clamps(may))).toEqual(no);
  });

  it('that is measured wants a stop too', () => {
    const volts = '{ key: volts, kind: quantity, quantity: voltage, unit: V, label: Voltage, limits: [0, 1000] }';
    expect(says(clamps(volts))).toEqual([
      '39:16: The step “clamp” makes safe, and whatever is answered to “volts” goes on. Add a gate with “overrule: never”.',
    ]);
    expect(says(clamps(volts, gate('volts < 1.0')))).toEqual([]);
  });
});

it('of the shipped procedures, each answer that goes on is one that somebody thought of', () => {
  const fine = ['regrease-in-place', 'inspect-after-run'].flatMap((name) =>
    modelFor(name).procedure.steps.flatMap((s) =>
      s.makes_safe ? (s.ask ?? []).flatMap((q) => ('goes_on' in q && q.goes_on ? [`${q.key}: ${q.goes_on}`] : [])) : [],
    ),
  );
  expect(fine).toEqual([
    'isolated: locked,rotor-out',
    'in_stator: true,false',
    'magnets_found: found,papers-none,clip-still,cannot-tell',
    'coast: even,uneven',
  ]);
});
