/**
 * The shipped procedure under fast fingers and a poor line: each answer of the practice job comes cut in another way, with
 * what a terminal says by itself before and between the keys. The journal holds what was meant, once and in its order.
 */
import { afterEach, expect, test } from 'vitest';
import type { Entry } from '../../src/engine/journal/entry.js';
import { long, random, seed, size } from '../setup/size.js';
import type { Clock } from './clock.js';
import { Driver, type Given, goOn, practiceFile, readReplay } from './drive.js';
import { says } from './given-entry.js';
import { closeTerminals, type TerminalUnderTest } from './harness.js';
import { jobBefore } from './job-at.js';
import { newProgram } from './program.js';
import { screenReader, shipped } from './read-screen.js';

afterEach(() => closeTerminals());

/** At least so many bursts; the daily ones are of filling and closing. */
const wanted = size(60, 1400);
const begins = long ? undefined : (['gap-fill', 'a'] as const);

/** A mouse, the focus, answers to questions that nobody asked, a title: none of it is a key, though a 9 stands in it. */
const noise = ['\x1b[<0;9;9M', '\x1b[I', '\x1b[O', '\x1b[?1;9c', '\x1b[9;9R', '\x1b]0;9\x07', '\x1bP9\x1b\\'];

/** The keys that stand in what is sent, each whole. */
const keysIn = (sent: string): string[] => sent.match(/\x1b\[[0-9;]*[A-Za-z~]|[^\x1b]/gu) ?? [sent];

test(`${wanted} bursts on the shipped procedure`, { timeout: 3_600_000 }, async () => {
  const next = random(seed);
  const pick = (below: number): number => Math.floor(next() * below);
  const file = readReplay(practiceFile);
  const { procedure } = shipped(file.procedure);
  const reader = screenReader(procedure);
  const count = { bursts: 0, bytes: 0, jobs: 0, meant: 0, extra: 0 };
  const lost: string[] = [];
  const ways = [0, 0, 0, 0, 0];

  /** The same terminal, with a line that cuts what is typed. */
  const cutting = (term: TerminalUnderTest, clock: Clock): TerminalUnderTest => {
    const write = (data: string | Uint8Array): void => {
      const sent = String(data);
      const way = pick(5);
      ways[way] = (ways[way] ?? 0) + 1;
      count.bursts++;
      // A key in pieces is whole before the silence after which its beginning counts, however late the line is.
      clock.slow(way === 2 ? 20 : 1);
      const pieces: readonly (string | Uint8Array)[] = [
        () => [sent],
        () => keysIn(sent),
        () => [...Buffer.from(sent)].map((byte) => Uint8Array.of(byte)),
        () => [noise[pick(noise.length)] ?? '', sent],
        () => keysIn(sent).flatMap((key) => [noise[pick(noise.length)] ?? '', key]),
      ][way]?.() ?? [sent];
      for (const piece of pieces) {
        count.bytes += piece.length;
        term.write(piece);
      }
    };
    return new Proxy(term, { get: (of, name) => (name === 'write' ? write : Reflect.get(of, name)) });
  };

  while (count.bursts < wanted) {
    count.jobs++;
    const program = newProgram();
    const confirmed: Given[] = [];
    const d = new Driver({ program, reader, procedure, file, pace: 'fast', confirmed: (g) => confirmed.push(g) });
    if (begins) await jobBefore(program, file, ...begins);
    const plain = program.open(begins ? ['resume'] : []);
    if (begins) await goOn(plain);
    else await d.begin(plain);
    const before = program.entries(file.name).length;
    const cut = cutting(plain, program.clock);
    while (count.bursts < wanted && (await d.step(cut)));
    const entries = (program.entries(file.name) as readonly Entry[]).slice(before);
    const told = entries.filter((e) => ['caution', 'answer', 'predict', 'done', 'sign'].includes(e.kind));
    let from = 0;
    for (const given of confirmed) {
      const at = told.findIndex((e, i) => i >= from && says(e, given));
      if (at < 0) lost.push(Object.values(given).join(' '));
      else from = at + 1;
    }
    count.meant += confirmed.length;
    count.extra += told.length - confirmed.length;
    program.remove();
    closeTerminals();
  }
  process.stdout.write(
    `${count.bursts} bursts in ${count.jobs} jobs, ${count.bytes} bytes, by way of cutting ${ways.join(' ')}: ${count.meant} meant, ${lost.length} lost or wrong, ${count.extra} too many (seed ${seed})\n`,
  );
  expect(lost).toEqual([]);
  expect(count.extra).toBe(0);
  expect(count.bursts).toBeGreaterThanOrEqual(wanted);
});
