/** Journal to state and views, in process: the times of several folds of a grown practice job. */
import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { calculators } from '../../src/calc/index.js';
import type { Entry } from '../../src/engine/journal/entry.js';
import { replay } from '../../src/engine/replay/replay.js';
import { type ReplayFile, replaySchema } from '../../src/engine/replay/replay-file.js';
import { State } from '../../src/engine/state/state.js';
import { tablesOf } from '../../src/library/library.js';
import { modelOf } from '../../src/procedure/model.js';
import { shipped } from './prepare.js';

export async function benchEngine(sizes: readonly number[]): Promise<[number, number[]][]> {
  const { all, first } = shipped();
  const model = modelOf(first.procedure, first.hash, tablesOf(all.tables), calculators);
  const file = replaySchema.parse(
    parse(readFileSync('procedures/practice/college-30kw.replay.yaml', 'utf8')),
  ) as ReplayFile;
  const done = replay(model, file);
  if (!done.ok) throw new Error(done.message);
  const journals = sizes.map((n) => grown(done.state.entries, n));
  const times = sizes.map((): number[] => []);
  // In turn, so that code that is still being compiled touches all alike.
  for (let i = 0; i < 30; i++)
    journals.forEach((entries, at) => {
      const t = performance.now();
      const state = new State(model, entries, Date.parse(entries.at(-1)?.at ?? ''));
      if (state.views.length === 0) throw new Error('no views');
      if (i >= 10) times[at]?.push(performance.now() - t);
    });
  return sizes.map((n, at): [number, number[]] => [n, times[at] ?? []]);
}

/** The whole job's entries, filled up with corrections of its own answers and notes. */
function grown(entries: readonly Entry[], n: number): Entry[] {
  const out = [...entries];
  const answers = entries.filter((e) => e.kind === 'answer');
  for (let seq = out.length + 1; seq <= n; seq++) {
    const a = answers[seq % answers.length];
    const at = entries.at(-1)?.at ?? '';
    out.push(
      a && seq % 2
        ? ({
            kind: 'correct',
            seq,
            at,
            by: 'AB',
            step: a.step,
            place: a.place,
            of: a.seq,
            key: a.key,
            value: a.value,
            reason: 'bench',
          } as Entry)
        : { kind: 'note', seq, at, by: 'AB', place: 'job', text: `note ${seq}` },
    );
  }
  return out;
}
