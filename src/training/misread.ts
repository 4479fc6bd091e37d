/** What was typed in practice, held against what the invented rotor showed. Pure. */
import type { Answer, Entry } from '../engine/journal/entry.js';
import { sameInitials } from '../engine/journal/initials.js';
import type { Given } from '../engine/journal/ledger.js';
import type { State } from '../engine/state/state.js';
import { fillIn, showValue } from '../engine/values/texts.js';
import { readAnswer } from '../procedure/questions/index.js';
import type { Question } from '../procedure/schema.js';
import type { PracticeRotor } from './practice-rotor.js';
import type { Typed } from './rotor-file.js';
import { phaseOf } from './stands.js';
import { stateAfter } from './trap-outcomes.js';

export interface Misread {
  /** Order of its phase in the work, from 0. */
  readonly phase: number;
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
  /** What there was to be seen, heard or felt of it, where that is not the answer itself. */
  readonly saw?: string;
  /** As it would have been typed. */
  readonly shownTyped: Typed | undefined;
  /** Initials of who typed it. */
  readonly by: string;
  /** Of a log, the number of the reading, from 0. */
  readonly row?: number;
  /** It was left empty where that is offered: not measured, which is no misreading. */
  readonly empty?: true;
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

/** A name in other words is the same one where it ends in the same number or letter. */
function isShortFor({ kind }: Question, typed: Answer, shown: Answer): boolean {
  if (kind !== 'text' || typeof typed !== 'string' || typeof shown !== 'string') return false;
  const last = (text: string): string | undefined =>
    bare(text)
      .match(/[\p{L}\p{N}]+/gu)
      ?.at(-1);
  return last(typed) !== undefined && last(typed) === last(shown);
}

/** Every answer that stands, with its question. */
function answered(state: State): { readonly asked: Asked; readonly given: Given }[] {
  return [...state.ledger.steps].flatMap(([id, ledger]) => {
    const [stepId = '', place = ''] = id.split('@');
    const step = state.model.steps.get(stepId);
    return (step?.ask ?? []).flatMap((question) => {
      const rows = step?.repeat ? ledger.rows.map((r) => r.get(question.key)) : [ledger.answers.get(question.key)];
      return rows.flatMap((given, row) => (given ? [{ asked: { step: stepId, place, question, row }, given }] : []));
    });
  });
}

/** True where the answer is one's own to give: a name in one's own words, unless it is what the job is known by. */
const isFree = (state: State, { kind, key }: Question): boolean =>
  kind === 'text' && !state.model.procedure.sheet?.front?.known_by?.includes(key);

const leftEmpty = ({ optional }: Question, { value }: Pick<Given, 'value'>): boolean =>
  optional === true && value === '';

/** How many answers a person with these initials read off the rotor. */
export const readOff = (state: State, rotor: PracticeRotor, by: string): number =>
  answered(state).filter(
    ({ asked: { step, place, question }, given }) =>
      sameInitials(given.entry.by, by) &&
      !leftEmpty(question, given) &&
      !isFree(state, question) &&
      rotor.mayShow(step, place, question.key),
  ).length;

/** A reading that was typed otherwise than it showed, and put right by the same hand. */
export interface PutRight {
  /** Order of its phase in the work, from 0. */
  readonly phase: number;
  readonly key: string;
  readonly place: string;
  readonly label: string;
  readonly where: string;
  readonly first: string;
  readonly now: string;
}

/** Held against what was shown when it was typed: what is shown may change by what was done since. */
function wasWrong(state: State, e: Given['entry'], doubt: Doubt | undefined): boolean {
  const before = state.entries.findIndex((o) => o.seq === e.seq) - 1;
  const shown = doubt && before >= 0 ? doubt.showed(stateAfter(state, before)) : undefined;
  return shown !== undefined && !same(e.value, shown.value);
}

/** What was first typed otherwise than the rotor shows and stands as it shows now. */
export function putRight(state: State, rotor: PracticeRotor, by: string): PutRight[] {
  const entries = new Map<string, Entry[]>();
  for (const e of state.entries) {
    if (e.kind !== 'answer' && e.kind !== 'correct') continue;
    const slot = `${e.step}@${e.place}:${e.key}`;
    entries.set(slot, [...(entries.get(slot) ?? []), e]);
  }
  return answered(state).flatMap(({ asked, given }) => {
    const { step, place, question } = asked;
    if (state.model.steps.get(step)?.repeat || !sameInitials(given.entry.by, by)) return [];
    if (doubtOf(state, rotor, asked, given)) return [];
    const wrong = (entries.get(`${step}@${place}:${question.key}`) ?? []).find(
      (e): e is Given['entry'] =>
        (e.kind === 'answer' || e.kind === 'correct') &&
        e.seq < given.entry.seq &&
        sameInitials(e.by, by) &&
        !same(e.value, given.value) &&
        !leftEmpty(question, e) &&
        wasWrong(state, e, doubtOf(state, rotor, asked, { ...given, value: e.value, entry: e })),
    );
    if (!wrong) return [];
    const words = (value: Answer): string => showValue(state.model, question.key, value, undefined, 'as-read');
    return [
      {
        phase: phaseOf(state, step),
        key: question.key,
        place,
        label: fillIn(state.values, question.label, place),
        where: place === 'job' ? '' : state.values.placeLabel(place),
        first: words(wrong.value),
        now: words(given.value),
      },
    ];
  });
}

/** Every reading that stands and differs from what the rotor shows, in the order in which they were first given. */
export function misreadings(state: State, rotor: PracticeRotor): Misread[] {
  const doubted = answered(state).flatMap(({ asked, given }) => {
    const doubt = doubtOf(state, rotor, asked, given);
    return doubt ? [{ asked, given, doubt }] : [];
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
    const saw = rotor.shows(step, place, question.key, row, then?.state ?? state, given.entry.way ?? given.first.way);
    const shownWords = showValue(state.model, question.key, shown.value, undefined, 'as-read');
    const named = state.model.steps.get(step);
    return [
      {
        phase: phaseOf(state, step),
        step,
        key: question.key,
        place,
        title: fillIn(state.values, named?.title ?? step, place),
        label: fillIn(state.values, question.label, place),
        where: place === 'job' ? '' : state.values.placeLabel(place),
        typed: showValue(state.model, question.key, given.value, given.plusMinus, 'as-read') || 'left empty',
        shown: shownWords,
        ...(saw === undefined || bare(saw).includes(bare(shownWords)) || bare(saw) === bare(String(shown.typed))
          ? {}
          : { saw }),
        shownTyped: shown.typed,
        by: given.entry.by,
        ...(leftEmpty(question, given) ? { empty: true as const } : {}),
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
  if (!rotor.mayShow(asked.step, asked.place, asked.question.key) || isFree(state, asked.question)) return undefined;
  const way = given.entry.way ?? given.first.way;
  const showed = (at: State, by = way): Shown | undefined => {
    const text = rotor.typed(asked.step, asked.place, asked.question.key, asked.row, at, by);
    const read = text === undefined ? undefined : readAnswer(asked.question, text, state.model.tables, undefined);
    return read?.ok && text !== undefined ? { value: read.value, typed: text } : undefined;
  };
  const now = showed(state);
  if (now !== undefined && (same(given.value, now.value) || isShortFor(asked.question, given.value, now.value)))
    return undefined;
  // A poor way that shows something else: who says what a better one would show has it right by luck.
  const better = way === undefined ? [] : rotor.waysThatTell(asked.step, asked.place, asked.question.key, state);
  if (better.map((by) => showed(state, by)).some((told) => told && same(given.value, told.value))) return undefined;
  // Not to know is honest where it may be said; and some things may be measured in another way as well.
  if (asked.question.kind === 'choice' && given.value === UNKNOWN) return undefined;
  if (rotor.also(asked.step, asked.place, asked.question.key, asked.row, state).includes(String(given.value)))
    return undefined;
  return { now, showed };
}
