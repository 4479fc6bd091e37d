/**
 * The power goes, again and again, over a whole job. An answer is confirmed once the screen has moved past it; every
 * confirmed answer must be in the job when the program is started anew, in its order and with its value.
 */
import { afterEach, expect, test } from 'vitest';
import type { Entry } from '../../src/engine/entry.js';
import { Driver, type Given, practiceFile, readReplay, recorded } from './drive.js';
import { closeTerminals, type TerminalUnderTest } from './harness.js';
import { newProgram } from './program.js';
import { nameOf, screenReader, shipped } from './read-screen.js';

afterEach(closeTerminals);

const seed = Number(process.env.PTY_SEED ?? 20_260_302);
const wantedKills = 56;
/** Longest time from the key to the kill, ms: reaches from before the key is read until after the next frame. */
const longestDelay = 130;

/** Mulberry32, a small generator of even numbers from 0 to 1. */
function random(from: number): () => number {
  let state = from;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}

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
function says(e: Entry, g: Given): boolean {
  if (e.kind !== g.kind || !('step' in e) || e.step !== g.step || e.place !== g.place) return false;
  if (e.kind !== 'answer' && e.kind !== 'predict') return true;
  if (e.key !== g.key) return false;
  const wanted = g.text ?? '';
  // What was typed is kept as typed; what was picked is its value.
  const value = Array.isArray(e.value)
    ? e.value.join(',')
    : e.value === true
      ? 'yes'
      : e.value === false
        ? 'no'
        : String(e.value);
  // A bare figure is kept with the unit that stood behind it, where that was not the question's own.
  const typed = e.typed === wanted || e.typed?.startsWith(`${wanted} `);
  return typed || value === wanted || (wanted === '' && e.typed === undefined);
}

test('kills all over a whole job lose nothing that was confirmed', { timeout: 400_000 }, async () => {
  const next = random(seed);
  const file = readReplay(practiceFile);
  const program = newProgram();
  const { procedure } = shipped(file.procedure);
  const reader = screenReader(procedure);
  const confirmed: Given[] = [];
  const d = new Driver({ program, reader, procedure, file, pace: 'fast', confirmed: (g) => confirmed.push(g) });
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

  let term = program.open();
  await d.begin(term);
  for (;;) {
    const now = await d.stands(term);
    if (now.kind === 'finished') break;
    // Spread over the job, and made up for when the end comes near.
    if (now.kind !== 'step' || next() > wantedKills / 340) {
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
  const more = entries.length - 1 - kept.length;
  process.stdout.write(
    `killed ${kills} times (seed ${seed}): ${early} while starting, ${flying.length} before the answer was seen; ` +
      `${more} of those were kept all the same\n` +
      `confirmed ${confirmed.length}, found ${kept.length}, lost ${confirmed.length - kept.length}\n`,
  );
  expect(confirmed.filter((g) => !kept.includes(g))).toEqual([]);
  expect(lost).toBe(0);
  // Nothing is there that nobody gave.
  expect(entries.slice(1).filter((e) => ![...confirmed, ...flying].some((g) => says(e, g)))).toEqual([]);
  expect(kills).toBeGreaterThanOrEqual(50);
  expect(program.sheet(file.name).head.finished).toBe(true);
  program.remove();
});
