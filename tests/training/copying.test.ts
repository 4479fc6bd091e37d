/** Whoever only repeats what stands on the screen does no better than whoever guesses. */
import { describe, expect, it } from 'vitest';
import { optionsOf } from '../../src/procedure/questions/index.js';
import { debriefOf } from '../../src/training/debrief.js';
import { drawnRotor } from '../../src/training/generate.js';
import { joinPlans } from '../../src/training/plan.js';
import { PracticeRotor, type WayOffered } from '../../src/training/practice-rotor.js';
import { random, seed, size } from '../setup/size.js';
import { Blindly, liked, saysOf, type Taste, tastes } from './copier.js';
import { catalogue, modelOfRotor } from './library.js';
import { planOf } from './plans.js';
import { walk } from './walk.js';

/** Readings of the plain rotor, which those that are like it take over. */
const plainReadings = catalogue.find((r) => r.draw)!.readings.length;
const total = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0);
const printed = new Set(
  'bearing_size old_thickener new_thickener base_oil nlgi grease_factor grease_type solvent seal_rubber'.split(' '),
);
/** Seen through or not by an answer, not by the way in which something is read. */
const answered = new Set(['soaked-seal', 'pitted-race', 'spike-at-six']);

const model = modelOfRotor(catalogue[0]!);
/** Half of a 95 % interval of so many throws of a coin, about their middle. */
const half = (variance: number): number => 1.96 * Math.sqrt(variance);

describe('by the words of the catalogue', () => {
  const asked = catalogue.flatMap((rotor) => {
    const own = rotor.readings.slice(0, rotor.like ? rotor.readings.length - plainReadings : undefined);
    return own.flatMap((r) => {
      const { key, ways } = r;
      const right = key === undefined ? undefined : ways?.find((w) => rotor.careful?.ways?.[key]?.includes(w.way));
      const step = model.steps.get(r.step);
      return key !== undefined && ways && right && step ? [{ ways, right, screen: saysOf(step, key) }] : [];
    });
  });
  it.each(Object.entries(tastes))('picking %s is no better than a coin', (_, taste) => {
    expect(asked.length).toBeGreaterThan(25);
    const hits = asked.map(({ ways, right, screen }) => {
      const best = liked(ways, (w) => w.label, screen, taste);
      return best.includes(right) ? 1 / best.length : 0;
    });
    const [sum, chance] = [total(hits), total(asked.map((a) => 1 / a.ways.length))];
    const spread = half(total(asked.map((a) => (1 / a.ways.length) * (1 - 1 / a.ways.length))));
    expect(sum, `${sum} of ${asked.length}, by chance ${chance} +- ${spread}`).toBeLessThan(chance + spread);
  });
  it('naming what is seen by the words of it is no better than a guess', () => {
    let [n, hits, chance, variance] = [0, 0, 0, 0];
    const met = new Set<string>();
    for (const file of catalogue) {
      for (const r of file.readings)
        for (const q of model.steps.get(r.step)?.ask ?? []) {
          // What is printed on a sheet, a tin or a box is copied on purpose: that is how it is read.
          if (r.when !== undefined || printed.has(q.key)) continue;
          const options = optionsOf(q, model.tables);
          if (options.length < 2) continue;
          const ways = r.ways && r.key === q.key ? r.ways.map((w) => w.way) : [undefined];
          for (const way of ways) {
            const rotor = new PracticeRotor({ ...file, readings: [r] }, model);
            const typed = rotor.typed(r.step, r.at, q.key, 0, undefined, way);
            const truth = Array.isArray(typed) ? typed[0] : typed;
            const text = rotor.shows(r.step, r.at, q.key, 0, undefined, way);
            if (truth === undefined || text === undefined || met.has(`${q.key} ${text}`)) continue;
            met.add(`${q.key} ${text}`);
            const best = liked(options, (o) => o.label, text, tastes['most words of the screen']!);
            n++;
            hits += best.some((o) => o.value === truth) ? 1 / best.length : 0;
            chance += 1 / options.length;
            variance += (1 / options.length) * (1 - 1 / options.length);
          }
        }
    }
    expect(n).toBeGreaterThan(50);
    expect(hits, `${hits} of ${n}, by chance ${chance}`).toBeLessThan(chance + half(variance));
  });
});

/** Traps that were seen through of those that were met on rotors that are drawn, and how many those were. */
function score(numbers: readonly number[], pick: (ways: readonly WayOffered[], screen: string) => WayOffered) {
  let [seen, met] = [0, 0];
  for (const n of numbers) {
    const file = drawnRotor(n, catalogue)!;
    const traps = file.traps.filter((t) => !answered.has(t.id));
    if (!traps.length) continue;
    const rotor = new Blindly(new PracticeRotor(file, model), model, pick, model);
    const careful = planOf(file, 'caught');
    const gates = { ...joinPlans([file.careful, file.careless]).gates, ...file.careful?.gates };
    const { state } = walk(model, rotor, {
      ...careful,
      gates,
      end: (_, v) => v.step.id === 'run-in-log' && early(file),
    });
    const ends = new Map(debriefOf(state, rotor).traps.map((t) => [t.id, t.end]));
    seen += traps.filter((t) => ends.get(t.id) === 'caught').length;
    met += traps.length;
  }
  return { seen, met };
}
const early = ({ traps }: { traps: readonly { skill?: string }[] }): boolean =>
  traps.every((t) => !['run-in', 'power'].includes(t.skill ?? ''));

describe('on rotors that are drawn', () => {
  const numbers = Array.from({ length: size(2, 80) }, (_, i) => i + 1);
  const chance = random(seed);
  const guess = (ways: readonly WayOffered[]): WayOffered => ways[Math.floor(chance() * ways.length)]!;
  const by =
    (taste: Taste) =>
    (ways: readonly WayOffered[], screen: string): WayOffered =>
      guess(liked(ways, (w) => w.label, screen, taste));
  const guessed = score(numbers, guess);
  it.each(Object.entries(tastes))('picking %s sees through no more traps than guessing', (name, taste) => {
    const copied = score(numbers, by(taste));
    const [p, q] = [copied.seen / copied.met, guessed.seen / guessed.met];
    // Newcombe: the interval of a difference of two shares, each by Wilson.
    const [low] = difference(copied.seen, copied.met, guessed.seen, guessed.met);
    const told = `${name}: ${copied.seen} of ${copied.met}, by guessing ${guessed.seen} of ${guessed.met}; ${p - q}, at least ${low}`;
    if (size(0, 1)) console.log(told);
    expect(low, told).toBeLessThanOrEqual(0);
  });
});

/** Wilson's interval of 95 % of a share (E. B. Wilson, J. Am. Stat. Assoc. 22, 1927, 209; from memory). */
function wilson(k: number, n: number): readonly [number, number] {
  const z = 1.96;
  const middle = (k + (z * z) / 2) / (n + z * z);
  const width = (z / (n + z * z)) * Math.sqrt((k * (n - k)) / n + (z * z) / 4);
  return [middle - width, middle + width];
}
/** R. G. Newcombe, Statistics in Medicine 17, 1998, 873, method 10; from memory. */
function difference(k: number, n: number, l: number, m: number): readonly [number, number] {
  const [p, q] = [k / n, l / m];
  const [[a, b], [c, d]] = [wilson(k, n), wilson(l, m)];
  return [p - q - Math.hypot(p - a, d - q), p - q + Math.hypot(b - p, q - c)];
}
