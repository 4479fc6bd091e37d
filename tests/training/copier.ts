/** A script that knows nothing of bearings: it picks what repeats most of the words on the screen. Another only guesses. */
import type { State } from '../../src/engine/state/state.js';
import { fillIn } from '../../src/engine/values/texts.js';
import type { Step } from '../../src/procedure/schema.js';
import { PracticeRotor, type WayOffered } from '../../src/training/practice-rotor.js';

const small = new Set(
  'the a an of it to in on is and what that no not all with for its you at by from this has be are as or'.split(' '),
);
/** Words of a text without their endings; small words say nothing. */
export const wordsOf = (text: string): Set<string> =>
  new Set(
    (text.toLowerCase().match(/[a-z0-9]+/g) ?? [])
      .filter((w) => !small.has(w))
      .map((w) => w.replace(/(ing|ed|es|s|e)$/, '')),
  );

/** Everything that the guide says of a step, what is behind a key too. */
export function saysOf(step: Step, key: string, fill: (text: string) => string = (t) => t): string {
  const q = step.ask?.find((a) => a.key === key);
  const cautions = (step.caution ?? []).map((c) => (typeof c === 'string' ? c : c.say));
  return [step.title, step.do, step.why, step.otherwise, step.tell, q?.label, q?.help, ...cautions]
    .map((t) => fill(t ?? ''))
    .join(' ');
}

export type Taste = (label: string, screen: string) => number;
const shared: Taste = (label, screen) => {
  const there = wordsOf(screen);
  return [...wordsOf(label)].filter((w) => there.has(w)).length;
};
/** Ways to pick without knowing anything. */
export const tastes: Readonly<Record<string, Taste>> = {
  'most words of the screen': shared,
  'largest share of its words on the screen': (label, screen) =>
    shared(label, screen) / Math.max(1, wordsOf(label).size),
  'the longest': (label) => label.length,
};

/** Those that it likes best; several where it likes them alike. */
export function liked<T>(list: readonly T[], label: (item: T) => string, screen: string, taste: Taste): T[] {
  const marks = list.map((item) => taste(label(item), screen));
  const best = Math.max(...marks);
  return list.filter((_, i) => marks[i] === best);
}

/** A rotor whose ways somebody picks who knows nothing: the only one that is offered is the one that was picked. */
export class Blindly extends PracticeRotor {
  constructor(
    rotor: PracticeRotor,
    private readonly states: { readonly steps: ReadonlyMap<string, Step> },
    private readonly pick: (ways: readonly WayOffered[], screen: string) => WayOffered,
    model: ConstructorParameters<typeof PracticeRotor>[1],
  ) {
    super(rotor.file, model);
  }
  private readonly picked = new Map<string, WayOffered>();

  override ways(step: string, place: string, key: string, state: State): readonly WayOffered[] {
    const all = super.ways(step, place, key, state);
    if (!all.length) return all;
    const id = `${step}@${place} ${key} ${all.map((w) => w.way)}`;
    const known = this.picked.get(id);
    if (known) return [known];
    const of = this.states.steps.get(step);
    const screen = of ? saysOf(of, key, (t) => fillIn(state.values, t, place)) : '';
    const one = this.pick(all, screen);
    this.picked.set(id, one);
    return [one];
  }
}
