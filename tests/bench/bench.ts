/**
 * Measures the real program against its baselines in the same run: `npm run bench`.
 * Prints a table of medians and ratios and stores it in .bench/result.json.
 */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { durable } from './durable.js';
import { benchEngine } from './engine.js';
import { firstFrame, keyToFrame, peakMemory, wholeRun } from './measure.js';
import { makeHello, makeJobs, makeLongJob } from './prepare.js';
import { median, quantile, type Row, show } from './table.js';

const RUNS = Number(process.env.BENCH_RUNS ?? 15);
const work = '.bench';
rmSync(`${work}/data`, { recursive: true, force: true });
mkdirSync(`${work}/data`, { recursive: true });

const hello = await makeHello(work);
const folders = new Map<number, string>();
for (const n of [0, 10, 100, 10_000]) folders.set(n, await makeJobs(`${work}/data/${n}`, n));
const long = await makeLongJob(`${work}/data/long`, 2000);

const rows: Row[] = [];
const add = (what: string, unit: string, value: number, against?: string, goal?: string): void => {
  const base = rows.find((r) => r.what === against);
  rows.push({ what, unit, value, against, ratio: base ? value / base.value : undefined, goal });
};

/** Each round runs every command once, so that a drift of the machine touches all alike. */
async function rounds(tasks: Record<string, () => number | Promise<number>>): Promise<Record<string, number[]>> {
  const out: Record<string, number[]> = Object.fromEntries(Object.keys(tasks).map((k) => [k, []]));
  for (let i = -1; i < RUNS; i++)
    for (const [name, task] of Object.entries(tasks)) {
      const ms = await task();
      if (i >= 0) out[name]?.push(ms);
    }
  return out;
}

const cli = 'dist/cli.js';
const practice = 'procedures/practice/college-30kw.replay.yaml';
const whole = await rounds({
  node: () => wholeRun(['-e', '0']),
  version: () => wholeRun([cli, '--version']),
  calc: () => wholeRun([cli, 'calc', 'speed-factor', 'bore=25', 'outside=52', 'speed=12000']),
  replay: () => wholeRun([cli, 'replay', practice]),
});
add('bare node', 'ms', median(whole.node ?? []));
add('--version', 'ms', median(whole.version ?? []), 'bare node', '<= 1.3');
add('calc', 'ms', median(whole.calc ?? []), 'bare node', '<= 1.3');
add('replay of the whole practice job', 'ms', median(whole.replay ?? []), 'bare node', '<= 2');

const frames = await rounds({
  hello: () => firstFrame([hello], 'hello'),
  ...Object.fromEntries(
    [...folders].map(([n, dir]) => [String(n), () => firstFrame([cli, '--data', dir], /start a (new )?job/i)]),
  ),
});
add('bundled ink hello, first frame', 'ms', median(frames.hello ?? []));
for (const n of folders.keys())
  add(
    `first frame, ${n} jobs`,
    'ms',
    median(frames[String(n)] ?? []),
    n > 10 ? 'first frame, 10 jobs' : 'bundled ink hello, first frame',
    n > 10 ? '<= 1.1' : '<= 1.15',
  );

const keys = await keyToFrame([cli, '--data', long.folder, 'resume', long.id], 200);
add('key to next frame, p50, 2000 entries', 'ms', quantile(keys, 0.5));
add('key to next frame, p99, 2000 entries', 'ms', quantile(keys, 0.99), undefined, '<= 16 ms');

for (const [n, ms] of await benchEngine([2000, 20_000]))
  add(
    `engine from ${n} entries`,
    'ms',
    ms,
    n > 2000 ? 'engine from 2000 entries' : undefined,
    n > 2000 ? '<= 50 ms, about 10 x' : undefined,
  );
for (const [n, ms] of await durable(`${work}/data/durable`, [10, 2000]))
  add(`answer durable, ${n} entries before it`, 'ms', ms);

add('bundled ink hello, peak memory', 'MB', await peakMemory([hello], 'hello'));
add(
  'rotorside, peak memory',
  'MB',
  await peakMemory([cli, '--data', folders.get(100) ?? ''], /start a (new )?job/i),
  'bundled ink hello, peak memory',
  '<= 1.25',
);

writeFileSync(`${work}/result.json`, JSON.stringify({ node: process.version, runs: RUNS, rows }, null, 2));
console.log(show(rows, RUNS));
process.exit(0);
