/** What an entry of the journal says, in a few words. */
import type { Entry } from '../../engine/journal/entry.js';
import type { State } from '../../engine/state/state.js';
import { fillIn, showValue } from '../../engine/values/texts.js';
import { keepsTyped } from '../../procedure/model.js';

export const labelOf = (state: State, key: string, place: string): string =>
  fillIn(state.values, state.model.keys.get(key)?.label ?? key, place);

const bare = (text: string): string => text.replace(/[\s\u00a0°]/g, '').toLowerCase();

/** The value with its unit, and what was typed when that reads differently. */
export function valueWords(
  state: State,
  e: { key: string; value: Extract<Entry, { kind: 'answer' }>['value']; typed?: string; plusMinus?: number },
): string {
  const shown = showValue(state.model, e.key, e.value, e.plusMinus) || 'left empty';
  const same =
    !e.typed ||
    !keepsTyped(state.model.keys.get(e.key)) ||
    bare(shown).startsWith(bare(e.typed)) ||
    /^[\d\s.,+-]*$/.test(e.typed);
  return same ? shown : `${shown} (typed ${e.typed})`;
}

export function placeWords(state: State, place: string): string {
  return place === 'job' ? 'Whole job' : state.values.placeLabel(place);
}

/** `Dose set: 1.9 mL → 1.5 mL`. */
export function correctedWords(state: State, e: Extract<Entry, { kind: 'correct' }>): string {
  const old = state.entries[e.of - 1];
  const was = old?.kind === 'answer' || old?.kind === 'correct' ? `${valueWords(state, old)} → ` : '';
  return `${labelOf(state, e.key, e.place)}: ${was}${valueWords(state, e)}`;
}

/** Longest that free words are said in passing: the whole of them stands under “Notes and handovers” and on the sheet. */
const BRIEF = 140;
const brief = (text: string): string =>
  text.length > BRIEF ? `${text.slice(0, BRIEF).replace(/\s+\S*$/, '')} …` : text;

/** `Top speed: 12 000 rpm`. */
export function entryWords(state: State, e: Entry): string {
  const title = 'step' in e ? (state.model.steps.get(e.step)?.title ?? e.step) : '';
  switch (e.kind) {
    case 'answer':
      return `${labelOf(state, e.key, e.place)}: ${valueWords(state, e)}`;
    case 'correct':
      return `Corrected ${labelOf(state, e.key, e.place)}: ${valueWords(state, e)}`;
    case 'predict':
      return `Expected ${labelOf(state, e.key, e.place)}: ${String(e.value)}`;
    case 'caution':
      return `Caution read: ${title}`;
    case 'done':
      return `Done: ${title}`;
    case 'sign':
      return `Signed by ${e.initials}: ${title}`;
    case 'refuse':
      return `Not signed by ${e.initials}: ${title} (${e.reason})`;
    case 'overrule':
      return `Gone on against advice: ${title} (${e.reason})`;
    case 'settle':
      return `Put right: ${title}`;
    case 'raise':
      return `Event: ${state.model.procedure.branches?.find((b) => b.id === e.branch)?.title ?? e.branch}`;
    case 'note':
      return `Note: ${brief(e.text)}`;
    case 'handover':
      return `Handover: ${brief(e.text)}`;
    case 'name':
      return `Name: ${e.name}`;
    case 'picture':
      return `Picture: ${title}`;
    case 'pace':
      return `Pace: ${e.pace}`;
    case 'operator':
      return `${e.initials} took over`;
    case 'job':
      return `Job begun: ${e.name}`;
    case 'undo':
      return 'Taken back';
    case 'procedure':
      return `Procedure ${e.version} taken over`;
  }
}

/**
 * The entry that holds last: not taken back, and more than a change of hands. A danger that was read, and work that a
 * reading said was done, would hide the reading that was typed before.
 */
export function lastRecorded(state: State): Entry | undefined {
  return state.entries.findLast(
    (e) =>
      !state.takenBack(e) &&
      !['undo', 'operator', 'procedure', 'caution'].includes(e.kind) &&
      !(e.kind === 'note' && e.clock) &&
      !(e.kind === 'done' && e.joined),
  );
}
