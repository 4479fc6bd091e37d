// @ts-nocheck
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { buildChild, startChild } from './child.js';
import { makeJob, newFolder } from './sample-job.js';

const canTrace = spawnSync('strace', ['-e', 'trace=fsync', 'true'], { stdio: 'ignore' }).status === 0;

// POSIX fsync(2) and rename(2): content reaches the disk by an fsync of the file, its new name by one of the folder. [P]
test.skipIf(!canTrace)(
  `before append returns: file synced, renamed, folder synced${canTrace ? '' : ' (skipped: no strace)'}`,
  async () => {
    const { folder, job } = await makeJob(1);
    await job.close();
    const program = await buildChild('append-loop.ts');
    const trace = join(newFolder(), 'trace');
    const tracer = ['strace', '-y', '-f', '-e', 'trace=openat,fsync,rename,write', '-o', trace] as const;
    await startChild(...tracer, process.execPath, program, folder, job.id, '5').ended;
    const calls = readFileSync(trace, 'utf8').split('\n');
    const said = calls.findIndex((line) => line.includes('"saved 4'));
    const before = calls.slice(
      calls.findIndex((line) => line.includes('"saved 3')),
      said,
    );
    const at = (pattern: RegExp): number => before.findIndex((line) => pattern.test(line));
    const steps = [
      at(/openat\(.*\/jobs\/[^"]*\.json\.tmp-/),
      at(/fsync\(\d+<.*\/jobs\/.*\.json\.tmp-/),
      at(/rename\(".*\/jobs\/.*\.json\.tmp-[^"]*", ".*\/jobs\/[^"]*\.json"/),
      at(/fsync\(\d+<[^>]*\/jobs>/),
    ];
    expect(steps.every((step) => step >= 0)).toBe(true);
    expect(steps).toEqual([...steps].sort((one, two) => one - two));
  },
);
