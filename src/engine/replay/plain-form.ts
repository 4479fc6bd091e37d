/**
 * The form of a replay file, told without the library that tells what is wrong with one: true only where `replaySchema` lets
 * it pass as it stands. `replay/plain-form` holds one against the other.
 */
import { isList, isRecord } from '../../guards/guards.js';
import type { ReplayFile } from './replay-file.js';

type Fits = (x: unknown) => boolean;
type Names = Readonly<Record<string, Fits>>;

const text: Fits = (x) => typeof x === 'string';
const words: Fits = (x) => typeof x === 'string' && x !== '';
const yesNo: Fits = (x) => typeof x === 'boolean';
const one: Fits = (x) => text(x) || yesNo(x) || Number.isFinite(x);
const duration: Fits = (x) => text(x) || Number.isFinite(x);

const either =
  (a: Fits, b: Fits): Fits =>
  (x) =>
    a(x) || b(x);
const list =
  (of: Fits): Fits =>
  (x) =>
    isList(x) && x.every((item) => of(item));
const typed = either(one, list(one));

/** Any names. */
const names =
  (of: (x: unknown, name: string) => boolean): Fits =>
  (x) =>
    isRecord(x) && Object.keys(x).every((name) => name !== '__proto__' && of(x[name], name));
/** These names, each of them, and any of those that may be left out. */
const block =
  (needed: Names, more: Names = {}): Fits =>
  (x) =>
    isRecord(x) &&
    Object.keys(needed).every((name) => Object.hasOwn(x, name)) &&
    Object.keys(x).every((name) => {
      const of = Object.hasOwn(needed, name) ? needed[name] : Object.hasOwn(more, name) ? more[name] : undefined;
      return of?.(x[name]) ?? false;
    });

const overrule = block({ gate: text, reason: text, initials: text });
const row = names((x, name) => name !== 'after' || duration(x));
const stepItem = block(
  { step: text },
  {
    ...{ at: text, after: duration, by: text, answers: names(typed), rows: list(row), as: text, predict: names(typed) },
    ...{ ways: names(text), held: text, overrule: either(overrule, list(overrule)) },
    ...{ sign: text, own: text, sign_after: duration },
    refuse: block({ reason: text, initials: text }),
  },
);
const otherItems: readonly Fits[] = [
  block({ raise: text, at: text }, { after: duration, text }),
  block(
    { correct: block({ step: text, key: text, value: typed, reason: text }, { at: text, way: text }) },
    { after: duration },
  ),
  block({ settle: block({ step: text, reason: text }, { at: text }) }, { after: duration }),
  block({ note: text }, { at: text }),
  block({ handover: text }),
];
const whole = block(
  {
    ...{ replay: (x) => x === 1, name: words, procedure: words, by: words },
    steps: (x) =>
      isList(x) && x.length > 0 && x.every((item) => stepItem(item) || otherItems.some((fits) => fits(item))),
  },
  {
    ...{ invented: yesNo, apprentice: text, mentor: text, practice: text, earlier: words, start: text },
    pace: (x) => x === 'learning' || x === 'brisk',
  },
);

export const isPlainReplay = (x: unknown): x is ReplayFile => whole(x);
