/** A figure that a warning or a step says in words stands in the list of sources, with who says it or "no source". */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { calculators } from '../../src/calc/index.js';
import { replay } from '../../src/engine/replay/replay.js';
import { earlierValues } from '../../src/engine/state/earlier.js';
import type { State } from '../../src/engine/state/state.js';
import type { StepView } from '../../src/engine/steps/board.js';
import { keysNamedIn, showValue } from '../../src/engine/values/texts.js';
import { sayOf } from '../../src/procedure/caution.js';
import type { Step } from '../../src/procedure/schema.js';
import { sourcesOf } from '../../src/review/sources.js';
import { library, modelFor, root } from '../procedure/library.js';
import { inspectionJob, Job, model } from './good-job.js';

const unit: Readonly<Record<string, string>> = { '°C': 'degC' };
const known = new Set(
  [...library.tables['said-figures']!.rows, ...library.tables['run-in-rules']!.rows].map((r) => `${r.value} ${r.unit}`),
);

it.each(['regrease-in-place', 'inspect-after-run'])('%s', (id) => {
  const texts = modelFor(id).procedure.steps.flatMap((s) => [
    ...(s.caution ?? []).map(sayOf),
    ...[s.do, s.tell ?? ''],
    ...(s.gates ?? []).map((g) => g.say),
  ]);
  const said = texts.flatMap((t) => [...t.matchAll(/(?<![\w.])(\d[\d.]*) (°C|K|mT|m|cm|V)(?![\w³²])/g)]);
  const figures = new Set(said.map(([, n, u]) => `${n} ${unit[u!] ?? u}`));
  expect(figures.size).toBeGreaterThanOrEqual(5);
  // 60 degC at the seat is 70 less the 10 that it reads low.
  expect([...figures].filter((f) => !known.has(f) && f !== '60 degC')).toEqual([]);
});

it('what a help says of solvent has its row', () => {
  const help = model.steps.get('vapour')?.ask?.find((q) => q.key === 'solvent_volume')?.help;
  expect(help).toMatch(/20 to 50 mL \(usual in shops/);
  expect([...known]).toEqual(expect.arrayContaining(['50 mL', '10 min']));
});

it('how long the example job took is told as its own times say', () => {
  const { entries } = new Job().run().state;
  const at = entries.map((e) => Date.parse(e.at) / 3_600_000);
  // The night between counts for nothing.
  const hours = (until: number, from = 0): number =>
    at.slice(from + 1, until).reduce((sum, t, i) => sum + (t - at[from + i]! > 1 ? 0 : t - at[from + i]!), 0);
  const first = entries.findIndex((e) => 'step' in e && e.step === 'solvent-out');
  const last = entries.findLastIndex((e) => 'step' in e && e.step === 'run-in-accept');
  expect(hours(entries.length)).toBeCloseTo(7.5, 1);
  expect(hours(last + 1, first - 1)).toBeCloseTo(4.5, 0);
  const readme = readFileSync(`${root}README.md`, 'utf8');
  for (const text of [readme, model.procedure.notice!.replace(/\s+/g, ' ')])
    expect(text).toContain('7.5 h on two days, 4.5 h of it the run-in');
});

it.each([
  ['coast_1', 61, '61 s'],
  ['coast_mean', 61, '61 s'],
  ['coast_now', 125, '125 s'],
  ['coast_1', 14.2, '14.2 s'],
  ['coast_1', 1200, '20 min'],
])('%s: a time that is asked for in seconds is told back in seconds, %d s', (key, seconds, text) => {
  const of = modelFor(key === 'coast_now' ? 'inspect-after-run' : 'regrease-in-place');
  expect(showValue(of, key, seconds / 60)).toBe(text);
});

it('is told by the command too', () => {
  const all = sourcesOf(Object.values(library.tables), Object.values(calculators), []);
  const lines = JSON.stringify(all);
  for (const row of ['sparks-away', 'implant-away', 'burn', 'touch', 'plugs-away'])
    expect(lines).toContain(`${row}: value`);
});

describe('no sentence has the name of a figure where the figure belongs', () => {
  const texts = (s: Step): readonly string[] => [s.do, s.brief, s.why, s.otherwise, s.tell].flatMap((t) => t ?? []);
  const holes = (state: State, v: StepView): string[] =>
    [...texts(v.step), ...(v.question ? [v.question.label] : [])]
      .filter((t) => keysNamedIn(t).some((k) => state.model.keys.has(k) && !state.values.get(k, v.place).known))
      .map((t) => `${v.step.id}: ${t}`);
  it.each([
    ['a whole job', () => new Job()],
    ['a look at it', inspectionJob],
  ])('at any step of %s, as it comes', (_, make) => {
    const found = new Set<string>();
    const { model: of, file } = make();
    const read = of === model ? undefined : earlierValues(of.procedure, new Job().run().state);
    const earlier = read?.ok ? { earlier: read.values } : {};
    const out = replay(of, file, {
      ...earlier,
      stands: (_done, here) => {
        const { state } = here();
        const next = state.available()[0];
        if (next) for (const hole of holes(state, next)) found.add(hole);
      },
    });
    expect(out.ok).toBe(true);
    expect([...found]).toEqual([]);
  });
  it.each([
    ['grease-ran-out', 'a', 'weigh-half'],
    ['dose-wrong', 'a', 'refit-back'],
  ] as const)('nor at %s', (raise, at, before) => {
    const job = new Job().upTo(before, 'a');
    job.items.push({ raise, at });
    const { state } = job.run();
    const own = model.procedure.steps.filter((s) => s.branch === raise);
    expect(own.flatMap((s) => holes(state, state.view(s.id, at)!))).toEqual([]);
  });
});
