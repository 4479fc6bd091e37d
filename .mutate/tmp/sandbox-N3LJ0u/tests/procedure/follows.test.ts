/** What a procedure reads from an earlier job is checked against the procedure of that job. */
// @ts-nocheck

import { describe, expect, it } from 'vitest';
import { loadProcedure } from '../../src/procedure/load.js';
import { showProblem } from '../../src/procedure/problem.js';
import { calculators, changed, sound, tables } from './sound.js';

const first = loadProcedure(sound, 'first', { tables, calculators }).procedure;
const after = `procedure: fan-look
version: 1.0.0
title: Look at the fan again
summary: Made up for tests.
follows:
  procedure: fan-bearing
  reads:
    old_grease: { key: grease, at: job, type: string, label: Grease then }
    old_bore: { key: bore, at: position, type: double, quantity: length, label: Bore then }
places:
  - { id: position, name: Bearing, instances: [ { id: a, label: Left }, { id: b, label: Right } ] }
phases:
  - { id: look, title: Look }
steps:
  - id: look
    phase: look
    at: position
    title: Look
    do: The bore was {old_bore}.
    why: It wears.
`;
const says = (find?: string, replace = ''): string[] => {
  const text = find === undefined ? after : changed(find, replace, after);
  return loadProcedure(text, 'p', { tables, calculators, known: first ? [first] : [] }).problems.map((p) =>
    showProblem(p).slice(2),
  );
};

describe('following an earlier job', () => {
  it('is sound when both agree', () => {
    expect(says()).toEqual([]);
  });

  it.each([
    [
      'an unknown procedure',
      'procedure: fan-bearing',
      'procedure: fan-bering',
      '6:14: There is no procedure “fan-bering” to follow. Did you mean “fan-bearing”?',
    ],
    [
      'an unknown key',
      'key: grease',
      'key: greese',
      '8:24: “fan-bearing” has no value “greese”. Did you mean “grease”?',
    ],
    [
      'another kind of place',
      'key: bore, at: position',
      'key: bore, at: job',
      '9:32: “bore” of the earlier job belongs to: position. Write “at: position”.',
    ],
    [
      'an unknown kind of place',
      'key: bore, at: position',
      'key: bore, at: bearing',
      '9:32: There is no kind of place “bearing”. Known are: job, position.',
    ],
    [
      'another type',
      'at: job, type: string',
      'at: job, type: bool',
      '8:47: “grease” of the earlier job is string. Write “type: string”.',
    ],
    [
      'another quantity',
      'quantity: length',
      'quantity: speed',
      '9:66: “bore” of the earlier job is a length. Write “quantity: length”.',
    ],
    ['no quantity', 'quantity: length, ', '', '9:22: “bore” of the earlier job is a length. Write “quantity: length”.'],
    [
      'other places',
      '{ id: b, label: Right }',
      '{ id: c, label: Right }',
      '9:32: The places of kind “position” are a, c here but a, b in the earlier job. Give them the same ids.',
    ],
    [
      'a key of its own again',
      'old_grease: {',
      'old_bore: {',
      '9:5: The same name stands twice in one block. Keep one of them.',
    ],
  ])('%s', (_, find, replace, ...sentences) => {
    const found = says(find, replace);
    expect(found.slice(0, 1)).toEqual(sentences);
  });
});
