import { expect, it } from 'vitest';
import { loadProcedure } from '../../src/procedure/load.js';

it('names the parts of a block that was written as one value', () => {
  const text = `procedure: short
version: 1.0.0
title: Short
summary: Short
places: []
phases: [ { id: all, title: All } ]
steps:
  - id: run
    phase: all
    at: job
    title: Run
    do: Run it.
    why: To see.
    wait: 1 min
`;
  const { problems } = loadProcedure(text, 'short.yaml', { tables: {}, calculators: {} });
  expect(problems.map((p) => `${p.line}:${p.column} ${p.message} ${p.cure}`)).toEqual([
    '14:11 “wait” should be a block of “name: value” lines in the step “run”. Write its parts: minutes:, label:, meanwhile:.',
  ]);
});
