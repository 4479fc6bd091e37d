// Draws some of the changes of a mutation run and reports on those alone (`--sample N --seed S`). Which are drawn hangs on
// seed, file, place and change, so a larger N keeps what a smaller one drew, and a repetition draws the same.
import { createHash } from 'node:crypto';
import { writeFileSync } from 'node:fs';

const { MUTATE_DRAWN: drawnFile, MUTATE_SAMPLE: size, MUTATE_SEED: seed } = process.env;
const rank = ({ fileName, location, replacement }) =>
  createHash('sha256').update(JSON.stringify([seed, fileName.replace(`${process.cwd()}/`, ''), location, replacement])).digest('hex');

/** Wilson's interval for a share, 95 %: `of` drawn, `hits` of them killed. */
export function wilson(hits, of) {
  const z = 1.959964;
  const middle = (hits / of + z ** 2 / (2 * of)) / (1 + z ** 2 / of);
  const half = (z / (1 + z ** 2 / of)) * Math.sqrt(((hits / of) * (1 - hits / of)) / of + z ** 2 / (4 * of ** 2));
  return [middle - half, middle + half];
}

class SampleReporter {
  counts = { Killed: 0, Timeout: 0, Survived: 0, NoCoverage: 0 };

  onMutationTestingPlanReady({ mutantPlans }) {
    const all = mutantPlans.map(({ mutant }) => mutant).filter(({ status }) => status !== 'Ignored');
    const ranked = all.map((mutant) => ({ id: mutant.id, rank: rank(mutant) })).sort((a, b) => (a.rank < b.rank ? -1 : 1));
    this.of = all.length;
    this.drawn = new Set(ranked.slice(0, Number(size)).map(({ id }) => id));
    writeFileSync(drawnFile, JSON.stringify([...this.drawn]));
  }

  onMutantTested({ id, status, fileName, location, mutatorName, replacement }) {
    if (!this.drawn.has(id)) return;
    this.counts[status] = (this.counts[status] ?? 0) + 1;
    if (status === 'Killed') return;
    const place = `${fileName.replace(`${process.cwd()}/`, '')}:${location.start.line}:${location.start.column}`;
    process.stdout.write(`${status} ${place} to ${location.end.line}:${location.end.column} ${mutatorName} -> ${replacement}\n`);
  }

  onMutationTestReportReady() {
    const { Killed, Timeout, Survived, NoCoverage, ...rest } = this.counts;
    const noticed = Killed + Timeout;
    const measured = noticed + Survived + NoCoverage;
    const [low, high] = wilson(noticed, measured).map((share) => (100 * share).toFixed(1));
    process.stdout.write(
      `${measured} of ${this.of} changes, seed ${seed}: ${Killed} killed, ${Timeout} timeout, ${Survived} survived, ${NoCoverage} not reached: ` +
        `${((100 * noticed) / measured).toFixed(1)} %, with 95 % confidence ${low} to ${high} % (Wilson)\n`,
    );
    for (const [status, count] of Object.entries(rest)) process.stdout.write(`besides: ${count} ${status}\n`);
  }
}

const make = () => new SampleReporter();
make.inject = [];
export const strykerPlugins = [{ kind: 'Reporter', name: 'sample', factory: make }];
