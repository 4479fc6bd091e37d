/** What the shipped practice job costs a person at the screens, printed as a table and kept in .bench/effort.json. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { calculators } from '../../src/calc/index.js';
import { modelOf } from '../../src/procedure/model.js';
import { openBench } from '../screens/bench.js';
import { Counter, type Effort, secondsOf } from './count.js';
import { doJob, type JobFile, readJob, shelfLike } from './person.js';

const job = readJob('procedures/practice/college-30kw.replay.yaml');
const shipped = JSON.parse(readFileSync('dist/shipped.json', 'utf8'));
const found = shipped.procedures.find(
  (p: { procedure: { procedure: string } }) => p.procedure.procedure === job.procedure,
);
const model = modelOf(
  found.procedure,
  found.hash,
  Object.fromEntries(shipped.tables.map((t: { id: string }) => [t.id, t])),
  calculators,
);

/** `--steps` prints what each step took and keeps every screen in .bench/effort-PACE.txt; `--brisk` measures one row alone. */
const bySteps = process.argv.includes('--steps');
const quick = process.argv.includes('--brisk');

/** Who works: its digit on the form, and the initials asked for after it. */
const crews = {
  'an apprentice with a mentor': ['3', ...'AP', 'enter', ...'MN', 'enter'],
  'a technician with a mentor': ['2', ...'MN', 'enter'],
} as const;

const machineOf = (of: JobFile): string =>
  String(of.steps.find((s) => s.step === 'machine')?.answers?.machine ?? of.name);

async function measure(crew: readonly string[], pace: 'learning' | 'brisk', again = false): Promise<Effort> {
  const shelf = again ? { shelf: async () => shelfLike(job, model) } : {};
  const b = openBench({ model, cols: 80, rows: 24, app: shelf });
  const count = new Counter();
  await b.ready();
  const says = async (wanted: string, keys: readonly string[]): Promise<void> => {
    await b.waitFor(wanted);
    count.screen(b.screen());
    for (const key of keys) {
      count.key(key);
      await b.press(key);
    }
  };
  await says('Start a job', ['1']);
  // Who has the choice calls the job as the machine: it is then offered as its name.
  await says('Name of the job', [...machineOf(job), 'enter', ...'AP', 'enter', ...crew]);
  await says('Before you begin', [pace === 'brisk' ? 'b' : 'enter']);
  await doJob(b, job, count);
  b.end();
  if (bySteps) {
    mkdirSync('.bench', { recursive: true });
    writeFileSync(`.bench/effort-${pace}.txt`, count.frames.join('\n=====\n'));
    console.log(`\n${pace}`);
    console.log(`${'step'.padEnd(28)} scr  keys words   new   sec`);
    for (const [name, l] of count.lumps()) {
      const sums = [l.presses, l.words, l.fresh, secondsOf(l.presses, l.screens, l.fresh)];
      const told = sums.map((n) => String(n).padStart(5)).join(' ');
      console.log(`${name.padEnd(28)} ${String(l.screens).padStart(3)} ${told}  ${l.keys}`);
    }
  }
  if (bySteps)
    console.log(
      [...count.spots]
        .sort((a, b) => b[1] - a[1])
        .map(([spot, n]) => `${String(n).padStart(6)} ${spot}`)
        .join('\n'),
    );
  return count.effort();
}

const rows: Record<string, Effort> = {};
for (const pace of quick ? (['brisk'] as const) : (['learning', 'brisk'] as const))
  for (const [name, crew] of Object.entries(crews).slice(quick ? 1 : 0))
    rows[`${name}, ${pace}`] = await measure(crew, pace);
rows['the same, in a shop whose last job had this grease and these instruments'] = await measure(
  crews['a technician with a mentor'],
  'brisk',
  true,
);

const columns: readonly [string, (e: Effort) => number][] = [
  ['steps', (e) => e.steps],
  ['screens', (e) => e.screens],
  ['keystrokes', (e) => e.keystrokes],
  ['of figures', (e) => e.keys.figures],
  ['picks', (e) => e.keys.picks],
  ['Enter', (e) => e.keys.enter],
  ['9', (e) => e.keys.nine],
  ['letters', (e) => e.keys.letters],
  ['words shown', (e) => e.wordsShown],
  ['words new', (e) => e.wordsNew],
  ['seconds', (e) => e.seconds],
];
console.log(`| ${['', ...columns.map(([c]) => c)].join(' | ')} |`);
console.log(`|${'---|'.repeat(columns.length + 1)}`);
for (const [name, e] of Object.entries(rows))
  console.log(`| ${[name, ...columns.map(([, of]) => of(e).toLocaleString('en'))].join(' | ')} |`);
mkdirSync('.bench', { recursive: true });
writeFileSync('.bench/effort.json', `${JSON.stringify(rows, null, 1)}\n`);
