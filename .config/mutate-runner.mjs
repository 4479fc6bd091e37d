// The test runner of a mutation run: keeps one vitest with all test files read and asks it for single tests
// (mutate-tests.mjs). What a mutant may have left behind in the files' own variables is found by running the test that
// noticed it once more without it; then everything is read anew and asked again. What such variables may have hidden is
// found by reading everything anew for a change that no test noticed, in the files that MUTATE_REMEMBERS names.
import { readFileSync } from 'node:fs';
import { createVitest } from 'vitest/node';

const remembers = new RegExp(process.env.MUTATE_REMEMBERS ?? '(?!)');

class KeptRunner {
  capabilities() {
    return { reloadEnvironment: true };
  }

  async init() {
    process.env.NODE_ENV = 'test';
    process.env.VITEST = '1';
    this.channel = new BroadcastChannel('mutation');
  }

  /** Reads all test files anew; gives what went wrong with that. `active`: the change that stands from the beginning. */
  async start(active, hitLimit, tests) {
    await this.end();
    this.active = active;
    this.vitest ??= await createVitest('test', {
      config: '.config/vitest.mutate.config.ts',
      pool: 'threads',
      maxWorkers: 1,
      isolate: false,
      watch: false,
      runner: './.config/mutate-tests.mjs',
      reporters: [{}],
      onConsoleLog: () => false,
    });
    this.vitest.state.filesMap.clear();
    this.files ??= (await this.vitest.globTestSpecifications()).length;
    this.vitest.provide('mutation', { files: this.files, active, hitLimit, tests });
    const ready = this.heard((data) => data.ready && data);
    this.running = this.vitest.start();
    const unread = this.running.then(() => ({ broken: ['the test files could not be read'] }));
    return (await Promise.race([ready, unread])).broken;
  }

  async end() {
    this.channel.postMessage({ end: true });
    await this.running;
    this.running = undefined;
  }

  /** The first message for which `pick` gives something. */
  heard(pick) {
    return new Promise((resolve) => {
      this.channel.onmessage = ({ data }) => {
        const found = pick(data);
        if (found) resolve(found);
      };
    });
  }

  async ask(run) {
    const done = this.heard((data) => data.done);
    this.channel.postMessage({ run });
    return done;
  }

  async dryRun() {
    const broken = await this.start(undefined);
    if (broken.length > 0) return { status: 'error', errorMessage: broken.join('\n') };
    const { tests, coverage } = await this.ask({ cover: true });
    return {
      status: 'complete',
      tests: tests.map(({ id, name, took, failed }) =>
        failed === undefined
          ? { id, name, timeSpentMs: took, status: 0 }
          : { id, name, timeSpentMs: took, status: 1, failureMessage: failed },
      ),
      mutantCoverage: coverage ?? { static: {}, perTest: {} },
    };
  }

  /** In a run of a sample: the changes that were drawn (mutate-sample.mjs). */
  drawn() {
    if (process.env.MUTATE_DRAWN) this.sample ??= new Set(JSON.parse(readFileSync(process.env.MUTATE_DRAWN, 'utf8')));
    return this.sample;
  }

  async mutantRun({ activeMutant, testFilter, hitLimit, mutantActivation }) {
    if (this.drawn()?.has(activeMutant.id) === false) return { status: 'error', errorMessage: 'not drawn' };
    const early = mutantActivation === 'static' ? activeMutant.id : undefined;
    if (early !== undefined || !this.running || this.active !== undefined) {
      const broken = await this.start(early, hitLimit);
      if (broken.length > 0) return { status: 'killed', killedBy: [], failureMessage: broken[0], nrOfTests: 0 };
    }
    const run = { mutant: activeMutant.id, tests: testFilter, hitLimit, bail: true };
    let answer = await this.ask(run);
    const failed = answer.tests.find((test) => test.failed !== undefined);
    if (failed && early === undefined) {
      const clean = await this.ask({ tests: [failed.id] });
      if (clean.tests[0]?.failed !== undefined) {
        await this.start(undefined);
        answer = await this.ask(run);
      }
    }
    if (!failed && early === undefined && remembers.test(activeMutant.fileName)) {
      await this.start(activeMutant.id, hitLimit, testFilter);
      answer = await this.ask(run);
    }
    if (hitLimit !== undefined && answer.hits > hitLimit) return { status: 'timeout' };
    const killer = answer.tests.find((test) => test.failed !== undefined);
    return killer
      ? { status: 'killed', killedBy: [killer.id], failureMessage: killer.failed, nrOfTests: answer.tests.length }
      : { status: 'survived', nrOfTests: answer.tests.length };
  }

  async dispose() {
    await this.end();
    await this.vitest?.close();
    this.channel.close();
  }
}

const make = () => new KeptRunner();
make.inject = [];
export const strykerPlugins = [{ kind: 'TestRunner', name: 'kept', factory: make }];
