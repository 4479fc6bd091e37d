/** A shop's torque: a figure with a unit, and as wide as its readings, of which some are exact. */
import { expect, it } from 'vitest';
import { replay } from '../../src/engine/replay/replay.js';
import { replaySchema } from '../../src/engine/replay/replay-file.js';
import { showKey } from '../../src/engine/values/texts.js';
import { loadProcedure } from '../../src/procedure/load.js';
import { modelOf } from '../../src/procedure/model.js';
import { showProblem } from '../../src/procedure/problem.js';

const procedure = `procedure: flange
version: 1.0.0
title: Flange bolts (invented)
summary: For tests.
places: []
phases: [ { id: all, title: All } ]
steps:
  - id: bolt
    phase: all
    at: job
    title: Bolt
    do: Read it off.
    why: The torque follows.
    ask:
      - { key: preload, kind: quantity, quantity: force, unit: kN, kept_in: N, label: Preload, limits: [0, 100000] }
      - { key: thread, kind: quantity, quantity: length, unit: mm, label: Thread, limits: [1, 100], plus_minus: 0 }
      - { key: megger, kind: quantity, quantity: resistance, unit: megohm, kept_in: ohm, label: Insulation, limits: [0, 1.0e+12] }
facts:
  - { key: torque, at: job, label: Torque, quantity: torque, is: "0.2 * preload * thread / 1000.0" }
sheet: { figures: [ { key: torque } ] }
`;

function values(preload: string, text = procedure) {
  const loaded = loadProcedure(text, 'flange.yaml', { tables: {}, calculators: {} });
  expect(loaded.problems.map(showProblem)).toEqual([]);
  if (!loaded.procedure) throw new Error('no procedure');
  const file = {
    replay: 1,
    invented: true,
    name: 'Flange (invented)',
    procedure: 'flange',
    by: 'AP',
    start: '2026-03-02T08:00:00Z',
    steps: [{ step: 'bolt', answers: { preload, thread: '10', megger: '550' } }],
  };
  const run = replay(modelOf(loaded.procedure, 'h', {}, {}), replaySchema.parse(file));
  if (!run.ok) throw new Error(run.message);
  return run.state.values;
}

// T = K F d, with K = 0.2 for dry steel: handbook formula, from memory. 0.2 x 18 000 N x 10 mm = 36 N·m.
it('is as wide as its preload where the thread is exact', () => {
  const v = values('18 kN +- 0.9 kN');
  const torque = v.get('torque', 'job');
  expect(torque.known && torque.value).toBeCloseTo(36, 9);
  // 5 % of 36: nothing comes from the thread.
  expect(torque.known && torque.plusMinus).toBeCloseTo(1.8, 9);
  expect(showKey(v, 'torque', 'job')).toMatch(/^36(\.0)?( ± 1\.8)? N·m$/);
});

it('has no width where every reading is exact', () => {
  const text = procedure.replace('limits: [0, 100000] }', 'limits: [0, 100000], plus_minus: 0 }');
  const torque = values('18', text).get('torque', 'job');
  expect(torque).toMatchObject({ known: true, value: 36 });
  expect(torque.known && torque.plusMinus).toBeUndefined();
});

it('reads a bare number in the unit of the meter, and shows it so', () => {
  const v = values('18');
  expect(v.get('megger', 'job')).toMatchObject({ value: 550e6 });
  expect(showKey(v, 'megger', 'job')).toBe('550 MΩ');
});
