/**
 * The power goes, again and again, over a whole job. An answer is confirmed once the screen has moved past it; every
 * confirmed answer must be in the job when the program is started anew, in its order and with its value.
 */
import { afterEach, expect, test } from 'vitest';
import type { Entry } from '../../src/engine/journal/entry.js';
import { long, random, seed } from '../setup/size.js';
import { Driver, type Given, goOn, practiceFile, readReplay, recorded } from './drive.js';
import { says } from './given-entry.js';
import { closeTerminals, type TerminalUnderTest } from './harness.js';
import { jobBefore } from './job-at.js';
import { newProgram } from './program.js';
import { nameOf, screenReader, shipped } from './read-screen.js';

afterEach(() => closeTerminals());

interface Part {
  readonly name: string;
  /** Step, place and rows of a log that it begins with; the whole job when left out. */
  readonly from?: readonly [step: string, place: string, rows: number];
  /** Step before which it ends. */
  readonly to?: string;
  /** About so many answers come. */
  readonly answers: number;
  readonly kills: number;
}
/** Daily what is filled in and put together again, and the end with the last rows of the log; else five jobs. */
const parts: readonly Part[] = long
  ? [1, 2, 3, 4, 5].map((n) => ({ name: `job ${n}`, answers: 460, kills: 60 }))
  : [
      { name: 'filling and closing', from: ['gap-fill', 'a', 0], to: 'run-in-log', answers: 55, kills: 7 },
      { name: 'the end of the run-in', from: ['run-in-log', 'job', 40], answers: 35, kills: 5 },
    ];

/** Longest time from the key to the kill, ms: reaches from before the key is read until after the next frame. */
const longestDelay = 130;

const pause = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms));

/** How many of the confirmed are in the journal, each after the one before it. */
function found(confirmed: readonly Given[], entries: readonly Entry[]): Given[] {
  let from = 0;
  return confirmed.filter((g) => {
    const at = entries.findIndex((e, i) => i >= from && says(e, g));
    if (at >= 0) from = at + 1;
    return at >= 0;
  });
}

test.each(parts)('kills all over $name lose nothing that was confirmed', { timeout: 3_600_000 }, async (part) => {
  const next = random(seed + parts.indexOf(part) + 1);
  const file = readReplay(practiceFile);
  const program = newProgram();
  const { procedure } = shipped(file.procedure);
  const reader = screenReader(procedure);
  const confirmed: Given[] = [];
  const d = new Driver({ program, reader, procedure, file, pace: 'fast', confirmed: (g) => confirmed.push(g) });
  const { from } = part;
  if (from) {
    await jobBefore(program, file, ...from);
    d.setRow(from[0], from[2]);
  }
  let kills = 0;
  let early = 0;
  /** Answers that were on their way when the power went. */
  const flying: Given[] = [];
  let lost = 0;

  const killed = async (term: TerminalUnderTest, ms: number): Promise<void> => {
    await pause(ms);
    term.kill('SIGKILL');
    expect(await term.exit).toMatchObject({ signal: 9 });
    kills++;
  };
  const resumed = async (): Promise<TerminalUnderTest> => {
    // Some starts are cut short as well.
    while (next() < 0.3) {
      early++;
      await killed(program.open(['resume']), next() * 700);
    }
    const term = program.open(['resume']);
    await term.waitFor((s) => reader.read(s).kind === 'glance');
    return term;
  };

  let term = program.open(from ? ['resume'] : []);
  if (from) await goOn(term);
  else await d.begin(term);
  const before = program.entries(file.name).length;
  // Spread over it, never long without one.
  const untilNext = (): number => (0.5 + next()) * (part.answers / part.kills);
  for (let left = untilNext(); ; ) {
    const now = await d.stands(term);
    if (now.kind === 'finished' || (now.kind === 'step' && now.step.id === part.to)) break;
    if (now.kind !== 'step' || --left > 0) {
      await d.step(term);
      continue;
    }
    left = untilNext();
    d.pass(now);
    const { keys, given } = d.keysFor(now, term.screen());
    await d.press(term, next() < 0.15 ? keys.slice(0, Math.ceil(keys.length / 2)) : keys);
    await killed(term, next() * longestDelay);
    const last = reader.read(term.screen());
    const whole =
      term
        .screen()
        .split('\n')
        .filter((l) => /^ ?─{20}/.test(l)).length === 2;
    if (whole && last.kind !== 'other' && nameOf(last) !== nameOf(now) && recorded(now, last)) d.done(now, given);
    else flying.push(given);
    const entries = program.entries(file.name);
    lost += confirmed.length - found(confirmed, entries).length;
    d.setRow('run-in-log', entries.filter((e) => e.kind === 'answer' && e.key === 'sound').length);
    term = await resumed();
  }
  const entries = program.entries(file.name);
  const kept = found(confirmed, entries);
  const more = entries.length - before - kept.length;
  process.stdout.write(
    `${part.name}: killed ${kills} times (seed ${seed}): ${early} while starting, ${flying.length} before the answer was seen; ` +
      `${more} of those were kept all the same\n` +
      `confirmed ${confirmed.length}, found ${kept.length}, lost ${confirmed.length - kept.length}\n`,
  );
  expect(confirmed.filter((g) => !kept.includes(g))).toEqual([]);
  expect(lost).toBe(0);
  // Nothing is there that nobody gave.
  expect(entries.slice(before).filter((e) => ![...confirmed, ...flying].some((g) => says(e, g)))).toEqual([]);
  expect(kills).toBeGreaterThanOrEqual(part.kills / 2);
  expect((await program.sheet(file.name)).head.finished).toBe(part.to === undefined);
  program.remove();
});
