/** A small share of the bench of the run-in, each day: the goals that allow no exception, and the others roughly. */
import { describe, expect, it } from 'vitest';
import { judge } from '../../../src/calc/run-in-judge.js';
import { size } from '../../setup/size.js';
import { caseOf, simulators } from './machines.js';
import { guideOf, planOf, score } from './score.js';
import { figuresOf, lineOf } from './tally.js';

const each = size(40, 60);

describe.each(simulators)('%s simulator', (simulator) => {
  it(`${each} rotors, run in by what the guide says`, { timeout: 240_000 }, () => {
    const lines = Array.from({ length: each }, (_, i) => lineOf(score(simulator, 20_000 + i)));
    const figures = figuresOf(lines);
    expect(figures).toMatchObject({ badAccepted: 0, overdriven: 0, neverFinished: 0 });
    expect(figures.bad).toBeGreaterThan(0);
    // 1.4 in 100 are sent back of 3,000; of these fifty of the first simulator two: one read late, one 16 K above its twin.
    expect(Math.round((figures.stoppedInVain * figures.healthy) / 100)).toBeLessThanOrEqual(2);
    expect(figures.carriedInTheEnd).toBeGreaterThanOrEqual(95);
    // The median of some fifty: 1.26 and 1.2 where 3,000 give 1.22 and 1.18.
    expect(figures.ratio).toBeLessThanOrEqual(1.3);
  });
});

describe('the judge', () => {
  it('says the same read in one go as reading by reading', () => {
    const c = caseOf('first', 20_003);
    const { ended } = score('first', 20_003);
    const rows = ended.rows.slice(0, 25);
    const guide = guideOf(c);
    const told = rows.map((_, i) => guide(rows.slice(0, i + 1))).at(-1);
    const [a, b] = ([0, 1] as const).map((i) =>
      judge(
        rows.map((r) => ({ ...r, sound: 'smooth', temp: r.temps[i], other: r.temps[1 - i] ?? 0 })),
        planOf(c),
      ),
    );
    expect([a?.decision, b?.decision]).toContain(told?.decision);
    expect(told?.nextReading).toBe(Math.min(a?.nextReading ?? 99, b?.nextReading ?? 99));
  });
});
