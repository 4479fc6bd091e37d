/**
 * Measures the real program against its baselines in the same run: `npm run bench`. Prints a table and stores it in
 * .bench/result.json. BENCH_RUNS sets how often.
 */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { durable } from './durable.js';
import { benchEngine } from './engine.js';
import { makeHello } from './hello-bundle.js';
import { makeLife } from './life.js';
import { firstAnswer, firstFrame, keyToFrame, peakMemory, type Spent, wholeRun } from './measure.js';
import { addAnswer, makeJobs, makeLongJob } from './prepare.js';
import { Results, show } from './table.js';

const RUNS = Number(process.env.BENCH_RUNS ?? 15);
const work = '.bench';
rmSync(`${work}/data`, { recursive: true, force: true });
mkdirSync(`${work}/data`, { recursive: true });

const hello = await makeHello(work);
const folders = new Map<number, string>();
for (const n of [0, 10, 100, 10_000]) folders.set(n, await makeJobs(`${work}/data/${n}`, n));
const worked = await makeJobs(`${work}/data/worked`, 10_000);
const life = makeLife(`${work}/data/life`, 10_000, 3000);
const long = await makeLongJob(`${work}/data/long`, 2000);
const cli = 'dist/cli.js';
const practice = 'procedures/practice/college-30kw.replay.yaml';
const home = /Start a job/;
const ten = ['--data', folders.get(10) ?? ''];

const results = new Results();
const ratio = (most: number) => ({ of: 'ratio', most }) as const;

/** Each round runs every task once, so that a drift of the machine touches all alike. The first round is not counted. */
async function rounds<T>(tasks: Record<string, () => T | Promise<T>>): Promise<(name: string) => T[]> {
  const out: Record<string, T[]> = Object.fromEntries(Object.keys(tasks).map((name) => [name, []]));
  for (let i = -1; i < RUNS; i++)
    for (const [name, task] of Object.entries(tasks)) {
      const spent = await task();
      if (i >= 0) out[name]?.push(spent);
    }
  return (name) => out[name] ?? [];
}

const whole = await rounds<Spent>({
  node: () => wholeRun(['-e', '0']),
  version: () => wholeRun([cli, '--version']),
  calc: () => wholeRun([cli, 'calc', 'speed-factor', 'bore=25', 'outside=52', 'speed=12000']),
  replay: () => wholeRun([cli, 'replay', practice]),
  due: () => wholeRun([cli, 'due', '--data', life.folder]),
  history: () => wholeRun([cli, 'history', life.rotor, '--data', life.folder]),
});
results.add('bare node', whole('node'));
results.add('--version', whole('version'), { against: 'bare node', goal: ratio(1.3) });
results.add('calc', whole('calc'), { against: 'bare node', goal: ratio(1.3) });
results.add('replay of the whole practice job', whole('replay'), { against: 'bare node', goal: ratio(3.5) });
results.add('due, 10000 jobs of 3000 rotors', whole('due'), { against: 'bare node', goal: ratio(4) });
results.add('history of a rotor of 7 whole jobs among them', whole('history'), {
  against: 'replay of the whole practice job',
  goal: ratio(1.5),
});

const frames = await rounds<Spent>({
  hello: () => firstFrame([hello], /hello/),
  ...Object.fromEntries([...folders].map(([n, dir]) => [String(n), () => firstFrame([cli, '--data', dir], home)])),
  life: () => firstFrame([cli, '--data', life.folder], home),
  worked: async () => {
    await addAnswer(worked);
    return firstFrame([cli, '--data', worked], home);
  },
  answer: () => firstAnswer([cli, ...ten], home, '?', /All keys/),
  resume: () => firstFrame([cli, '--data', long.folder, 'resume', long.id], /Next: /),
});
results.add('ink hello, first frame', frames('hello'));
for (const n of folders.keys())
  results.add(`first frame, ${n} jobs`, frames(String(n)), {
    against: n > 100 ? 'first frame, 10 jobs' : 'ink hello, first frame',
    goal: ratio(n > 100 ? 1.1 : 1.15),
  });
results.add('first frame, 10000 jobs of 3000 rotors', frames('life'), {
  against: 'first frame, 10 jobs',
  goal: ratio(1.1),
});
results.add('first frame, 10000 jobs, after an answer', frames('worked'), {
  against: 'first frame, 10 jobs',
  goal: ratio(1.1),
});
results.add('answer to a key pressed at the first frame', frames('answer'), { against: 'ink hello, first frame' });
results.add('resume, first frame, 2000 entries', frames('resume'), { against: 'ink hello, first frame' });

const keys = await keyToFrame([cli, '--data', long.folder, 'resume', long.id], 200);
results.add('key to its frame, 2000 entries', keys, { goal: { of: 'p99', most: 16 } });

for (const [n, all] of await benchEngine([2000, 20_000]))
  results.add(
    `engine from ${n} entries`,
    all,
    n > 2000 ? { against: 'engine from 2000 entries', goal: { of: 'p50', most: 50 } } : {},
  );
for (const [n, all] of await durable(`${work}/data/durable`, [10, 2000]))
  results.add(`answer durable, ${n} entries before it`, all);

const memory = await rounds<number>({
  hello: () => peakMemory([hello], /hello/),
  ours: () => peakMemory([cli, '--data', folders.get(100) ?? ''], home),
});
results.add('ink hello, peak memory', memory('hello'), { unit: 'MB' });
results.add('rotorside, peak memory', memory('ours'), {
  unit: 'MB',
  against: 'ink hello, peak memory',
  goal: ratio(1.25),
});

const { rows } = results;
writeFileSync(`${work}/result.json`, JSON.stringify({ node: process.version, runs: RUNS, rows }, null, 2));
console.log(show(rows, RUNS));
process.exit(0);
