/** Rotors that are drawn do not sound alike: sizes, history and the words of what is seen differ. */
import { expect, it } from 'vitest';
import { drawnRotor } from '../../src/training/generate.js';
import { PracticeRotor } from '../../src/training/practice-rotor.js';
import { catalogue, modelOfRotor, rotors } from './library.js';
import { planOf } from './plans.js';
import { walk } from './walk.js';

const model = modelOfRotor(catalogue[0]!);

/** Sentences of four words or more that a careful person meets up to the run-in. */
function perceived(n: number): Set<string> {
  const file = drawnRotor(n, catalogue)!;
  const rotor = new PracticeRotor(file, model);
  const { state } = walk(model, rotor, { ...planOf(file, 'caught'), end: (_, v) => v.step.id === 'run-in-log' });
  return new Set(
    state.entries.flatMap((e) => {
      const text = e.kind === 'answer' ? rotor.shows(e.step, e.place, e.key, 0, state, e.way) : undefined;
      return text && text.trim().split(/\s+/).length >= 4 ? [text] : [];
    }),
  );
}

it('two of them have less than half of the sentences in common that they had before words were drawn', () => {
  const sets = [5, 8, 9, 10].map(perceived);
  const shares = sets.flatMap((a, i) =>
    sets.slice(i + 1).map((b) => [...a].filter((x) => b.has(x)).length / Math.min(a.size, b.size)),
  );
  const mean = shares.reduce((a, b) => a + b, 0) / shares.length;
  // Before it was 0.84.
  expect(mean).toBeLessThan(0.42);
});

it('no rotor speaks of another place as if that had been looked at before', () => {
  const said = [...rotors.map((r) => r.file), ...catalogue, ...[1, 2, 3, 4, 5].map((n) => drawnRotor(n, catalogue)!)]
    .flatMap((r) => r.readings)
    .flatMap((r) => [r.says, ...Object.values(r.sees ?? {}), ...(r.ways ?? []).flatMap((w) => [w.says, w.sees])])
    .flat();
  for (const text of said) expect(text ?? '').not.toMatch(/same as|as in front|as the other/i);
});
