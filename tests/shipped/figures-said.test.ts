/** A figure that a warning or a step says in words stands in the list of sources, with who says it or "no source". */
import { expect, it } from 'vitest';
import { calculators } from '../../src/calc/index.js';
import { sayOf } from '../../src/procedure/caution.js';
import { sourcesOf } from '../../src/review/sources.js';
import { library, modelFor } from '../procedure/library.js';

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

it('is told by the command too', () => {
  const all = sourcesOf(Object.values(library.tables), Object.values(calculators), []);
  const lines = JSON.stringify(all);
  for (const row of ['sparks-away', 'implant-away', 'burn', 'touch', 'plugs-away'])
    expect(lines).toContain(`${row}: value`);
});
