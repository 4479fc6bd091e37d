/** A job that stands before a step of a replay file, without every key on the way there. */
import { rmSync } from 'node:fs';
import { calculators } from '../../src/calc/index.js';
import type { Entry } from '../../src/engine/journal/entry.js';
import { replay } from '../../src/engine/replay/replay.js';
import type { ReplayFile } from '../../src/engine/replay/replay-file.js';
import { type Model, modelOf } from '../../src/procedure/model.js';
import { putJob } from '../store/put-job.js';
import { goOn } from './drive.js';
import type { TerminalOptions, TerminalUnderTest } from './harness.js';
import { newProgram, type Program } from './program.js';
import { shipped } from './read-screen.js';

const models = new Map<string, Model>();
function modelFor(id: string): Model {
  const { procedure, hash, tables } = shipped(id);
  const model = models.get(hash) ?? modelOf(procedure, hash, tables, calculators);
  models.set(hash, model);
  return model;
}

const played = new WeakMap<ReplayFile, Map<string, readonly Entry[]>>();
/**
 * The journal of a job that stands before a step of the file. It is no practice job.
 * @param step first step that is not done; the whole file when left out
 * @param rows of a log to be left in, when it is that step
 */
export function entriesBefore(file: ReplayFile, step?: string, place = 'job', rows = 0): readonly Entry[] {
  const known = played.get(file) ?? new Map<string, readonly Entry[]>();
  played.set(file, known);
  const name = `${step}@${place}#${rows}`;
  const entries = known.get(name) ?? play(file, step, place, rows);
  known.set(name, entries);
  return entries;
}

function play(file: ReplayFile, step: string | undefined, place: string, rows: number): readonly Entry[] {
  const end = file.steps.findIndex((s) => 'step' in s && s.step === step && (s.at ?? 'job') === place);
  if (step !== undefined && end < 0) throw new Error(`The file has no ${step} at ${place}`);
  const steps = end < 0 ? [...file.steps] : file.steps.slice(0, end);
  const log = end < 0 ? undefined : file.steps[end];
  if (log && rows > 0 && 'step' in log) steps.push({ ...log, rows: log.rows?.slice(0, rows) });
  const done = replay(modelFor(file.procedure), { ...file, invented: false, steps });
  if (!done.ok) throw new Error(done.message);
  return done.state.entries;
}

/**
 * Puts a journal into the program's data folder as its own `import` does, and lets the program's clock stand so many
 * minutes after the last entry.
 */
async function put(program: Program, name: string, entries: readonly Entry[], later = 1): Promise<void> {
  await putJob(program.data, name, entries, () => 'fortests');
  program.stand(new Date(Date.parse(entries.at(-1)?.at ?? '') + later * 60_000).toISOString());
}

/** Puts the job before a step of the file into the program's data folder. */
export async function jobBefore(
  program: Program,
  file: ReplayFile,
  step?: string,
  place = 'job',
  rows = 0,
): Promise<void> {
  await put(program, file.name, entriesBefore(file, step, place, rows));
}

/**
 * One program for several jobs, one after the other: to start it takes longer than most of what is asked there. Each job
 * takes the place of the one before it, so that it may be one of the same name.
 */
export class InTurn {
  readonly program = newProgram();
  private term?: TerminalUnderTest;

  constructor(private readonly terminal: Omit<TerminalOptions, 'args'> = {}) {}

  /** Opens the job; on the bench at the size that is named, as after `resume`. */
  async open(
    name: string,
    entries: readonly Entry[],
    { cols = 80, rows = 24, later = 1 } = {},
  ): Promise<TerminalUnderTest> {
    const { program } = this;
    if (this.term?.ended()) this.term = undefined;
    if (this.term) await leave(this.term);
    rmSync(program.data, { recursive: true, force: true });
    await put(program, name, entries, later);
    if (this.term) await lookAnew(this.term, cols, rows);
    else this.term = program.open([], { cols, rows, ...this.terminal });
    const { term } = this;
    await term.waitFor('Start a job');
    await term.rest();
    term.press({ text: '1' });
    await goOn(term);
    // What comes now is a press of its own.
    await term.rest();
    return term;
  }

  remove(): void {
    this.program.remove();
  }
}

/** From a page that tells of the keys the first screen is come back to, and reads what jobs there are. */
async function lookAnew(term: TerminalUnderTest, cols: number, rows: number): Promise<void> {
  term.press({ text: '?' });
  await term.waitFor('All keys');
  term.resize(cols, rows);
  await term.taken();
  // What a window made smaller pushed up is the terminal's own.
  term.forget();
  await term.rest();
  term.press('escape');
}

/** To the first screen, out of whatever is typed or looked at. */
async function leave(term: TerminalUnderTest): Promise<void> {
  await term.taken();
  for (let i = 0; i < 9 && !term.screen().includes('Start a job'); i++) {
    await term.rest();
    term.press(/\bl leave this job/.test(term.screen()) ? { text: 'l' } : 'escape');
    await term.taken();
  }
  await term.waitFor('Start a job');
}
