/** Each command by the built program and in the process of the tests: the same words and the same end. */
import { join } from 'node:path';
import { beforeAll, expect, it } from 'vitest';
import { goodFile, newFolder, root, run, started, storedJob } from './shell.js';

const data = newFolder();
let id = '';
beforeAll(async () => {
  id = await storedJob(data);
});
const look = join(root, 'procedures/inspect-after-run.yaml');
const caught = join(root, 'procedures/practice/glitter.caught.replay.yaml');

it.each<readonly string[]>([
  ['--version'],
  ['--help'],
  ['nothing-of-that-name'],
  ['resume'],
  ['practice'],
  ['practice', '--any', '17', '--json'],
  ['sheet', 'JOB', '--full', '--data', data],
  ['sheet', '--format', 'tag', '--data', data],
  ['table', '--format', 'ndjson', '--data', data],
  ['replay', goodFile, '--json'],
  ['replay', caught, '--debrief'],
  ['debrief', 'JOB', '--data', data],
  ['progress', 'AP', '--data', data],
  ['progress', '--format', 'html', '--data', data],
  ['due', '--data', data],
  ['history', '--data', data],
  ['calc', 'syringe', 'bore=14.5', 'doses=1ml', '--json'],
  ['check'],
  ['check', look, goodFile],
  ['check', '--words', look],
  ['sources', '--tag', 'P', '--json'],
  ['outline', 'inspect-after-run'],
  ['diff', 'regrease-in-place', look],
  ['schema', 'table'],
  ['export', 'JOB', goodFile, '--data', data],
  ['import', goodFile, '--data', data],
])('%s %s %s', async (...words) => {
  const named = words.map((w) => (w === 'JOB' ? id : w));
  // A sheet says in which minute it was made.
  const minute = (): number => Math.floor(Date.now() / 60_000);
  for (let from = -1; from !== minute(); ) {
    from = minute();
    const built = started(...named);
    const here = await run(...named);
    if (from === minute()) expect(built).toEqual(here);
  }
});
