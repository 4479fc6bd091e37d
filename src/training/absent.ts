/**
 * Where an invented rotor has nothing to read a question off: it is asked only since something was answered otherwise than
 * the rotor shows it, or since something was reported that did not happen. That is said, with the way back. Pure.
 */
import type { State } from '../engine/state/state.js';
import { fillIn, suggestionOf } from '../engine/values/texts.js';
import { readAnswer } from '../procedure/questions/index.js';
import { misreadings, same } from './misread.js';
import type { PracticeRotor } from './practice-rotor.js';

/** @returns undefined where the rotor shows it, or where it is for whoever works to say: a decision, a free word */
export function absentWords(
  rotor: PracticeRotor,
  state: State,
  at: { readonly step: string; readonly place: string; readonly key: string; readonly row: number },
): string | undefined {
  const step = state.model.steps.get(at.step);
  const question = step?.ask?.find((q) => q.key === at.key);
  if (!step || !question || step.decision || question.kind === 'text') return undefined;
  if (rotor.ways(at.step, at.place, at.key, state).length) return undefined;
  if (rotor.shows(at.step, at.place, at.key, at.row, state) !== undefined) return undefined;
  if (suggestionOf(state.values, question, at.place) !== undefined) return undefined;
  const wrong = misreadings(state, rotor).length > 0;
  if (step.branch !== undefined && !wrong) {
    const title = state.model.procedure.branches?.find((b) => b.id === step.branch)?.title ?? step.title;
    return `This did not happen here: press u until “${fillIn(state.values, title, at.place)}” is taken back.`;
  }
  if (!wrong) return undefined;
  // Which of the answers led here is not known: none is blamed.
  return 'It shows nothing for your answers here: u goes back.';
}

/** True where the rotor shows another reading than the guide would offer. */
function contradicts(
  rotor: PracticeRotor,
  state: State,
  at: { readonly step: string; readonly place: string; readonly key: string; readonly row: number },
  offered: string,
  way: string | undefined,
): boolean {
  const question = state.model.steps.get(at.step)?.ask?.find((q) => q.key === at.key);
  const shown = rotor.typed(at.step, at.place, at.key, at.row, state, way);
  if (!question || shown === undefined) return false;
  const [a, b] = [offered, shown].map((text) => readAnswer(question, text, state.model.tables, undefined));
  return !(a?.ok && b?.ok && same(a.value, b.value));
}

/** What the screens are told of it. */
export const asPractised = (rotor: PracticeRotor) => ({
  story: rotor.story,
  ways: rotor.ways.bind(rotor),
  shows: rotor.shows.bind(rotor),
  quiet: rotor.quiet.bind(rotor),
  contradicts: (at: Parameters<typeof contradicts>[2], offered: string, state: State, way: string | undefined) =>
    contradicts(rotor, state, at, offered, way),
  absent: (step: string, place: string, key: string, row: number, state: State) =>
    absentWords(rotor, state, { step, place, key, row }),
});
