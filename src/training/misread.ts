/** What was typed in practice, held against what the invented rotor showed. Pure. */
import type { Answer } from '../engine/journal/entry.js';
import type { Given } from '../engine/journal/ledger.js';
import type { State } from '../engine/state/state.js';
import { fillIn, showValue } from '../engine/values/texts.js';
import { readAnswer } from '../procedure/questions/index.js';
import type { Question } from '../procedure/schema.js';
import type { PracticeRotor } from './practice-rotor.js';
import type { Typed } from './rotor-file.js';
import { stateAfter } from './trap-outcomes.js';

export interface Misread {
  readonly step: string;
  readonly key: string;
  readonly place: string;
  readonly title: string;
  readonly label: string;
  /** Name of its place; empty for the whole job. */
  readonly where: string;
  /** As it stands in the journal, and as it was shown; both in words. */
  readonly typed: string;
  readonly shown: string;
  /** As it would have been typed. */
  readonly shownTyped: Typed | undefined;
  /** Initials of who typed it. */
  readonly by: string;
  /** Of a log, the number of the reading, from 0. */
  readonly row?: number;
}

/** Value of an option that says so. */
const UNKNOWN = 'unknown';

/** Reading off and rounding are no mistake: share of the value shown. */
const NEAR = 0.02;

/** True where two answers are the same reading. */
export function same(a: Answer, b: Answer): boolean {
  if (typeof a === 'number' && typeof b === 'number') return Math.abs(a - b) <= NEAR * Math.abs(b) + 1e-9;
  if (typeof a === 'string' && typeof b === 'string') return bare(a) === bare(b);
  // Fewer readings than it shows are no misread ones; more of them are.
  if (Array.isArray(a) && Array.isArray(b))
    return a.length > 0 && a.length <= b.length && a.every((x, i) => same(x, b[i]));
  return a === b;
}
const bare = (text: string): string =>
  text
    .toLowerCase()
    .replace(/\(invented\)/g, '')
    .replace(/\s+/g, ' ')
    .trim();

/** Every reading that stands and differs from what the rotor shows, in the order in which they were first given. */
export function misreadings(state: State, rotor: PracticeRotor): Misread[] {
  const doubted = [...state.ledger.steps].flatMap(([id, ledger]) => {
    const [stepId = '', place = ''] = id.split('@');
    const step = state.model.steps.get(stepId);
    return (step?.ask ?? []).flatMap((question) => {
      const rows = step?.repeat ? ledger.rows.map((r) => r.get(question.key)) : [ledger.answers.get(question.key)];
      return rows.flatMap((given, row) => {
        const asked = { step: stepId, place, question, row };
        const doubt = given && doubtOf(state, rotor, asked, given);
        return given && doubt ? [{ asked, given, doubt }] : [];
      });
    });
  });
  doubted.sort((a, b) => a.given.first.seq - b.given.first.seq);
  let then: { readonly state: State; readonly index: number } | undefined;
  return doubted.flatMap(({ asked, given, doubt }) => {
    // What is shown may hang on what was done later: what counts is what stood there when it was typed.
    const index = state.entries.findIndex((e) => e.seq === given.first.seq) - 1;
    if (index >= 0 && then?.index !== index)
      then = { state: stateAfter(state, index, then && { before: then.state, spent: true }), index };
    const shown = index >= 0 && then ? doubt.showed(then.state) : doubt.now;
    if (shown === undefined || same(given.value, shown.value)) return [];
    const { step, place, question, row } = asked;
    const named = state.model.steps.get(step);
    return [
      {
        step,
        key: question.key,
        place,
        title: fillIn(state.values, named?.title ?? step, place),
        label: fillIn(state.values, question.label, place),
        where: place === 'job' ? '' : state.values.placeLabel(place),
        typed: showValue(state.model, question.key, given.value, given.plusMinus, 'as-read') || 'left empty',
        shown: showValue(state.model, question.key, shown.value, undefined, 'as-read'),
        shownTyped: shown.typed,
        by: given.entry.by,
        ...(named?.repeat ? { row } : {}),
      },
    ];
  });
}

interface Shown {
  readonly value: Answer;
  readonly typed: Typed;
}
interface Asked {
  readonly step: string;
  readonly place: string;
  readonly question: Question;
  readonly row: number;
}
/** What is shown now, if anything is, and what was at another time. */
interface Doubt {
  readonly now: Shown | undefined;
  readonly showed: (at: State) => Shown | undefined;
}

/** Whether another value than the one given is shown by what is known today. */
function doubtOf(state: State, rotor: PracticeRotor, asked: Asked, given: Given): Doubt | undefined {
  if (!rotor.mayShow(asked.step, asked.place, asked.question.key)) return undefined;
  const way = given.entry.way ?? given.first.way;
  const showed = (at: State, by = way): Shown | undefined => {
    const text = rotor.typed(asked.step, asked.place, asked.question.key, asked.row, at, by);
    const read = text === undefined ? undefined : readAnswer(asked.question, text, state.model.tables, undefined);
    return read?.ok && text !== undefined ? { value: read.value, typed: text } : undefined;
  };
  const now = showed(state);
  if (now !== undefined && same(given.value, now.value)) return undefined;
  // A poor way that shows something else: who says what a better one would show has it right by luck.
  const better = way === undefined ? [] : rotor.waysThatTell(asked.step, asked.place, asked.question.key, state);
  if (better.map((by) => showed(state, by)).some((told) => told && same(given.value, told.value))) return undefined;
  // Not to know is honest where it may be said; and some things may be measured in another way as well.
  if (asked.question.kind === 'choice' && given.value === UNKNOWN) return undefined;
  if (rotor.also(asked.step, asked.place, asked.question.key, asked.row, state).includes(String(given.value)))
    return undefined;
  return { now, showed };
}
