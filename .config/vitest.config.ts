import { availableParallelism } from 'node:os';
import { defineConfig, type Plugin } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** A command that a test runs in its own process finds the compiled content where the program has it: in `dist`. */
const besideTheBundle: Plugin = {
  name: 'beside-the-bundle',
  enforce: 'pre',
  transform: (code, id) =>
    /\/src\/(commands|library)\/[\w-]+\.ts$/.test(id)
      ? code.replaceAll('import.meta.url', JSON.stringify(new URL('../dist/cli.js', import.meta.url).href))
      : undefined,
};

/** Tests that start the built program, other processes or a browser. All others run in one process and need no build. */
const started = [
  'tests/calc/{kept-compiled,light}.test.ts',
  'tests/pty/**/*.test.ts',
  'tests/replay/{good,bad,fuzz-program}.test.ts',
  'tests/review/commands.test.ts',
  'tests/sheet/print.test.ts',
  'tests/shell/**/*.test.ts',
  'tests/shipped/readme.test.ts',
  'tests/store/{full-disk,kill,light-start,lock,sync-order}.test.ts',
  'tests/training/{commands,practice-pty}.test.ts',
];
/** Of the others those that take over a second: whole jobs, big samples. */
const thorough = [
  'tests/bench/**/*.test.ts',
  'tests/calc/uncertainty.test.ts',
  'tests/drawing/**/*.test.ts',
  'tests/engine/{branches,large,properties}.test.ts',
  'tests/life/four-years.test.ts',
  'tests/outside/properties.test.ts',
  'tests/procedure/{check,developers-page,fuzz,named-parts,no-names,shipped}.test.ts',
  'tests/review/json-schema.test.ts',
  'tests/replay/fuzz.test.ts',
  'tests/screens/{brisk,changed-figures,gate-ways,look,menu,nonsense,places,progress,questions,safety}.test.tsx',
  'tests/screens/{small,sources,take-over,walk,whole-job}.test.tsx',
  'tests/sheet/{hostile,json,page,same,shipped,tag}.test.ts',
  'tests/shipped/{around-the-grease,closures,found-on-a-walk,live-voltage,regrease-gates,run-in-truth,run-in-ways}.test.ts',
  'tests/shipped/{limits-by-use,stops-on-sheet,take-over,technicians-findings,units-of-answers}.test.ts',
  'tests/shipped/{walk-on-sheet,what-got-in,wrong-dose}.test.ts',
  'tests/store/{job-file.fuzz,job-index,latest-jobs,merge,pictures,share}.test.ts',
  'tests/text/*.test.ts',
  'tests/training/{again,care,copying,generated,hold-points,late-start,load-rotor,misread,replays,truth}.test.ts',
];
/**
 * What takes longest begins first, so that at the end no worker is left alone with it. vitest knows that by itself only
 * after a first run.
 */
const longest = [
  'pty/whole-job',
  'training/practice-pty',
  'pty/crash',
  'pty/sizes',
  'screens/walk',
  'training/replays',
  'pty/ends',
  'shell/started',
  'pty/keys',
];
class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const rank = ({ moduleId }: TestSpecification): number => {
      const at = longest.findIndex((name) => moduleId.includes(`/tests/${name}.test.`));
      return at < 0 ? longest.length : at;
    };
    return (await super.sort(files)).sort((a, b) => rank(a) - rank(b));
  }
}
const all = ['tests/**/*.test.{ts,tsx}'];

export default defineConfig(({ mode }) => {
  const long = mode === 'long';
  const quick = mode === 'quick';
  // One seed for all workers of a run, new in each long one.
  if (long) process.env.ROTORSIDE_SEED ??= String(Date.now() % 2 ** 31);
  // React as it is in the program, for the workers from their start; its warnings come in the quick and the long run.
  else if (!quick) process.env.NODE_ENV = 'production';
  return {
    root: new URL('..', import.meta.url).pathname,
    plugins: [besideTheBundle],
    test: {
      // All in one project: each has workers of its own, which load everything anew, and one begins where the other ends.
      include: all,
      exclude: quick ? [...started, ...thorough] : [],
      globalSetup: quick ? [] : ['tests/setup/build.ts'],
      sequence: { sequencer: LongestFirst },
      pool: 'forks',
      // Programs in terminals are mostly waited for, so one more than there are cores.
      maxWorkers: availableParallelism() + 1,
      execArgv: [
        // As in the program (src/build/load-compiled.mjs): what runs for seconds is over before optimised code pays.
        ...(process.versions.node.startsWith('20.') ? ['--interrupt-budget=600000'] : []),
        // What a test makes is gone with it. In little room it outlives several collections, and is copied at each.
        '--min-semi-space-size=32',
        '--max-semi-space-size=32',
      ],
      // Files share the modules of their worker: nothing here changes one, and loading them for each took most of the time.
      isolate: false,
      env: { ROTORSIDE_TESTS: long ? 'long' : 'daily' },
      setupFiles: ['tests/setup/seeds.ts'],
      // For a machine with much else to do: nothing waits that long where it goes right.
      testTimeout: long ? 3_600_000 : 600_000,
      hookTimeout: 600_000,
    },
  };
});
