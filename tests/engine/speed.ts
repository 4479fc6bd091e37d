/** Times of the engine on the shipped practice job: a whole replay, long run-in logs, one entry more. */
import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { calculators } from '../../src/calc/index.js';
import type { Table } from '../../src/calc/types.js';
import type { Entry } from '../../src/engine/journal/entry.js';
import { replay } from '../../src/engine/replay/replay.js';
import { type ReplayFile, replaySchema } from '../../src/engine/replay/replay-file.js';
import { State } from '../../src/engine/state/state.js';
import { type Model, modelOf } from '../../src/procedure/model.js';
import type { Procedure } from '../../src/procedure/schema.js';

const shipped = JSON.parse(readFileSync('dist/shipped.json', 'utf8')) as {
  tables: Table[];
  procedures: { procedure: Procedure; hash: string }[];
};
const tables = Object.fromEntries(shipped.tables.map((t) => [t.id, t]));
const regrease = shipped.procedures.find((p) => p.procedure.procedure === 'regrease-in-place')!.procedure;
const fresh = (): Model => modelOf(regrease, 'hash', tables, calculators);
const file = replaySchema.parse(
  parse(readFileSync('procedures/practice/college-30kw.replay.yaml', 'utf8')),
) as ReplayFile;

const median = (list: number[]): number => list.sort((a, b) => a - b)[list.length >> 1] ?? 0;
function time(name: string, work: () => unknown, times = 15): void {
  const first = performance.now();
  work();
  const cold = performance.now() - first;
  const all: number[] = [];
  for (let i = 0; i < times; i++) {
    const t = performance.now();
    work();
    all.push(performance.now() - t);
  }
  process.stdout.write(
    `${name.padEnd(58)} first ${cold.toFixed(1).padStart(7)} ms   median ${median(all).toFixed(2).padStart(7)} ms\n`,
  );
}

const model = fresh();
const t = performance.now();
const done = replay(model, file);
const spent = performance.now() - t;
if (!done.ok) throw new Error(done.message);
const { entries } = done.state;
process.stdout.write(`replay in a fresh process, ${entries.length} entries: ${spent.toFixed(1)} ms\n`);

time('replay again, expressions compiled', () => replay(model, file));
time('replay with a fresh model', () => replay(fresh(), file));
const now = Date.parse(entries.at(-1)?.at ?? '');
time('fold and all views of that job', () => new State(model, entries, now).views);

/** The job with rows of its run-in log repeated before its end. */
function grown(n: number): Entry[] {
  const first = entries.findIndex((e) => e.kind === 'answer' && e.step === 'run-in-log');
  const asked = new Set(model.steps.get('run-in-log')?.ask?.map((q) => q.key));
  const row = entries
    .slice(first)
    .filter((e): e is Extract<Entry, { kind: 'answer' }> => e.kind === 'answer' && asked.has(e.key))
    .slice(0, asked.size);
  const out: Entry[] = entries.slice(0, first);
  const start = Date.parse(entries[first]!.at);
  for (let i = 0; out.length < n; i++) {
    const e = row[i % row.length]!;
    out.push({ ...e, seq: out.length + 1, at: new Date(start + Math.floor(i / row.length) * 60_000).toISOString() });
  }
  return out;
}

for (const n of [2000, 20_000]) {
  const long = grown(n);
  const end = Date.parse(long.at(-1)!.at);
  time(`fold and all views, ${n} entries, log rows`, () => new State(model, long, end).views);
  const before = new State(model, long.slice(0, -1), end);
  void before.views;
  time(`one entry more after ${n - 1}, all views`, () => new State(model, long, end, { before }).views);
  time(
    `the clock ticks at ${n}, all views`,
    () => new State(model, long, end + 1000, { before: new State(model, long, end, { before }) }).views,
  );
}
