/** A number without a unit is as good as its half width, and every place that tells widths tells that one. */
import { expect, it } from 'vitest';
import { replay } from '../../src/engine/replay/replay.js';
import { replaySchema } from '../../src/engine/replay/replay-file.js';
import { showKey } from '../../src/engine/values/texts.js';
import { loadProcedure } from '../../src/procedure/load.js';
import { modelOf } from '../../src/procedure/model.js';
import { showProblem } from '../../src/procedure/problem.js';
import { figureAt } from '../../src/sheet/figures.js';
import { columnMeanings, tableRows } from '../../src/sheet/job-table.js';

const procedure = `procedure: hardness
version: 1.0.0
title: Hardness of a seal (invented)
summary: For tests.
places: []
phases: [ { id: all, title: All } ]
steps:
  - id: press
    phase: all
    at: job
    title: Press
    do: Read it off.
    why: Soft seals leak.
    ask:
      - { key: shore, kind: number, label: Hardness, limits: [0, 100], plus_minus: 3 }
      - { key: holes, kind: number, whole: true, label: Holes, limits: [1, 60], plus_minus: 0 }
facts:
  - { key: lacks, at: job, label: Lacks, type: double, is: "100.0 - shore" }
sheet: { figures: [ { key: shore }, { key: lacks }, { key: holes } ] }
`;

function stateAfter(shore: string) {
  const loaded = loadProcedure(procedure, 'hardness.yaml', { tables: {}, calculators: {} });
  expect(loaded.problems.map(showProblem)).toEqual([]);
  if (!loaded.procedure) throw new Error('no procedure');
  const file = {
    replay: 1,
    invented: true,
    name: 'Seal (invented)',
    procedure: 'hardness',
    by: 'AP',
    start: '2026-03-02T08:00:00Z',
    steps: [{ step: 'press', answers: { shore, holes: '8' } }],
  };
  const run = replay(modelOf(loaded.procedure, 'h', {}, {}), replaySchema.parse(file));
  if (!run.ok) throw new Error(run.message);
  return run.state;
}

it('stands on the sheet with it, and so does what was worked out of it', () => {
  const state = stateAfter('45');
  const texts = (['shore', 'lacks', 'holes'] as const).map((k) => figureAt(state, k, 'job').text);
  // 100 - 45 = 55; of a difference from an exact figure the half width stays.
  expect(texts).toEqual(['45 ± 3', '55 ± 3', '8']);
  expect(figureAt(stateAfter('45.5 +- 2'), 'shore', 'job').text).toBe('45.5 ± 2');
  // In a sentence a figure stands alone.
  expect(showKey(state.values, 'shore', 'job')).toBe('45');
});

it('has a column for it in the table of all jobs', () => {
  const state = stateAfter('45 +- 2');
  expect(tableRows(state, 'n')[0]).toMatchObject({ shore: 45, shore_plus_minus: 2, lacks: 55, lacks_plus_minus: 2 });
  expect(columnMeanings(state).get('shore_plus_minus')).toBe('half width of shore');
});
