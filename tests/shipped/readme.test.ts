/** The README: its pictures are reviewed captures, its commands run as they stand, and it opens with the job. */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { ranIn } from '../setup/commands.js';
import { newFolder, root, storedJob } from '../shell/shell.js';
import { frameSvg } from './frame-svg.js';

const read = (path: string): string => readFileSync(join(root, path), 'utf8');
const readme = read('README.md');

/** A capture of the reviewed ones, by its name. */
function capture(name: string): string {
  const found = new RegExp(`=== ${name} ===\\n([\\s\\S]*?)(?=\\n=== |$)`).exec(read('tests/pty/snapshots/80x24.txt'));
  if (!found?.[1]) throw new Error(`No capture is called ${name}`);
  return found[1];
}

describe('the README', () => {
  it.each([
    ['a gate', 'stop', 'A stop, and what can be done about it'],
    ['a dose', 'dose', 'The dose and what it rests on'],
  ])('shows %s as it was reviewed', async (name, file, title) => {
    expect(readme).toContain(`(.pictures/${file}.svg)`);
    await expect(frameSvg(capture(name), title)).toMatchFileSnapshot(join(root, '.pictures', `${file}.svg`));
  });

  it.skipIf(!existsSync(join(root, '.git')))(
    'names no file to write to that would stand among the changes of a clone',
    () => {
      const written = [...readme.matchAll(/^npx rotorside .*?(?:--out |export (?:--all|\S+) )(\S+)$/gm)].map(
        (m) => m[1]!,
      );
      expect(written.length).toBeGreaterThan(5);
      const { stdout } = spawnSync('git', ['check-ignore', ...written], { cwd: root, encoding: 'utf8' });
      expect(stdout.trim().split('\n')).toEqual(written);
    },
  );

  it('opens with the job in one paragraph, of about sixty words in short sentences, and then the two commands', () => {
    const [title, job, ...rest] = readme.split('\n\n');
    expect(title).toBe('# rotorside');
    const words = (text: string) => text.split(/\s+/).length;
    expect(words(job!)).toBeGreaterThan(45);
    expect(words(job!)).toBeLessThan(90);
    for (const sentence of job!.split(/(?<=\.)\s/)) expect(words(sentence), sentence).toBeLessThanOrEqual(20);
    expect(rest.slice(0, 2).join('\n')).toContain('npm ci && npm start\nnpm ci && npm test');
    const { scripts, bin } = JSON.parse(read('package.json'));
    expect(scripts).toHaveProperty('start');
    expect(scripts).toHaveProperty('test');
    expect(bin).toEqual({ rotorside: 'dist/cli.js' });
  });

  it('names only files that are there', () => {
    for (const [, link] of readme.matchAll(/\]\(([^)#]+)/g)) expect(existsSync(join(root, link!)), link).toBe(true);
  });

  it('has commands that can be pasted one by one, and each of them runs', async () => {
    const lines = [...readme.matchAll(/```sh\n([\s\S]*?)```/g)].flatMap((m) => m[1]!.trim().split('\n'));
    const ours = lines.filter((l) => !l.startsWith('npm '));
    expect(ours.length).toBeGreaterThan(12);
    const [here, data] = [newFolder(), newFolder()];
    symlinkSync(join(root, 'procedures'), join(here, 'procedures'));
    await storedJob(data);
    for (const line of ours) expect(line).toMatch(/^npx rotorside [^|;&<>[\]…]+$/);
    // The shell parts the words. That the built program says the same is tested once for each command (shell/started).
    const parted = spawnSync('bash', ['-c', ours.map((l) => `printf '%s\\n' ${l}; echo`).join('\n')], {
      encoding: 'utf8',
    });
    const words = parted.stdout
      .trimEnd()
      .split('\n\n')
      .map((l) => l.split('\n').slice(2));
    expect(words).toHaveLength(ours.length);
    for (const [i, line] of ours.entries()) {
      const r = await ranIn(here, words[i] ?? [], { ROTORSIDE_DATA: data });
      // Two procedures that differ are told by exit code 1.
      expect({ line, code: r.code, err: r.err }).toEqual({ line, code: line.includes(' diff ') ? 1 : 0, err: '' });
      expect(r.out.length, line).toBeGreaterThan(10);
    }
  });
});
