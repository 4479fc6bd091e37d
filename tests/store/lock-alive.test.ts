/** The lock of a process that lives, held against a second process. */
import { utimesSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { openStore } from '../../src/store/open-store.js';
import { buildChild, startChild } from './child.js';
import { got, makeJob } from './sample-job.js';

test('another process that is alive keeps its lock, also when it is stopped for longer than a lock lives', async () => {
  const { folder, job } = await makeJob(1);
  await job.close();
  const child = startChild(await buildChild('append-loop.ts'), folder, job.id);
  await child.said('saved');
  child.process.kill('SIGSTOP');
  const lock = join(folder, 'locks', `${job.id}.lock`);
  const old = new Date(Date.now() - 60_000);
  utimesSync(lock, old, old);
  const look = got(await openStore(folder).open(job.id));
  expect(look.readOnly).toBe(true);
  expect(look.whyReadOnly).toContain(`process ${child.process.pid}`);
  child.process.kill('SIGKILL');
  await child.ended;
  const again = got(await openStore(folder).open(job.id));
  expect(again.readOnly).toBe(false);
  await again.close();
});
