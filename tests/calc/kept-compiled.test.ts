/** What V8 kept of compiling a command is only quicker: without it, or with a spoilt one, all comes out the same. */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, it } from 'vitest';
import { whileNobodyBuilds } from '../setup/build.js';

const root = fileURLToPath(new URL('../..', import.meta.url));
const own = mkdtempSync(join(tmpdir(), 'rotorside-compiled-'));
// Of a build that goes on beside it, half of the new parts and half of the old ones would be no program.
await whileNobodyBuilds(() => cpSync(join(root, 'dist'), join(own, 'dist'), { recursive: true }));
afterAll(() => rmSync(own, { recursive: true, force: true }));

const commands = {
  calc: ['calc', 'speed-factor', 'bore=25', 'outside=52', 'speed=12000'],
  // One that ends at a stop, so it is soon done.
  replay: ['replay', join(root, 'procedures/practice/paper-hybrid.caught.replay.yaml')],
};
const kept = (name: string): string => {
  const file = readdirSync(join(own, 'dist')).find((f) => f.startsWith(`part-${name}-`) && f.endsWith('.bin'));
  if (!file) throw new Error(`nothing was kept of ${name}`);
  return join(own, 'dist', file);
};
const env = { ...process.env, ROTORSIDE_TRACE: '1' };
const run = (args: readonly string[], ...flags: readonly string[]): string => {
  const done = spawnSync(process.execPath, [...flags, join(own, 'dist/cli.js'), ...args], {
    encoding: 'utf8',
    cwd: own,
    env,
    maxBuffer: 1e8,
  });
  expect({ code: done.status, err: done.stderr }).toEqual({ code: 0, err: '' });
  return done.stdout;
};

for (const [name, args] of Object.entries(commands))
  it(`${name} says the same with and without`, () => {
    const file = kept(name);
    const whole = readFileSync(file);
    const wanted = run(args);
    expect(wanted.length).toBeGreaterThan(100);
    // Flags of another kind: what was kept does not fit.
    expect(run(args, '--no-opt')).toBe(wanted);
    for (const spoil of [
      () => truncateSync(file, 5000),
      () => writeFileSync(file, Buffer.alloc(whole.length)),
      () => writeFileSync(file, ''),
      () => rmSync(file),
    ]) {
      spoil();
      expect(run(args)).toBe(wanted);
      writeFileSync(file, whole);
    }
  });

it('replay loads its further parts from there too', () => {
  const done = spawnSync(process.execPath, [join(own, 'dist/cli.js'), ...commands.replay, '--procedures', own], {
    encoding: 'utf8',
    env,
  });
  expect({ code: done.status, err: done.stderr }).toEqual({ code: 2, err: expect.stringContaining(own) });
});
