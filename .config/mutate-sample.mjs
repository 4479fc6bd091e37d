// Draws some of the changes of a mutation run and reports on those alone (`--sample N --seed S`). Which are drawn hangs on
// seed, file, place and change, so a larger N keeps what a smaller one drew, and a repetition draws the same. They are
// tried in the order in which they were drawn: what stands there when a run is broken off is a smaller sample.
import { createHash } from 'node:crypto';
import { writeFileSync } from 'node:fs';

const { MUTATE_DRAWN: drawnFile, MUTATE_SAMPLE: size, MUTATE_SEED: seed } = process.env;
const within = (fileName) => fileName.replace(`${process.cwd()}/`, '');
const rank = ({ fileName, location, replacement }) =>
  createHash('sha256').update(JSON.stringify([seed, within(fileName), location, replacement])).digest('hex');

/** Wilson's interval for a share, 95 %: `of` drawn, `hits` of them killed. */
export function wilson(hits, of) {
  const z = 1.959964;
  const middle = (hits / of + z ** 2 / (2 * of)) / (1 + z ** 2 / of);
  const half = (z / (1 + z ** 2 / of)) * Math.sqrt(((hits / of) * (1 - hits / of)) / of + z ** 2 / (4 * of ** 2));
  return [middle - half, middle + half];
}

class SampleReporter {
  results = new Map();
  told = 0;
  /** The place in the drawing order of the last one that was tried. */
  last = -1;

  onMutationTestingPlanReady({ mutantPlans }) {
    const rankOf = new Map(mutantPlans.map(({ mutant }) => [mutant.id, rank(mutant)]));
    // They are run in this order.
    mutantPlans.sort((a, b) => (rankOf.get(a.mutant.id) < rankOf.get(b.mutant.id) ? -1 : 1));
    const all = mutantPlans.map(({ mutant }) => mutant).filter(({ status }) => status !== 'Ignored');
    this.of = all.length;
    this.drawn = all.slice(0, Number(size)).map(({ id }) => id);
    writeFileSync(drawnFile, JSON.stringify(this.drawn));
  }

  onMutantTested({ id, status, fileName, location, mutatorName, replacement }) {
    if (!this.drawn.includes(id)) return;
    this.results.set(id, status);
    if (status !== 'Killed') {
      const { start, end } = location;
      const place = `${within(fileName)}:${start.line}:${start.column} to ${end.line}:${end.column}`;
      process.stdout.write(`${status} ${place} ${mutatorName} -> ${replacement}\n`);
    }
    if (status !== 'NoCoverage') this.last = Math.max(this.last, this.drawn.indexOf(id));
    // What nothing reaches is known from the beginning, what wants all read anew comes last: up to here without the latter.
    const found = this.drawn.slice(0, this.last + 1).flatMap((each) => this.results.get(each) ?? []);
    const whole = this.results.size === this.drawn.length;
    if (!whole && found.length < this.told + 25) return;
    this.told = found.length;
    this.tell(whole ? [...this.results.values()] : found);
  }

  tell(found) {
    const count = (status) => found.filter((each) => each === status).length;
    const noticed = count('Killed') + count('Timeout');
    const measured = noticed + count('Survived') + count('NoCoverage');
    const [low, high] = wilson(noticed, measured).map((share) => (100 * share).toFixed(1));
    process.stdout.write(
      `${measured} of ${this.of} changes, seed ${seed}: ${count('Killed')} killed, ${count('Timeout')} timeout, ` +
        `${count('Survived')} survived, ${count('NoCoverage')} not reached: ${((100 * noticed) / measured).toFixed(1)} %, ` +
        `with 95 % confidence ${low} to ${high} % (Wilson)${measured < found.length ? `; ${found.length - measured} failed` : ''}\n`,
    );
  }
}

const make = () => new SampleReporter();
make.inject = [];
export const strykerPlugins = [{ kind: 'Reporter', name: 'sample', factory: make }];
