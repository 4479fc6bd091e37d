/** An answer that belongs to one trade is offered only where the procedure says that it can be. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { calculators } from '../../src/calc/index.js';
import { readWhenNamed } from '../../src/library/read-parts.js';
import { loadProcedure } from '../../src/procedure/load.js';
import { optionsOf, readAnswer } from '../../src/procedure/questions/index.js';
import { library, modelFor, root } from './library.js';

const gearbox = (facts: string): string => `procedure: gearbox
version: 1.0.0
title: Gearbox
summary: Made up for tests.
places: []
phases: [ { id: safe, title: Safe } ]
steps:
  - part: lock-out
${facts}`;
const read = (facts = '') => {
  const around = { tables: library.tables, calculators };
  const file = `${root}procedures/parts/lock-out.yaml`;
  const parts = readWhenNamed([{ file, text: readFileSync(file, 'utf8') }], around);
  return loadProcedure(gearbox(facts), 'gearbox.yaml', { ...around, parts });
};
const supply = (facts?: string) => {
  const { procedure, problems } = read(facts);
  expect(problems).toEqual([]);
  const q = procedure?.steps.flatMap((s) => s.ask ?? []).find((x) => x.key === 'isolated');
  if (!q) throw new Error('nothing is asked');
  return q;
};

describe('the lock-out of another trade', () => {
  it('offers no rotor on the bench, which would drop the proof that it is dead', () => {
    const q = supply();
    expect(optionsOf(q, {}).map((o) => o.value)).toEqual(['locked', 'high-voltage', 'not-yet']);
    expect(readAnswer(q, 'rotor-out', {}).ok).toBe(false);
    expect(readAnswer(q, 'high-voltage', {})).toMatchObject({ ok: true, value: 'high-voltage' });
  });

  it('offers it where the procedure says that a rotor can be out', () => {
    const q = supply('facts:\n  - { key: rotor_comes_out, at: job, label: It comes out, type: bool, is: "true" }\n');
    expect(optionsOf(q, {}).map((o) => o.value)).toContain('rotor-out');
  });

  it('holds it where the procedure says that none can', () => {
    const { procedure } = read(
      'facts:\n  - { key: rotor_comes_out, at: job, label: It comes out, type: bool, is: "false" }\n',
    );
    const gates = procedure?.steps[0]?.gates ?? [];
    expect(gates.find((g) => g.id === 'rotor-out')).toMatchObject({
      must: "isolated != 'rotor-out' || rotor_comes_out",
      overrule: 'never',
    });
  });
});

it('a rotor can be out on the bench where bearings are regreased', () => {
  const step = modelFor('regrease-in-place').procedure.steps.find((s) => s.id === 'isolate');
  expect(optionsOf(step!.ask![0]!, {}).map((o) => o.value)).toContain('rotor-out');
});

it('stands in a part alone', () => {
  const text = gearbox('').replace(
    '  - part: lock-out\n',
    '  - id: a\n    phase: safe\n    at: job\n    title: A\n    do: D\n    why: W\n    ask:\n      - { key: k, kind: choice, label: L, options: [ { value: x, label: X, only_with: y }, { value: z, label: Z } ] }\n',
  );
  const { problems } = loadProcedure(text, 'p', { tables: {}, calculators: {} });
  expect(problems.map((p) => p.message)).toEqual(['“only_with” belongs into a part.']);
});
