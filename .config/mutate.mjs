// Changes the code in one place at a time and asks the tests whether they notice: `npm run mutate FOLDER`, or one file of
// it (`npm run mutate src/calc/fill.ts`), or several (`npm run mutate 'src/calc/run-in-*.ts'`); `-- --quick` leaves out what
// runs while a file is loaded, `-- --sample 300 --seed 1` draws 300 changes. Text, objects and lists are left alone. The report stands in .mutate/.
import { mkdirSync } from 'node:fs';
import { Stryker } from '@stryker-mutator/core';

/** Which tests are asked about which folder. */
const asked = {
  units: ['tests/units', 'tests/outside/units.test.ts', 'tests/outside/numerics.test.ts'],
  calc: ['tests/calc', 'tests/outside', 'tests/units'],
  engine: ['tests/engine', 'tests/replay/plain-form.test.ts'],
  procedure: ['tests/procedure', 'tests/engine/read-answer.test.ts'],
  store: ['tests/store'],
};

const [what = '', ...more] = process.argv.slice(2);
const [, folder = what.replace(/\/$/, ''), file] = /^src\/([^/]+)\/?(.+)?$/.exec(what) ?? [];
if (!(folder in asked)) {
  process.stderr.write(`Name one of ${Object.keys(asked).join(', ')}, or a file such as src/calc/fill.ts.\n`);
  process.exit(2);
}
process.env.MUTATE_TESTS = asked[folder].map((path) => (path.endsWith('.ts') ? path : `${path}/**/*.test.ts`)).join(' ');
// Files that keep something from one call to the next, or are called only by one that does.
process.env.MUTATE_REMEMBERS = 'calc/run-in|engine/[a-z]+/(reads|cautions|addresses|board|run-calculator|shop-mark)|store/job-lock';
mkdirSync('.mutate', { recursive: true });
const given = (option) => (more.includes(option) ? more[more.indexOf(option) + 1] : undefined);
const sample = given('--sample');
if (sample !== undefined) {
  if (!/^[1-9]\d*$/.test(sample)) {
    process.stderr.write('Write --sample N --seed S, such as --sample 300 --seed 1.\n');
    process.exit(2);
  }
  process.env.MUTATE_SAMPLE = sample;
  process.env.MUTATE_SEED = given('--seed') ?? '1';
  process.env.MUTATE_DRAWN = `${process.cwd()}/.mutate/drawn.json`;
}
await new Stryker({
  testRunner: 'kept',
  plugins: ['mutate-runner.mjs', 'mutate-sample.mjs'].map((plugin) => new URL(plugin, import.meta.url).pathname),
  mutate: [file ? `src/${folder}/${file}` : `src/${folder}/**/*.ts`],
  mutator: { excludedMutations: ['StringLiteral', 'ObjectLiteral', 'ArrayDeclaration'] },
  coverageAnalysis: 'perTest',
  // What runs while a file is loaded costs most: all tests are read anew for each such change.
  ignoreStatic: more.includes('--quick'),
  concurrency: Number(given('--concurrency') ?? 2),
  // TypeScript 7 has no interface for programs; without a file of this name nothing asks for one.
  tsconfigFile: 'none.json',
  tempDirName: '.mutate/tmp',
  ignorePatterns: ['dist', '.bench', '.mutate'],
  reporters: ['progress-append-only', ...(sample === undefined ? ['clear-text', 'json'] : ['sample'])],
  jsonReporter: { fileName: `.mutate/${folder}${file ? `-${file.replace(/\W/g, '-')}` : ''}.json` },
  clearTextReporter: { allowColor: false, logTests: false, reportTests: false },
  timeoutMS: 60_000,
  dryRunTimeoutMinutes: 60,
  allowConsoleColors: false,
}).runMutationTest();
