/** `rotorside`, `rotorside resume`, `rotorside practice`: the guide on a terminal. */
import type { Ended } from '../cli.js';
import { openLibrary } from '../library/open-library.js';
import { showProblem } from '../procedure/problem.js';
import { defaultDataFolder, openStore } from '../store/open-store.js';
import type { Options } from './arguments.js';
import { findJob } from './find-job.js';

export async function open(o: Options): Promise<Ended> {
  if (!process.stdin.isTTY || !process.stdout.isTTY)
    return {
      err: 'The guide needs a terminal to stand on; without one run a job from a file: rotorside replay FILE.',
      code: 2,
    };
  const folder = o.data ?? defaultDataFolder();
  const store = openStore(folder);
  let start: { job: string } | { practice: string } | undefined;
  if (o.command === 'resume') {
    const id = findJob(store, o.rest[0]);
    if (typeof id !== 'string') return id;
    start = { job: id };
  } else if (o.command === 'practice') start = { practice: o.rest[0] ?? '' };
  const { library, problems } = await openLibrary(o.procedures);
  if (problems[0]) return { err: problems.map(showProblem).join('\n'), code: 2 };
  const { runApp } = await import('./run-app.js');
  return { code: await runApp({ store, library, folder, start }) };
}
