/**
 * The power goes, again and again, over a whole job. An answer is confirmed once the screen has moved past it; every
 * confirmed answer must be in the job when the program is started anew, in its order and with its value.
 */
import { afterEach, expect, test } from 'vitest';
import type { Entry } from '../../src/engine/entry.js';
import { long, random, seed, size } from '../setup/size.js';
import { Driver, type Given, goOn, practiceFile, readReplay, recorded } from './drive.js';
import { says } from './given-entry.js';
import { closeTerminals, type TerminalUnderTest } from './harness.js';
import { jobBefore } from './job-at.js';
import { newProgram } from './program.js';
import { nameOf, screenReader, shipped } from './read-screen.js';

afterEach(() => closeTerminals());

/** Kills in each job, and jobs: the daily one is the last part of a job. */
const wantedKills = size(10, 60);
const jobs = Array.from({ length: size(1, 5) }, (_, i) => i + 1);
const begins = long ? undefined : (['gap-fill', 'a'] as const);

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
test.each(jobs)('kills all over job %i lose nothing that was confirmed', { timeout: 3_600_000 }, async (job) => {
  const next = random(seed + job);
  const file = readReplay(practiceFile);
  const program = newProgram();
  const { procedure } = shipped(file.procedure);
  const reader = screenReader(procedure);
  const confirmed: Given[] = [];
  const d = new Driver({ program, reader, procedure, file, pace: 'fast', confirmed: (g) => confirmed.push(g) });
  if (begins) await jobBefore(program, file, ...begins);
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
    while (next() < 0.15) {
      early++;
      await killed(program.open(['resume']), next() * 700);
    }
    const term = program.open(['resume']);
    await term.waitFor((s) => reader.read(s).kind === 'glance');
    return term;
  };

  let term = program.open(begins ? ['resume'] : []);
  if (begins) await goOn(term);
  else await d.begin(term);
  const before = program.entries(file.name).length;
  /** About so many answers come. */
  const answers = begins ? 90 : 340;
  for (;;) {
    const now = await d.stands(term);
    if (now.kind === 'finished') break;
    // Spread over the job, and made up for when the end comes near.
    if (now.kind !== 'step' || next() > wantedKills / answers) {
      await d.step(term);
      continue;
    }
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
    `killed ${kills} times (seed ${seed}): ${early} while starting, ${flying.length} before the answer was seen; ` +
      `${more} of those were kept all the same\n` +
      `confirmed ${confirmed.length}, found ${kept.length}, lost ${confirmed.length - kept.length}\n`,
  );
  expect(confirmed.filter((g) => !kept.includes(g))).toEqual([]);
  expect(lost).toBe(0);
  // Nothing is there that nobody gave.
  expect(entries.slice(before).filter((e) => ![...confirmed, ...flying].some((g) => says(e, g)))).toEqual([]);
  expect(kills).toBeGreaterThanOrEqual(wantedKills / 2);
  expect(program.sheet(file.name).head.finished).toBe(true);
  program.remove();
});
