/** What reads the whole rows of a log is kept while a row is being written, and is the same as if worked out anew. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { replay } from '../../src/engine/replay/replay.js';
import type { ReplayFile } from '../../src/engine/replay/replay-file.js';
import { State } from '../../src/engine/state/state.js';
import type { Values } from '../../src/engine/values/values.js';
import { modelFor, root } from '../procedure/library.js';

const file = parse(readFileSync(`${root}procedures/practice/college-30kw.replay.yaml`, 'utf8')) as ReplayFile;
const model = modelFor(file.procedure);
const log = 'run-in-log';

/** The shipped job up to the second row of its run-in log. */
function begun(): State {
  const at = file.steps.findIndex((s) => 'step' in s && s.step === log);
  const item = file.steps[at]!;
  if (!('step' in item)) throw new Error('no log');
  const done = replay(model, {
    ...file,
    steps: [...file.steps.slice(0, at), { ...item, rows: item.rows!.slice(0, 2) }],
  });
  if (!done.ok) throw new Error(done.message);
  return done.state;
}

const lists = [...model.keys.values()].filter((k) => k.from.by === 'rows' && k.from.step.id === log).map((k) => k.key);
const read = (values: Values) =>
  [...lists, 'run_in_says', 'hottest', 'coldest'].map((key) => [key, values.get(key, 'job')]);

test('each answer in a row, a correction in it, and what comes out of the rows', () => {
  const { entries, now } = begun();
  const from = entries.findIndex((e) => 'step' in e && e.step === log);
  const last = entries.findLast((e) => e.kind === 'answer' && e.step === log && typeof e.value === 'number')!;
  if (last.kind !== 'answer') throw new Error('no reading');
  const { step, place, key, by, at } = last;
  const corrected = { kind: 'correct', step, place, key, by, at, seq: entries.length + 1 } as const;
  const all = [...entries, { ...corrected, of: last.seq, value: Number(last.value) + 1, reason: 'read wrongly' }];
  let state: State | undefined;
  const seen = new Set<string>();
  for (let n = from; n <= all.length; n++) {
    state = new State(model, all.slice(0, n), now, { before: state });
    const anew = new State(model, all.slice(0, n), now);
    expect(read(state.values), `after ${n} entries`).toEqual(read(anew.values));
    expect(state.view(log, 'job')).toEqual(anew.view(log, 'job'));
    seen.add(JSON.stringify(state.values.get(`rows_${log.replaceAll('-', '_')}`, 'job')));
  }
  // None, one, two; and the second corrected.
  expect(seen.size).toBe(4);
});

test('an answer in the middle of a row leaves the lists as they are, not only their figures', () => {
  const { entries, now } = begun();
  const inLog = entries.flatMap((e, i) => (e.kind === 'answer' && e.step === log ? [i] : []));
  const [, second = 0, third = 0] = inLog;
  const before = new State(model, entries.slice(0, second + 1), now);
  const lists = read(before.values);
  const after = new State(model, entries.slice(0, third + 1), now, { before });
  for (const [i, [, value]] of read(after.values).entries()) expect(value).toBe(lists[i]![1]);
});
