/** What was taken back by undo: on the sheet with its value, so that no reading vanishes without a trace. */
import type { Entry } from '../engine/journal/entry.js';
import { entriesOf, type State } from '../engine/state/state.js';
import { partLabel, textOf, whereOf } from '../engine/state/told.js';
import { stepOfEntry } from './people.js';
import type { TakenBack } from './sheet-data.js';

/** What an entry was, and the value that it gave. */
function said(state: State, e: Entry): { what: string; text: string } {
  switch (e.kind) {
    case 'answer':
      return { what: partLabel(state, e.key, e.place), text: textOf(state, e.key, e.value, e.plusMinus) };
    case 'correct':
      return {
        what: `correction of ${partLabel(state, e.key, e.place)}`,
        text: `${textOf(state, e.key, e.value, e.plusMinus)}; ${e.reason}`,
      };
    case 'predict':
      return { what: `expected ${partLabel(state, e.key, e.place)}`, text: e.typed ?? String(e.value) };
    case 'sign':
      return { what: 'signature', text: e.initials };
    case 'refuse':
      return { what: 'refused signature', text: `${e.initials}: ${e.reason}` };
    case 'overrule':
      return { what: `overruled stop (${e.gate})`, text: `${e.initials}: ${e.reason}` };
    case 'settle':
      return { what: 'work looked at again', text: e.reason };
    case 'raise':
      return {
        what: state.model.procedure.branches?.find((b) => b.id === e.branch)?.title ?? e.branch,
        text: e.text ?? '',
      };
    case 'note':
    case 'handover':
      return { what: e.kind, text: e.text };
    case 'name':
      return { what: `name of ${e.of}`, text: e.name };
    case 'picture':
      return { what: 'picture', text: e.name };
    case 'caution':
      return { what: 'caution acknowledged', text: '' };
    case 'done':
      return { what: 'confirmed as done', text: '' };
    default:
      return { what: e.kind, text: '' };
  }
}

export function takenBackOf(state: State): TakenBack[] {
  const back = new Map(entriesOf(state, 'undo').map((e) => [e.of, e]));
  return state.entries.flatMap((e) => {
    const by = back.get(e.seq);
    if (!by || !state.takenBack(e)) return [];
    const at =
      'step' in e
        ? stepOfEntry(state, e)
        : { ...whereOf(state, 'place' in e ? e.place : 'job'), title: e.kind === 'raise' ? 'Unforeseen' : '' };
    return [
      {
        place: at.place,
        where: at.where,
        title: at.title,
        ...said(state, e),
        at: e.at,
        by: e.by,
        back: { at: by.at, by: by.by },
      },
    ];
  });
}
