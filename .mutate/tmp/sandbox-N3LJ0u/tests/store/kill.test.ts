// @ts-nocheck
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { openStore } from '../../src/store/open-store.js';
import { size } from '../setup/size.js';
import { buildChild, startChild } from './child.js';
import { first, got, newFolder } from './sample-job.js';

const kills = size(15, 300);

test(`a process killed ${kills} times while saving loses nothing that was said to be saved`, async () => {
  const program = await buildChild('append-loop.ts');
  const folder = newFolder();
  const store = openStore(folder);
  let job = got(await store.create('Killed', first));
  let saved = 1;
  for (let turn = 0; turn < kills; turn++) {
    await job.close();
    // A fresh job now and then, so that each save stays quick and kills meet every part of one.
    if (turn % 10 === 0) {
      job = got(await store.create(`Killed ${turn}`, first));
      saved = 1;
      await job.close();
    }
    const child = startChild(program, folder, job.id);
    await child.said('open');
    await new Promise((resolve) => setTimeout(resolve, 3 + ((turn * 7) % 40)));
    child.process.kill('SIGKILL');
    await child.ended;
    const lines = child.lines();
    expect(lines.filter((line) => line.startsWith('trouble') || line.startsWith('read-only'))).toEqual([]);
    const last = Number(lines.at(-1)!.split(' ')[1]);
    expect(last).toBeGreaterThanOrEqual(saved);
    // At once, without recover: the lock of a dead process must not stand in the way, nor any damage.
    job = got(await openStore(folder).open(job.id));
    expect(job.readOnly).toBe(false);
    expect(job.entries.length).toBeGreaterThanOrEqual(last);
    expect(job.entries.length).toBeLessThanOrEqual(last + 1);
    saved = job.entries.length;
    expect(got(store.list()).find(({ id }) => id === job.id)!.entries).toBe(saved);
  }
  await job.close();
  expect(readdirSync(join(folder, 'jobs')).filter((name) => name.includes('.tmp-'))).toEqual([]);
});
