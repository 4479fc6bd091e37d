/** Devices, pipes and folders given where a file is wanted, and files where a folder is: one sentence, at once. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { goodFile, newFolder, run, storedJob } from './shell.js';

const oneSentence = ({ code, out, err }: { code: number | null; out: string; err: string }): void => {
  expect(code, err).not.toBe(null);
  expect(code).toBeGreaterThan(0);
  expect(code).toBeLessThan(70);
  expect(out).toBe('');
  expect(err.trimEnd().split('\n').length, err).toBeLessThan(3);
};

describe('a job whose file is damaged', () => {
  it('is named as that, and not twice by its number', async () => {
    const data = newFolder();
    mkdirSync(join(data, 'jobs'));
    writeFileSync(join(data, 'jobs', 'bench-nnxt6ga7.json'), '');
    for (const words of [
      ['sheet', 'Bench'],
      ['export', 'Bench', 'x.json'],
    ])
      expect((await run(...words, '--data', data)).err).toMatch(/^ {2}bench-nnxt6ga7 {2}\(Its file is damaged: .+\)$/m);
  });
});

describe('instead of a file', () => {
  const folder = newFolder();
  const pipe = join(folder, 'pipe');
  execFileSync('bash', ['-c', 'mkfifo "$0"', pipe]);
  const earlier = (path: string): string => {
    const file = join(folder, 'follows.replay.yaml');
    writeFileSync(
      file,
      `replay: 1\nname: x\nprocedure: inspect-after-run\nby: AP\nearlier: ${path}\nsteps: [ { step: statement } ]\n`,
    );
    return file;
  };
  it.each(['/dev/zero', '/dev/full', '/dev/tty', pipe])('%s is refused and not waited for', async (path) => {
    for (const ran of [
      await run('replay', path),
      await run('check', path),
      await run('outline', path),
      await run('replay', earlier(path)),
    ]) {
      oneSentence(ran);
      expect(ran.err).toContain('is no ordinary file');
    }
  });
});

describe('instead of a shop’s folder', () => {
  const empty = newFolder();
  mkdirSync(join(empty, 'tables'));
  it.each(['/etc/passwd', '/dev/null', '/proc', empty, '/no/such/folder'])('%s is never passed over', async (path) => {
    for (const ran of [await run('replay', goodFile, '--procedures', path), await run('check', '--procedures', path)]) {
      oneSentence(ran);
      expect(ran.err).toMatch(/folder/);
    }
  });
  it('an empty name neither', async () => {
    for (const name of ['--procedures', '--data']) {
      const ran = await run('replay', goodFile, `${name}=`);
      oneSentence(ran);
      expect(ran.err).toContain('is empty');
    }
  });
});

describe('a data folder that can’t be made', () => {
  const file = join(newFolder(), 'file');
  writeFileSync(file, '');
  it.each(['/proc/x', '/proc/1/x/y', join(file, 'x'), file])('%s', async (data) => {
    const from = newFolder();
    const exported = join(newFolder(), 'job.json');
    expect((await run('export', await storedJob(from), exported, '--data', from)).code).toBe(0);
    const ran = await run('import', exported, '--data', data);
    oneSentence(ran);
    expect(ran.err).toMatch(/could not be imported because .* Jobs that are here already are not touched/);
  });
});
