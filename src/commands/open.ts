/** `rotorside`, `rotorside resume`, `rotorside practice`: the guide on a terminal. */
import type { Library } from '../library/library.js';
import { openShipped } from '../library/open-library.js';
import { showProblem } from '../procedure/problem.js';
import type { LaidOut } from '../screens/app-contract.js';
import { defaultDataFolder, openStore } from '../store/open-store.js';
import type { Options } from './arguments.js';
import type { Ended } from './ended.js';
import { findJob } from './find-job.js';
import { PracticeClock } from './practice-clock.js';

type RunningStart = { job: string } | { practice: string; given: LaidOut };

/** What was set for practice on the command line. */
const givenOf = ({ by, mentor, lessons, from }: Options): LaidOut =>
  Object.fromEntries(
    Object.entries({ by, mentor, lessons, from }).flatMap(([k, v]) => (v === undefined ? [] : [[k, v]])),
  );

export async function open(o: Options): Promise<Ended> {
  if (!process.stdin.isTTY || !process.stdout.isTTY)
    return {
      err: 'The guide needs a terminal to stand on; without one run a job from a file: rotorside replay FILE.',
      code: 2,
    };
  const folder = o.data ?? defaultDataFolder();
  const clock = new PracticeClock();
  const store = openStore(folder, { clock: () => new Date(clock.now()) });
  let start: RunningStart | undefined;
  if (o.command === 'resume') {
    const id = findJob(store, o.rest[0]);
    if (typeof id !== 'string') return id;
    start = { job: id };
  } else if (o.command === 'practice') start = { practice: o.rest[0] ?? '', given: givenOf(o) };
  let library: Library | undefined;
  if (o.procedures) {
    // A shop's files may have mistakes: they are told before anything else.
    const { openShop } = await import('../library/open-shop.js');
    const opened = openShop(o.procedures);
    if (opened.problems.length) return { err: opened.problems.map(showProblem).join('\n'), code: 2 };
    library = opened.library;
  }
  // The guide speaks to no network; without this ink's layout would load node's HTTP client to read its own bytes.
  Reflect.deleteProperty(globalThis, 'fetch');
  const { runApp } = await import('./run-app.js');
  return { code: await runApp({ store, library: () => (library ??= openShipped()), folder, start, clock }) };
}
