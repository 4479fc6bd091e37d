/** A practice job that is kept in memory, as it stands before what comes first is filled in. */
import { PracticeClock } from '../../src/commands/practice-clock.js';
import type { Draft, Entry } from '../../src/engine/journal/entry.js';
import { State } from '../../src/engine/state/state.js';
import type { OpenJob } from '../../src/screens/app-contract.js';
import type { PracticeRotor } from '../../src/training/practice-rotor.js';

export const START = Date.parse('2026-03-02T08:00:00Z');

/** A job that is kept nowhere, begun by AP. */
export function bareJob(rotor: PracticeRotor, from: string, mentor: string | undefined = 'MN', by = 'AP') {
  const clock = new PracticeClock(() => START);
  let entries: readonly Entry[] = [];
  const stamp = (d: Draft): Entry =>
    ({ ...d, seq: entries.length + 1, at: new Date(clock.now()).toISOString() }) as Entry;
  const { model } = rotor;
  entries = [
    stamp({
      kind: 'job',
      name: rotor.title,
      procedure: rotor.procedure,
      version: model.procedure.version,
      hash: model.hash,
      practice: rotor.id,
      apprentice: by,
      ...(mentor === undefined ? {} : { mentor }),
      from,
      by,
    }),
  ];
  clock.begin(entries);
  const job = {
    get entries() {
      return entries;
    },
    append(drafts: readonly Draft[]) {
      clock.before(drafts);
      for (const d of drafts) entries = [...entries, stamp(d)];
      return { ok: true, value: entries };
    },
  } as unknown as OpenJob;
  return { job, clock, state: () => new State(model, entries, clock.now()) };
}
