/** The procedures that come with the program are sound, whole, and can be worked to their end. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calculators } from '../../src/calc/index.js';
import { runReplay } from '../../src/commands/run-replay.js';
import { earlierValues } from '../../src/engine/state/earlier.js';
import type { State } from '../../src/engine/state/state.js';
import { readParts } from '../../src/library/read-parts.js';
import { loadProcedure } from '../../src/procedure/load.js';
import { showProblem } from '../../src/procedure/problem.js';
import { size } from '../setup/size.js';
import { content, fromSources } from './content.js';
import { library, root, shipped } from './library.js';

const runs = new Map<string, State>();
/** Nothing changes one, so each file is replayed once. */
const replayed = (file: string): State => {
  const before = runs.get(file);
  if (before) return before;
  const run = runReplay(`${root}${file}`, library);
  if (!run.ok) throw new Error(run.message);
  runs.set(file, run.state);
  return run.state;
};
const inspect = 'tests/procedure/replays/inspect.replay.yaml';

describe('shipped procedures', () => {
  it('have no mistake', () => {
    const { problems, ...read } = fromSources();
    expect(problems.map(showProblem)).toEqual([]);
    expect(read.procedures.length).toBeGreaterThanOrEqual(2);
    // And what was compiled is what is read.
    expect(content).toEqual(JSON.parse(JSON.stringify(read)));
  });

  it.each(content.procedures.map((p) => [p.procedure.procedure, p.procedure] as const))(
    '%s tells everything at every step',
    (_, p) => {
      for (const s of p.steps) {
        expect(s.otherwise, `${s.id}: what goes wrong if skipped`).toBeTruthy();
        expect(s.tell, `${s.id}: how to tell that it is right`).toBeTruthy();
        // Read at arm's length: a step says what to do in a few lines.
        expect(s.do.length, `${s.id}: do`).toBeLessThanOrEqual(160);
        if (s.hazard) expect(s.caution?.length, `${s.id}: caution`).toBeGreaterThan(0);
        for (const g of s.gates ?? []) expect(g.say.length, `${s.id}: ${g.id}`).toBeGreaterThan(20);
      }
      expect(p.steps.some((s) => s.hold)).toBe(true);
      expect(p.steps.some((s) => s.decision)).toBe(true);
      expect(p.steps.some((s) => s.predict?.length)).toBe(true);
      expect(p.branches?.length).toBeGreaterThan(1);
      expect(p.sheet?.figures.length).toBeGreaterThan(3);
      expect(p.notice).toBeTruthy();
    },
  );

  it.each([inspect, 'procedures/practice/college-30kw.replay.yaml'])('%s runs to its end', (file) => {
    const state = replayed(file);
    expect(state.finished).toBe(true);
    expect(state.remedies).toEqual([]);
  });

  it('damaged anywhere, are refused in plain lines', () => {
    const texts = content.procedures.map((p) => readFileSync(p.file, 'utf8'));
    const { parts } = readParts(`${root}procedures`, { tables: library.tables, calculators });
    fc.assert(
      fc.property(fc.nat(texts.length - 1), fc.double({ min: 0, max: 1, noNaN: true }), fc.nat(3), (n, where, how) => {
        const text = texts[n] as string;
        const at = Math.floor(where * (text.length - 40));
        const bad =
          how === 0
            ? text.slice(0, at) + text.slice(at + 7)
            : how === 1
              ? `${text.slice(0, at)}x${text.slice(at)}`
              : how === 2
                ? text.slice(0, at)
                : `${text.slice(0, at)}: ${text.slice(at)}`;
        const { problems } = loadProcedure(bad, 'f', { tables: library.tables, calculators, parts });
        for (const p of problems) expect(showProblem(p)).toMatch(/^f:\d+:\d+: \P{Cc}+[.?!…)]$/u);
      }),
      { numRuns: size(12, 800) },
    );
  });
});

describe('a job that follows another', () => {
  it('reads the finished job, place by place', () => {
    const { values } = replayed(inspect);
    expect(values.get('machine', 'job')).toMatchObject({ known: true, value: 'Test-bench motor 30 kW (invented)' });
    expect(values.get('dose_then', 'a')).toMatchObject({ known: true, value: 2.3 });
    expect(values.get('dose_then', 'b')).toMatchObject({ known: true, value: 1.4 });
    expect(values.placeLabel('b')).toBe('Non-drive end');
    // Order of the outer race times turns a second (arithmetic): 12000 rpm are 200 turns a second.
    const order = values.get('outer_order', 'a');
    const tone = values.get('tone_outer', 'a');
    expect(tone.known && order.known && (tone.value as number) / (order.value as number)).toBeCloseTo(200, 9);
  });

  it('lets the findings decide, the worst first', () => {
    const { values } = replayed(inspect);
    expect(values.get('advice', 'a')).toMatchObject({ value: 'watch' });
    expect(values.get('advice', 'b')).toMatchObject({ value: 'open' });
  });

  it('refuses a job of another procedure, and one that is not finished', () => {
    const follower = shipped('inspect-after-run');
    const other = replayed(inspect);
    expect(earlierValues(shipped('regrease-in-place'), other)).toMatchObject({ ok: false });
    const done = replayed('procedures/practice/college-30kw.replay.yaml');
    expect(earlierValues(follower, done).ok).toBe(true);
    const half = new (done.constructor as typeof State)(done.model, done.entries.slice(0, 20), done.now);
    expect(earlierValues(follower, half)).toEqual({
      ok: false,
      message: 'The job “College test bench 30 kW rotor” is not finished yet; finish it first.',
    });
  });

  it('says what the earlier job did not know', () => {
    const done = replayed('procedures/practice/college-30kw.replay.yaml');
    const read = earlierValues(shipped('inspect-after-run'), done);
    expect(read).toMatchObject({ ok: true, unknown: [] });
    if (read.ok) expect(read.values.get('dose_set@a')).toBe(2.3);
  });
});
