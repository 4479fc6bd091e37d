/**
 * The built program under later versions of Node than the one that built it. They are fetched (npm packages that hold
 * one program each), so only in the long run.
 */
// @ts-nocheck

import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { closeTerminals, openTerminal } from '../pty/harness.js';
import { long } from '../setup/size.js';
import { goodFile, newFolder } from './shell.js';

afterEach(() => closeTerminals());

const cli = new URL('../../dist/cli.js', import.meta.url).pathname;
/** What this Node says. */
const here = (...args: string[]) => spawnSync(process.execPath, [cli, ...args], { encoding: 'utf8' });

describe.skipIf(!long)('dist under', () => {
  test.each(['22.23.3', '24.21.0'])('Node %s', async (version) => {
    const folder = newFolder();
    const name = `node-${process.platform}-${process.arch}@${version}`;
    const got = spawnSync('npm', ['install', '--no-save', '--prefix', folder, name], { encoding: 'utf8' });
    expect(got.status, got.stderr).toBe(0);
    const node = join(folder, 'node_modules/.bin/node');
    const there = (...args: string[]) => spawnSync(node, [cli, ...args], { encoding: 'utf8' });
    expect(spawnSync(node, ['--version'], { encoding: 'utf8' }).stdout.trim()).toBe(`v${version}`);
    for (const args of [
      ['--version'],
      ['check'],
      ['calc', 'speed-factor', 'bore=25', 'outside=52', 'speed=12000'],
      ['replay', goodFile],
      ['replay', goodFile, '--json'],
      ['outline', 'regrease-in-place'],
    ]) {
      const { status, stdout, stderr } = there(...args);
      expect(stderr, args.join(' ')).toBe('');
      expect({ status, stdout }).toEqual({ status: here(...args).status, stdout: here(...args).stdout });
    }
    const term = openTerminal({ command: node, args: [cli, '--data', join(folder, 'data')] });
    await term.waitFor('Start a job');
    await term.taken();
    term.write('1');
    await term.waitFor('Which procedure?');
    term.press('ctrl-c');
    expect(await term.exit).toEqual({ code: 130 });
    expect(term.raw()).not.toMatch(/unrecognized|Warning/);
  });
});
