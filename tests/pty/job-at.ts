/** A job that stands before a step of a replay file, without every key on the way there. */
import { calculators } from '../../src/calc/index.js';
import { replay } from '../../src/engine/replay/replay.js';
import type { ReplayFile } from '../../src/engine/replay/replay-file.js';
import { type Model, modelOf } from '../../src/procedure/model.js';
import { putJob } from '../store/put-job.js';
import { goOn } from './drive.js';
import { newProgram, type Program } from './program.js';
import { shipped } from './read-screen.js';

const models = new Map<string, Model>();
function modelFor(id: string): Model {
  const { procedure, hash, tables } = shipped(id);
  const model = models.get(hash) ?? modelOf(procedure, hash, tables, calculators);
  models.set(hash, model);
  return model;
}

/**
 * Puts the job into the program's data folder as its own `import` does, and lets the program's clock stand a minute after
 * the last entry. It is no practice job.
 * @param step first step that is not done; the whole file when left out
 * @param rows of a log to be left in, when it is that step
 */
export async function jobBefore(
  program: Program,
  file: ReplayFile,
  step?: string,
  place = 'job',
  rows = 0,
): Promise<void> {
  const end = file.steps.findIndex((s) => 'step' in s && s.step === step && (s.at ?? 'job') === place);
  if (step !== undefined && end < 0) throw new Error(`The file has no ${step} at ${place}`);
  const steps = end < 0 ? [...file.steps] : file.steps.slice(0, end);
  const log = end < 0 ? undefined : file.steps[end];
  if (log && rows > 0 && 'step' in log) steps.push({ ...log, rows: log.rows?.slice(0, rows) });
  const done = replay(modelFor(file.procedure), { ...file, invented: false, steps });
  if (!done.ok) throw new Error(done.message);
  const { entries } = done.state;
  await putJob(program.data, file.name, entries, () => 'fortests');
  program.stand(new Date(Date.parse(entries.at(-1)?.at ?? '') + 60_000).toISOString());
}

/** The program on such a job, resumed to what it `shows`, and how many entries it stands on. */
export async function standingAt(file: ReplayFile, step: string, place: string, shows: string) {
  const program = newProgram();
  await jobBefore(program, file, step, place);
  const term = program.open(['resume']);
  await goOn(term);
  await term.waitFor(shows);
  return { program, term, before: program.entries(file.name).length };
}
