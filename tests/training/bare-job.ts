/** A practice job that is kept in memory, as it stands before what comes first is filled in. */
import { type FirstEntry, inMemory } from '../../src/commands/fill-practice.js';
import { PracticeClock } from '../../src/commands/practice-clock.js';
import { State } from '../../src/engine/state/state.js';
import type { PracticeRotor } from '../../src/training/practice-rotor.js';

export const START = Date.parse('2026-03-02T08:00:00Z');

/** A job that is kept nowhere, begun by AP. */
export function bareJob(rotor: PracticeRotor, from: string, mentor: string | undefined = 'MN', by = 'AP') {
  const clock = new PracticeClock(() => START);
  const { model } = rotor;
  const first: FirstEntry = {
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
  };
  const job = inMemory(first, clock);
  return { job, clock, first, state: () => new State(model, job.entries, clock.now()) };
}
