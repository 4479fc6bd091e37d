/** What was typed behind the command: nothing of it reaches the terminal as a command to it, and help is to the point. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { newFolder, run, storedJob } from './shell.js';

const evil = '\u001b]0;owned\u0007\u001b[31mred\u009b2J\u202e';
const clean = (text: string): void =>
  expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e]/);

describe('an escape sequence in an argument', () => {
  it('comes to nothing', async () => {
    const data = newFolder();
    const id = await storedJob(data);
    const ran = [
      await run(evil),
      await run(`--${evil}`),
      await run('sheet', evil, '--data', data),
      await run('sheet', id, '--format', evil, '--data', data),
      await run('sheet', id, '--out', join(newFolder(), `x${evil}`), '--data', data),
      await run('export', id, join(newFolder(), `y${evil}`), '--data', data),
      await run('replay', evil),
      await run('check', evil),
      await run('outline', evil),
      await run('diff', evil, evil),
      await run('schema', evil),
      await run('practice', evil),
      await run('progress', evil, '--data', data),
      await run('calc', evil),
      await run('calc', 'syringe', `bore=${evil}`),
      await run('replay', 'x', '--procedures', evil),
      await run('import', evil, '--data', data),
    ];
    for (const { code, out, err } of ran) {
      clean(out);
      clean(err);
      expect(out + err).not.toBe('');
      expect(code).not.toBe(70);
    }
  });
});

it('a name that is too long for any file gets one clear sentence', async () => {
  const long = 'x'.repeat(20_000);
  for (const ran of [
    await run('import', long, '--data', newFolder()),
    await run('replay', long),
    await run('check', long),
  ]) {
    expect(ran.err).toContain('There is no such file: its name is too long.');
    expect([1, 2]).toContain(ran.code);
  }
});

describe('help', () => {
  it('of one calculator tells of that one', async () => {
    for (const ran of [
      await run('calc', 'syringe', '--help'),
      await run('calc', '--help', 'syringe'),
      await run('calc', '-h', 'syringe'),
    ]) {
      expect(ran.code).toBe(0);
      expect(ran.out).toMatch(/^syringe: /);
      expect(ran.out).toContain('bore');
      expect(ran.out).not.toContain('rotorside resume');
    }
    const all = (await run('calc', '--help')).out;
    expect(all).toContain('rotorside resume');
    // C2, C3 are marks of clearance.
    expect(all).not.toMatch(/--by \S*C\d/);
  });
});

it('flags that mean nothing are refused, by name and with what to do', async () => {
  const cases: readonly (readonly string[])[] = [
    ['calc', 'speed-factor', '--out', 'x'],
    ['check', '--out', 'x'],
    ['schema', '--data', 'x'],
    ['outline', '--format', 'html'],
    ['export', 'a', 'b', '--json'],
    ['progress', '--full'],
    ['replay', 'x.yaml', '--data', 'x'],
    ['resume', '--format', 'json'],
    ['sheet', '--debrief'],
    ['--json'],
  ];
  for (const args of cases) {
    const done = await run(...args);
    expect(done).toMatchObject({ code: 2, out: '' });
    expect(done.err).toMatch(/^--[a-z]+ means nothing to (the guide|“rotorside [a-z]+”); rotorside --help lists/);
  }
  expect((await run('sheet', '--json', '--format', 'html')).err).toContain('say different things');
});

it('a replay gives its sheet in any format, into a new file where one is named', async () => {
  const good = new URL('../../procedures/practice/college-30kw.replay.yaml', import.meta.url).pathname;
  const file = join(newFolder(), 'sheet.html');
  expect(await run('replay', good, '--format', 'html', '--out', file)).toMatchObject({ code: 0, err: '' });
  expect(readFileSync(file, 'utf8')).toMatch(/^<!doctype html>/);
  expect((await run('replay', good, '--format', 'html', '--out', file)).err).toContain('is there already');
  expect((await run('replay', good)).out).not.toContain('## How the figures were worked out');
  expect((await run('replay', good, '--full')).out).toContain('## How the figures were worked out');
  expect(await run('replay', good, '--format', 'pdf')).toMatchObject({ code: 2 });
  expect((await run('replay', good, '--debrief', '--out', file)).err).toContain('A debrief has no');
});

it('a word too many is refused, with what to type: nothing is dropped in silence', async () => {
  const cases: readonly (readonly [words: readonly string[], says: string])[] = [
    [['sheet', 'Alfa', 'Beta'], 'rotorside sheet "Alfa Beta"'],
    [['resume', 'Alfa', 'Beta'], 'rotorside resume "Alfa Beta"'],
    [['history', 'R', '7'], 'rotorside history "R 7"'],
    [['replay', 'a.yaml', 'b.yaml'], '“b.yaml” is one too many'],
    [['table', 'Alfa'], '“rotorside table” takes no name; leave “Alfa” out.'],
    [['sources', 'P'], 'leave “P” out'],
    [['export', 'Alfa', 'Beta', 'x.json'], '“x.json” is one too many'],
    [['export', '--all', 'all', 'jobs'], 'rotorside export --all "all jobs"'],
    [['diff', 'a', 'b', 'c'], '“c” is one too many'],
  ];
  for (const [words, says] of cases) {
    const { code, err, out } = await run(...words);
    expect([code, out], words.join(' ')).toEqual([2, '']);
    expect(err).toContain(says);
  }
});

it('an export without its file is told by the job that was named', async () => {
  expect((await run('export', 'Test Bench')).err).toContain('type rotorside export "Test Bench" job.json');
  expect((await run('export')).err).toContain('type rotorside export JOB FILE');
  expect((await run('export', '--all')).err).toContain('type rotorside export --all all-jobs');
});

it('the folder that comes with the program is clean', async () => {
  const { code, out, err } = await run('check', 'procedures');
  expect(err).toBe('');
  expect([code, out]).toEqual([0, expect.stringMatching(/^\d+ files checked, no mistakes\.\n$/)]);
});

describe('an outline', () => {
  it('with ids names steps, questions and options as files do', async () => {
    const { out } = await run('outline', 'regrease-in-place', '--ids');
    expect(out).toMatch(/^### \d+\. Which bearings `ends`$/m);
    expect(out).toMatch(/^- \[ \] Bearings to open `ends`: /m);
    expect(out).toContain('  - `both`, `first-only`, `second-only`');
    expect((await run('outline', 'regrease-in-place')).out).not.toContain('`first-only`');
  });
  it('of a file that holds none says so', async () => {
    const { code, err } = await run('outline', 'README.md');
    expect(code).toBe(2);
    expect(err).toContain('README.md holds no procedure; name one (inspect-after-run, regrease-in-place)');
  });
});
