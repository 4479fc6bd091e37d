// Runs inside vitest's worker during a mutation run: reads all test files once, then runs single tests of them as it is
// told by mutate-runner.mjs. So a mutant costs its tests alone, and no new process.
import { inject, TestRunner } from 'vitest';

const { files: fileCount, active, hitLimit, tests: asked } = inject('mutation');
// Before any file is read, so that a change of what runs while a file is loaded is seen.
globalThis.__stryker__ ??= {};
globalThis.__stryker__.activeMutant = active;

const testsIn = (suite) => suite.tasks.flatMap((task) => (task.type === 'suite' ? testsIn(task) : [task]));
const nameOf = (task) => (task.suite && task.suite !== task.file ? `${nameOf(task.suite)} ${task.name}` : task.name);
const within = (path) => path.replace(`${process.cwd()}/`, '');
const messageOf = (error) => String(error?.message ?? error).slice(0, 2000);

export default class KeptTests extends TestRunner {
  files = [];
  /** What the tests of a change that stands from the beginning gave so far; with the first that fails no more files are read. */
  early = { tests: [], hits: 0 };

  async importFile(path, source) {
    const needed = source === 'setup' || !asked || asked.some((id) => id.startsWith(`${within(path)}#`));
    if (needed && !this.early.tests.some((test) => test.failed !== undefined)) return super.importFile(path, source);
  }

  async onBeforeRunFiles(files) {
    for (const file of files) {
      const ids = new Map();
      for (const test of testsIn(file)) {
        const name = `${within(file.filepath)}#${nameOf(test)}`;
        const again = ids.get(name) ?? 0;
        ids.set(name, again + 1);
        test.wanted = { id: again === 0 ? name : `${name} (${again + 1})`, mode: test.mode };
      }
      file.mode = 'skip';
      await this.snapshotClient.setup(file.filepath, this.workerState.config.snapshotOptions);
      this.files.push(file);
      if (active === undefined) continue;
      const { tests, hits } = await this.answer({ mutant: active, tests: asked, hitLimit, bail: true, files: [file] });
      this.early = { tests: [...this.early.tests, ...tests], hits: this.early.hits + hits };
    }
  }

  async onAfterRunFiles() {
    if (this.files.length < fileCount) return;
    const channel = new BroadcastChannel('mutation');
    const stopped = this.early.tests.some((test) => test.failed !== undefined);
    const broken = stopped || asked ? [] : this.files.flatMap((file) => (file.result?.errors ?? []).map(messageOf));
    await new Promise((resolve) => {
      channel.onmessage = async ({ data }) => {
        if (data.end) resolve();
        if (data.run) channel.postMessage({ done: active === undefined ? await this.answer(data.run) : this.early });
      };
      channel.postMessage({ ready: true, broken });
    });
    channel.close();
  }

  /** Runs the tests that are asked for, file by file, those of a file that take least first; with `bail` until one fails. */
  async answer({ mutant, tests, hitLimit, bail, cover, files = this.files }) {
    const ns = globalThis.__stryker__;
    ns.activeMutant = mutant;
    ns.hitCount = mutant === undefined ? undefined : 0;
    ns.hitLimit = hitLimit;
    ns.currentTestId = undefined;
    const seen = [];
    const wanted = (file) => testsIn(file).filter((t) => t.wanted.mode === 'run' && (!tests || tests.includes(t.wanted.id)));
    const cost = (all) => all.reduce((sum, test) => sum + (test.took ?? 0), 0);
    const plan = files.map((file) => [file, wanted(file)]).filter(([, all]) => all.length > 0);
    for (const [file, all] of plan.sort(([, a], [, b]) => cost(a) - cost(b))) {
      await this.suite(file, new Set(all), { seen, bail, cover });
      if (bail && seen.some((test) => test.failed !== undefined)) break;
    }
    ns.activeMutant = active;
    return { tests: seen, hits: ns.hitCount ?? 0, coverage: cover ? ns.mutantCoverage : undefined };
  }

  async suite(suite, wanted, run) {
    const inside = testsIn(suite).filter((test) => wanted.has(test));
    if (inside.length === 0) return;
    const hooks = TestRunner.getSuiteHooks(suite);
    const undo = [];
    try {
      for (const hook of hooks.beforeAll) undo.push(await hook(suite));
      const order = (task) => (task.type === 'suite' ? Number.POSITIVE_INFINITY : (task.took ?? 0));
      for (const task of [...suite.tasks].sort((a, b) => (order(a) < order(b) ? -1 : order(a) > order(b) ? 1 : 0))) {
        if (run.bail && run.seen.some((test) => test.failed !== undefined)) break;
        if (task.type === 'suite') await this.suite(task, wanted, run);
        else if (wanted.has(task)) await this.test(task, run);
      }
    } catch (error) {
      run.seen.push({ id: inside[0].wanted.id, name: nameOf(inside[0]), took: 0, failed: messageOf(error) });
    } finally {
      for (const clean of [...hooks.afterAll, ...undo].filter((each) => typeof each === 'function'))
        await Promise.resolve(clean(suite)).catch(() => undefined);
    }
  }

  async test(test, { seen, cover }) {
    const suites = [];
    for (let at = test.suite ?? test.file; at; at = at.suite ?? (at === test.file ? undefined : test.file)) suites.unshift(at);
    const after = [];
    const began = performance.now();
    let failed;
    test.onFinished = undefined;
    test.onFailed = undefined;
    test.result = { state: 'run', startTime: began, retryCount: 0, repeatCount: 0 };
    if (cover) globalThis.__stryker__.currentTestId = test.wanted.id;
    try {
      this.onBeforeTryTask(test);
      for (const suite of suites)
        for (const hook of TestRunner.getSuiteHooks(suite).beforeEach) {
          const clean = await hook(test.context, suite);
          if (typeof clean === 'function') after.unshift(clean);
        }
      await TestRunner.getTestFn(test)();
      this.onAfterTryTask(test);
      if (test.result.state === 'fail') failed = messageOf(test.result.errors?.[0]);
    } catch (error) {
      failed = messageOf(error);
    }
    try {
      for (const suite of [...suites].reverse())
        for (const hook of TestRunner.getSuiteHooks(suite).afterEach) await hook(test.context, suite);
      for (const clean of [...after, ...(test.onFinished ?? [])]) await clean(test.context);
    } catch (error) {
      failed ??= messageOf(error);
    }
    if (cover) globalThis.__stryker__.currentTestId = undefined;
    const took = performance.now() - began;
    if (cover) test.took = took;
    seen.push({ id: test.wanted.id, name: nameOf(test), took, failed });
  }
}
