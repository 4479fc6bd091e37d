/**
 * The built program under later versions of Node than the one that built it. They are fetched (npm packages that hold
 * one program each), so only in the long run.
 */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { closeTerminals, openTerminal } from '../pty/harness.js';
import { long } from '../setup/size.js';
import { goodFile, newFolder } from './shell.js';

afterEach(() => closeTerminals());

const cli = new URL('../../dist/cli.js', import.meta.url).pathname;
const ran = (node: string, args: readonly string[]) => spawnSync(node, [cli, ...args], { encoding: 'utf8' });
const commands = [
  ['--version'],
  ['check'],
  ['calc', 'speed-factor', 'bore=25', 'outside=52', 'speed=12000'],
  ['replay', goodFile],
  ['replay', goodFile, '--json'],
  ['outline', 'regrease-in-place'],
];
/** Powers and logarithms of two versions may differ in the last digit. */
const rounded = (out: string): string => out.replace(/\d+\.\d{10,}(?:e-?\d+)?/g, (n) => Number(n).toPrecision(12));
/** Where there is no network no version can be fetched; any other failure of npm is one. */
const unreachable = /ENOTFOUND|EAI_AGAIN|ECONNREFUSED|ECONNRESET|ETIMEDOUT|ENETUNREACH|EHOSTUNREACH/;

async function firstFrame(node: string, folder: string): Promise<void> {
  const term = openTerminal({ command: node, args: [cli, '--data', join(folder, 'data')] });
  await term.waitFor('Start a job');
  await term.taken();
  term.write('1');
  await term.waitFor('Which procedure?');
  term.press('ctrl-c');
  expect(await term.exit).toEqual({ code: 130 });
  expect(term.raw()).not.toMatch(/unrecognized|Warning/);
}

describe.skipIf(!long)('dist under', () => {
  test('this Node', async () => {
    for (const args of commands)
      expect(ran(process.execPath, args), args.join(' ')).toMatchObject({ status: 0, stderr: '' });
    await firstFrame(process.execPath, newFolder());
  });

  test.for(['22.23.3', '24.21.0'])('Node %s', async (version, { skip }) => {
    const folder = newFolder();
    const name = `node-${process.platform}-${process.arch}@${version}`;
    const got = spawnSync('npm', ['install', '--no-save', '--prefix', folder, name], { encoding: 'utf8' });
    if (got.status !== 0 && unreachable.test(got.stderr))
      skip(`Node ${version} was not tried: npm cannot reach its registry`);
    expect(got.status, got.stderr).toBe(0);
    const node = join(folder, 'node_modules/.bin/node');
    expect(spawnSync(node, ['--version'], { encoding: 'utf8' }).stdout.trim()).toBe(`v${version}`);
    for (const args of commands) {
      const { status, stdout, stderr } = ran(node, args);
      expect(stderr, args.join(' ')).toBe('');
      const here = ran(process.execPath, args);
      expect({ status, stdout: rounded(stdout) }).toEqual({ status: here.status, stdout: rounded(here.stdout) });
    }
    await firstFrame(node, folder);
  });
});
